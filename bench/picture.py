"""``make picture``: draws the week of the demo, as the program shows it, into an SVG file."""

import asyncio
import re
import sys
import tempfile
from datetime import datetime
from pathlib import Path

from demo_data.layout import lay_out
from demo_data.story import Story
from tui.app import make_app

SIZE = (110, 34)
EVENING = datetime(2026, 11, 25, 19, 30)

_FETCHED = re.compile(r"@font-face \{.*?\}\s*|<!--.*?-->\s*", re.DOTALL)
"""Fonts from the network and a remark: a picture needs neither."""


async def draw_week() -> str:
    """The week on an evening in November, as SVG."""
    with tempfile.TemporaryDirectory(prefix="headlap-picture-") as folder:
        book = Path(folder) / "demo.db"
        lay_out(book, Story.read(), EVENING)
        app = make_app(book, lambda: EVENING)
        async with app.run_test(size=SIZE) as pilot:
            await pilot.pause()
            await app.workers.wait_for_complete()
            return _FETCHED.sub("", app.export_screenshot(title="Headlap"))


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(asyncio.run(draw_week()), encoding="utf-8")
