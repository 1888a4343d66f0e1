"""Columns as the steps of the migration write them: a type, and the check that guards it.

SQLite has no dates and no exact decimals: days are ISO text, decimals plain digits, money whole
pence. The words here are part of every step that used them, so they are added to, never changed.
"""

ID = "id INTEGER PRIMARY KEY AUTOINCREMENT"
"""Never given twice, even after a row has gone: what stands on a screen cannot mean another."""


def words(name: str) -> str:
    """A column of text, possibly empty."""
    return f'"{name}" TEXT NOT NULL'


def day(name: str, *, known: bool = True) -> str:
    """An ISO day; not ``known``: possibly none."""
    return f'"{name}" TEXT{_needed(known)} CHECK ("{name}" IS NULL OR "{name}" IS date("{name}"))'


def decimal(name: str, *, known: bool = True) -> str:
    """An exact number in plain digits."""
    digits = f"\"{name}\" <> '' AND \"{name}\" NOT GLOB '*[^0-9.-]*'"
    return f'"{name}" TEXT{_needed(known)} CHECK ({digits})'


def pence(name: str, *, known: bool = True, least: int = 0) -> str:
    """Money in whole pence."""
    return f'"{name}" INTEGER{_needed(known)} CHECK ("{name}" >= {least})'


def flag(name: str, *, known: bool = True) -> str:
    """Yes (1) or no (0)."""
    return f'"{name}" INTEGER{_needed(known)} CHECK ("{name}" IN (0, 1))'


def whole(name: str, least: int, most: int, *, known: bool = True) -> str:
    """A whole number within limits."""
    return f'"{name}" INTEGER{_needed(known)} CHECK ("{name}" BETWEEN {least} AND {most})'


def group(name: str, *, known: bool = True) -> str:
    """A group of figures as JSON."""
    # Older SQLite says of NULL that it is no JSON, so that NULL is let through by name.
    return f'"{name}" TEXT{_needed(known)} CHECK ("{name}" IS NULL OR json_valid("{name}"))'


def one_of(name: str, *choices: str, known: bool = True) -> str:
    """One of a few words."""
    listed = ", ".join("'" + choice.replace("'", "''") + "'" for choice in choices)
    return f'"{name}" TEXT{_needed(known)} CHECK ("{name}" IN ({listed}))'


def of(table: str, name: str | None = None, *, known: bool = True, key: str = "id") -> str:
    """The row of another table."""
    return f"{name or table + '_id'} INTEGER{_needed(known)} REFERENCES {table} ({key})"


def only_one_per(table: str, key: str = "id") -> str:
    """At most one row for a row of another table."""
    return f"{table}_id INTEGER PRIMARY KEY REFERENCES {table} ({key})"


def _needed(known: bool) -> str:
    return " NOT NULL" if known else ""
