"""A window closed in the middle of a form, or a program told to end: what was typed is offered."""

import random
import signal
from pathlib import Path

from storage.kept_typing import take_over_typing
from tests.storage.books import query
from tests.torture.outcome import Outcome, try_each
from tests.tui.books.an_enquiry import book_at
from tests.tui.terminal import ENTER, Terminal, ctrl

_NAMES = ("Dave Hollis", "Ann O'Brien", "Mrs Adeyemi", "Zoë Ek")
_NEW_ENQUIRY = "\x1b[18~"  # f7


def closed_windows(tries: int, seed: int, folder: Path) -> Outcome:
    """SIGHUP and SIGTERM by turns: a save before it is in the one file, a draft is kept."""
    signs = [signal.SIGHUP, signal.SIGTERM]

    def once(chance: random.Random, home: Path) -> str:
        path, sign = home / "book.db", signs[0]
        signs.reverse()
        book_at(path)
        name, place = chance.choice(_NAMES), f"plot {chance.randrange(1000)}"
        saved = chance.randrange(2)
        with Terminal(path) as terminal:
            terminal.shows("Tonight")
            for _ in range(saved):
                terminal.types(_NEW_ENQUIRY, name, ENTER, "Mill Row", ctrl("s"), pause_s=0.005)
                terminal.shows("0002")
            terminal.types(_NEW_ENQUIRY, "Draft ", name, ENTER, place, pause_s=0.005)
            terminal.shows(place)
            status = terminal.ends(sign)
        if status != 128 + sign:
            return f"ended with {status} after {sign.name}"
        alone = home / "copy" / path.name
        alone.parent.mkdir()
        alone.write_bytes(path.read_bytes())
        if query(alone, "SELECT count(*) FROM job") != [(1 + saved,)]:
            return "a plain copy lacks the save"
        kept = [dict(each.values) for each in take_over_typing(path)]
        wanted = {f"Draft {name}", place}
        return "" if len(kept) == 1 and wanted <= {*kept[0].values()} else f"kept {kept}"

    return try_each("window closed with a draft", tries, seed, folder, once)
