"""How many random examples a test tries, where a hundred would be too many or too few."""

from hypothesis import settings

_WHOLE = 100


def share(most: int) -> int:
    """So many in a whole run; in a quick one the share that its profile has of a hundred.

    The profiles stand in ``tests/conftest.py``.
    """
    return -(-most * settings().max_examples // _WHOLE)


def examples(most: int) -> settings:
    """A share of so many random examples."""
    return settings(max_examples=share(most))
