"""How many random examples a test tries, where a hundred would be too many or too few."""

from hypothesis import settings

_WHOLE = 100


def share(most: int, quick: int | None = None) -> int:
    """So many in a whole run; in a ``quick`` one that, else the share its profile has of a hundred.

    The profiles stand in ``tests/conftest.py``.
    """
    tried = settings().max_examples
    if quick is not None and tried < _WHOLE:
        return quick
    return -(-most * tried // _WHOLE)


def examples(most: int) -> settings:
    """A share of so many random examples."""
    return settings(max_examples=share(most))
