"""When Python looks for garbage: not at the start, and then not through what stays for good.

Left to itself it went through every class and function that is loaded, 150 ms at a time and as
often as every tenth key.
"""

import gc

_OFTEN = (2_000, 10, 20)
"""Things made between two looks, and looks between two longer ones: each takes 1 to 7 ms."""


def look_for_none() -> None:
    """Begin without: what is loaded stays, and looking through it was a tenth of the start."""
    gc.disable()


def look_for_it() -> None:
    """Look from now on, in what is made from now on; where nobody put it off, nothing changes."""
    if not gc.isenabled():
        gc.freeze()
        gc.set_threshold(*_OFTEN)
        gc.enable()


def keep_what_is_loaded() -> None:
    """Leave out what was loaded meanwhile as well; only once :func:`look_for_it` did so before."""
    if gc.get_threshold() == _OFTEN:
        gc.freeze()
