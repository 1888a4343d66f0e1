"""Work that may take for ever, as on a folder of a network: it holds up nobody."""

import asyncio
import threading
from collections.abc import Callable
from contextlib import suppress
from typing import Any, TypeVar

T = TypeVar("T")


async def unhurried(work: Callable[[], T]) -> T:
    """Do it in a thread that not even the end of the program waits for; returns what it does.

    Raises what the work raises.
    """
    loop = asyncio.get_running_loop()
    done: asyncio.Future[T] = loop.create_future()

    def run() -> None:
        try:
            result = work()
        except Exception as error:  # handed on to whoever waits
            tell(done.set_exception, error)
        else:
            tell(done.set_result, result)

    def tell(answer: Callable[[Any], None], what: object) -> None:
        with suppress(RuntimeError):  # the program has ended
            loop.call_soon_threadsafe(lambda: None if done.done() else answer(what))

    threading.Thread(target=run, daemon=True).start()
    return await done
