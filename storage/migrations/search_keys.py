"""What a customer is found again by, as SQLite itself reckons it: the indexes hold these.

They are part of the step that made the indexes and of every search by them, so they are added to,
never changed.
"""


def squeezed(column: str) -> str:
    """A name or a place in small letters, without spaces and the commonest signs."""
    text = f"replace({column}, '&', 'and')"
    for sign in (" ", ".", ",", "-", "''"):
        text = f"replace({text}, '{sign}', '')"
    return f"lower({text})"


def _odd(column: str) -> str:
    return f"{column} GLOB '*[^A-Za-z0-9 .,''&-]*'"


def _end(column: str, signs: str, cells: int) -> str:
    text = column
    for sign in signs:
        text = f"replace({text}, '{sign}', '')"
    return f"substr({text}, -{cells})"


NUMBER_CELLS, POSTCODE_CELLS = 9, 5
NUMBER_END = _end("phone", " -.()", NUMBER_CELLS)
"""The last digits of a number, which are the same with a nought or +44 in front."""
POSTCODE_END = f"upper({_end('address', ' ', POSTCODE_CELLS)})"
"""The last letters of an address, where the postcode stands."""

ODD_CUSTOMER = f"{_odd('name')} OR phone GLOB '*[^0-9+() .-]*'"
"""A name that :func:`squeezed` does not do justice to, or a number with words beside it."""
ODD_SITE = _odd("place")
