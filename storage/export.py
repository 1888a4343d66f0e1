"""Every table as a CSV file, for a spreadsheet or another program."""

import csv
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import closing
from io import StringIO
from pathlib import Path
from typing import Annotated, Any, Final, get_args, get_origin, get_type_hints

from domain.money import plain_pounds
from storage.bookfile import State, connect, look_at
from storage.errors import OF_SQLITE, NotCurrent, in_words
from storage.rows import TableRow
from storage.rows.base import EXACT, MONEY
from storage.texts import without_control

ENCODING: Final = "utf-8-sig"
"""With a byte order mark: without one a spreadsheet on Windows reads £ and é in its own code page.
Programs that need none skip it."""

_RUN_AS_FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""How a text begins that a spreadsheet would run."""

_EXACT_NUMBER = re.compile(r"-?\d+(\.\d+)?")


def export_tables(book: Path) -> Iterator[tuple[str, bytes]]:
    """Give every table of a book, by its name, as the content of a CSV file.

    Numbers are numbers; money is in pounds with two decimals, in a column that says so. Text that a
    spreadsheet would run as a formula begins with an apostrophe, and control characters are left
    out. All of it is as it stood at one moment. Raises :class:`NotCurrent` if the book has to be
    opened first.
    """
    if look_at(book) is not State.CURRENT:
        raise NotCurrent(book)
    try:
        with closing(connect(book, read_only=True)) as connection:
            connection.execute("BEGIN")
            for kind in sorted(TableRow.__subclasses__(), key=lambda kind: str(kind.__tablename__)):
                marks = _marks(kind)
                columns = ", ".join(f'"{name}"' for name in marks)
                wanted = f'SELECT {columns} FROM "{kind.__tablename__}" ORDER BY 1'  # noqa: S608 -- ours
                rows = connection.execute(wanted)
                yield str(kind.__tablename__), _csv(marks, rows)
    except OF_SQLITE as error:
        raise in_words(error) from error


def rows_as_plain_csv(titles: Sequence[str], rows: Iterable[Mapping[str, str]]) -> bytes:
    """Give rows of texts and exact numbers as :func:`rows_as_csv`, for programs and checks.

    UTF-8 without a mark, a line ends with LF, so that the same rows are the same bytes.
    """
    lines = [_line(titles)]
    lines += [_line([_cell(row[title], EXACT) for title in titles]) for row in rows]
    return "".join(lines).encode()


def _line(cells: Iterable[str | int]) -> str:
    """A line that ends with LF; a writer told to end with LF leaves a return in a text unquoted."""
    written = StringIO(newline="")
    csv.writer(written).writerow(cells)
    return written.getvalue().removesuffix("\r\n") + "\n"


def rows_as_csv(titles: Iterable[str], rows: Iterable[Iterable[str]]) -> bytes:
    """Give rows of texts and exact numbers as a CSV file that no spreadsheet runs anything of."""
    written = StringIO(newline="")
    lines = csv.writer(written)
    lines.writerow(titles)
    lines.writerows([_cell(cell, EXACT) for cell in row] for row in rows)
    return written.getvalue().encode(ENCODING)


def _csv(marks: dict[str, str], rows: Any) -> bytes:
    written = StringIO(newline="")
    lines = csv.writer(written)
    lines.writerow(_title(name, mark) for name, mark in marks.items())
    for row in rows:
        lines.writerow(_cell(*each) for each in zip(row, marks.values(), strict=True))
    return written.getvalue().encode(ENCODING)


def _marks(kind: type[TableRow]) -> dict[str, str]:
    """Return the columns of a table, each with what its numbers are; empty for none or plain."""
    hints = get_type_hints(kind, include_extras=True)
    return {name: _mark(hints[name]) for name in kind.model_fields}


def _mark(hint: object) -> str:
    for part in (hint, *get_args(hint)):
        if get_origin(part) is Annotated:
            return str(get_args(part)[1])
    return ""


def _title(name: str, mark: str) -> str:
    if mark != MONEY:
        return name
    return "pounds" if name == "pence" else f"{name}_pounds"


def _cell(cell: str | int | None, mark: str) -> str | int:
    if cell is None:
        return ""
    if isinstance(cell, int):
        return plain_pounds(cell) if mark == MONEY else cell
    if mark == EXACT and _EXACT_NUMBER.fullmatch(cell):
        return cell
    text = without_control(cell)  # another program may have written it
    return f"'{text}" if any(each.startswith(_RUN_AS_FORMULA) for each in (cell, text)) else text
