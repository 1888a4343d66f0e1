"""``make bench``: prints every table."""

import tempfile
from datetime import datetime
from pathlib import Path

from bench.books import make_book
from bench.cuts import measure_cuts
from bench.figures import print_table
from bench.keys import measure_keys
from bench.reading import measure_reading
from bench.saves import measure_saves
from bench.sheets import measure_sheets
from bench.startup import machine_pace, measure_startup
from demo_data.layout import lay_out_book
from demo_data.story import Story

HISTORIES = (100, 1_000, 10_000, 50_000)


def main() -> None:
    """Measure on books in a scratch folder."""
    now = datetime.now()
    with tempfile.TemporaryDirectory(prefix="headlap-bench-") as folder:
        books = {jobs: Path(folder) / f"{jobs}.db" for jobs in HISTORIES}
        demo = Path(folder) / "demo.db"
        lay_out_book(demo, Story.read(), now)
        for jobs, book in books.items():
            make_book(book, demo, jobs, now.date())
        print_table("Start-up", measure_startup(books, now.date()))
        for jobs, book in books.items():
            print_table(f"Reading, {jobs:,} jobs", measure_reading(book, now.date()))
            pace = machine_pace()
            print_table(f"Keys, {jobs:,} jobs", measure_keys(book, now.date(), pace))
            print_table(f"Saves, {jobs:,} jobs", measure_saves(book, now, pace))
    print_table("Cut plans", measure_cuts())
    print_table("Sheets to work by", measure_sheets())


if __name__ == "__main__":
    main()
