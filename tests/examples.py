"""How many random examples a test tries, where a hundred would be too many or too few."""

from hypothesis import settings

_WHOLE = 100


def examples(most: int) -> settings:
    """So many of them in a whole run; in a quick one the share that its profile has of a hundred.

    The profiles stand in ``tests/conftest.py``.
    """
    return settings(max_examples=-(-most * settings().max_examples // _WHOLE))
