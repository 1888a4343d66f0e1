"""The reader of the command line, whose help is printed or said not to be."""

import sys
from argparse import ArgumentParser
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from _typeshed import SupportsWrite


class CommandParser(ArgumentParser):
    """As the standard library's, which passes over in silence what takes no more of its help."""

    def print_help(self, file: "SupportsWrite[str] | None" = None) -> None:
        """Print the help. Raises :class:`OSError`."""
        (file or sys.stdout).write(self.format_help())
        sys.stdout.flush()
