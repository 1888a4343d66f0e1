"""``make picture``: draws the week of the demo, as the program shows it, into an SVG file."""

import asyncio
import re
import sys
import tempfile
from datetime import datetime
from pathlib import Path

from demo_data.layout import lay_out_book
from demo_data.story import Story
from tui.shell.app import make_app

SIZE = (110, 34)
EVENING = datetime(2026, 11, 25, 19, 30)

_FETCHED = re.compile(r"@font-face \{.*?\}\s*|<!--.*?-->\s*", re.DOTALL)
"""Fonts from the network and a remark: a picture needs neither."""

_FRAME = re.compile(
    r'<rect [^>]*rx="8"/>'
    r'|<text class="[^"]*-title"[^>]*>.*?</text>'
    r'|<g transform="translate\(26,22\)">.*?</g>',
    re.DOTALL,
)
"""The window drawn round the screen: a picture for a document carries none."""
_INSIDE = re.compile(r'<rect x="0" y="0" width="([\d.]+)" height="([\d.]+)"')
_VIEW = re.compile(r'viewBox="[^"]*"')
_CORNER = (9, 41)
"""Where the screen begins inside that window."""


async def draw_week() -> str:
    """The week on an evening in November, as SVG."""
    with tempfile.TemporaryDirectory(prefix="headlap-picture-") as folder:
        book = Path(folder) / "demo.db"
        lay_out_book(book, Story.read(), EVENING)
        app = make_app(book, lambda: EVENING)
        async with app.run_test(size=SIZE) as pilot:
            await pilot.pause()
            await app.workers.wait_for_complete()
            return without_frame(_FETCHED.sub("", app.export_screenshot()))


def without_frame(svg: str) -> str:
    """The screen alone, cut to its own size."""
    width, height = _INSIDE.search(svg).groups()  # type: ignore[union-attr]  # it is always there
    left, top = _CORNER
    return _VIEW.sub(f'viewBox="{left} {top} {width} {height}"', _FRAME.sub("", svg), count=1)


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(asyncio.run(draw_week()), encoding="utf-8")
