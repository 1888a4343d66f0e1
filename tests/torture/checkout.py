"""A checkout of the project, this one or an older one, whose program is driven from outside."""

import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from tests.tui.terminal import Terminal

_START = """
import importlib, sys, threading, tomllib
book, busy = sys.argv[1:]
def spin():
    while True:
        sum(range(10_000))
for _ in range(int(busy)):
    threading.Thread(target=spin, daemon=True).start()
with open("pyproject.toml", "rb") as file:
    module, name = tomllib.load(file)["project"]["scripts"]["headlap"].split(":")
sys.argv = ["headlap", "--book", book]
sys.exit(getattr(importlib.import_module(module), name)())
"""
_JOBS = """
import sys
from pathlib import Path
from tests.storage.books import enquired, opened
with opened(Path(sys.argv[1])) as book:
    for _ in range(40):
        enquired(book)
"""
_OLD = """
import sys
from pathlib import Path
from alembic import command
from alembic.config import Config
from sqlalchemy import create_engine
from storage import migrations
engine = create_engine(f"sqlite:///{sys.argv[1]}")
with engine.begin() as connection:
    connection.exec_driver_sql("BEGIN")
    config = Config(attributes={"connection": connection})
    config.set_main_option("script_location", str(Path(migrations.__file__).parent))
    config.set_main_option("path_separator", "os")
    command.upgrade(config, "0001")
"""


@dataclass(frozen=True, slots=True)
class Checkout:
    """Where it is, and which Python runs it."""

    root: Path
    python: str = sys.executable

    def starts(self, book: Path, busy: int = 0) -> Terminal:
        """Start the program in a terminal, with so many busy threads beside it."""
        command = (self.python, "-c", _START, str(book), str(busy))
        return Terminal(book, command=command, root=self.root)

    def makes_jobs(self, book: Path) -> None:
        """Make a book of forty enquiries, as the checkout writes it."""
        self._runs(_JOBS, book)

    def makes_an_old_book(self, book: Path) -> None:
        """Make a book of the first version, as the checkout has that."""
        self._runs(_OLD, book)

    def _runs(self, code: str, book: Path) -> None:
        command = [self.python, "-c", code, str(book)]
        environment = {"PYTHONPATH": str(self.root), "PATH": "/usr/bin:/bin"}
        subprocess.run(command, check=True, cwd=self.root, env=environment, capture_output=True)
