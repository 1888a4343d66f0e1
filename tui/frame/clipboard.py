"""Copying: by the system's own tool where there is one, which alone says that it was done."""

import os
import shutil
import subprocess
from dataclasses import dataclass

from tui.frame.unhurried import unhurried

_WAIT_S = 2


@dataclass(frozen=True, slots=True)
class _Tool:
    """A program that copies what it is given."""

    command: tuple[str, ...]
    needs: str = ""
    """The variable without which it has no screen to copy on."""
    encoding: str = "utf-8"


_TOOLS = (
    _Tool(("wl-copy",), "WAYLAND_DISPLAY"),
    _Tool(("xclip", "-selection", "clipboard"), "DISPLAY"),
    _Tool(("xsel", "--clipboard", "--input"), "DISPLAY"),
    _Tool(("pbcopy",)),
    _Tool(("clip",), "WINDIR", "utf-16-le"),
)


async def copied(text: str) -> bool:
    """Copy a text; True if a tool took it. Else the terminal can be asked, which never answers."""
    return await unhurried(lambda: any(_copied(tool, text) for tool in _TOOLS))


def _copied(tool: _Tool, text: str) -> bool:
    program = shutil.which(tool.command[0])
    if program is None or (tool.needs and not os.environ.get(tool.needs)):
        return False
    try:
        done = subprocess.run(  # noqa: S603  one of the tools above, given the text as its input
            [program, *tool.command[1:]],
            input=text.encode(tool.encoding, "replace"),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
            timeout=_WAIT_S,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.returncode == 0
