"""Money: whole pence, and the one place where money is rounded (half up).

Half up as in the arithmetic of EN 16931: 25 % of 1460.50 is 365.13, never 365.12.
"""

import re
from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import floor
from typing import TypeAlias

from domain.errors import Refused
from domain.exact import half_up

Pence: TypeAlias = int

_MOST_PENCE = 100_000_000_00  # a sole trader's sum of a hundred million pounds is a slip
_LONGEST = 24  # characters; no sum needs more
_FORM = (
    r"(?P<minus>-?)£?(?P<pounds>[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)?(?:\.(?P<part>[0-9]{1,5}))?"
    r"(?P<unit>k|p|quid|pounds?)?"
)
_PENCE_IN = {"k": 1000_00, "p": 1}
"""By what is typed after the number; a pound's without it."""
_ROUGH = (
    r"(?is)(?:(?:about|around|roughly|approximately|approx\.?|circa|c\.?|say)|[~≈])?"
    r"(?P<sum>.*?)(?:[ -]?ish)?"
)


def whole_pence(pence: Decimal) -> Pence:
    """Exact pence to whole pence, halves away from zero."""
    return int(pence.quantize(Decimal(1), rounding=ROUND_HALF_UP))


def times(pence: Pence, quantity: Decimal) -> Pence:
    """Price of a quantity: unit price in pence × quantity, rounded once."""
    return whole_pence(pence * quantity)


def share(pence: Pence, percent: Decimal) -> Pence:
    """So many per cent of a sum, rounded once."""
    return whole_pence(pence * percent / 100)


def part_of(pence: Pence, part: Fraction) -> Pence:
    """So much of a sum as a fraction says, rounded once: 8 strips of a pack of 21."""
    return half_up(pence * part)


def apportion(exact: Sequence[Decimal]) -> tuple[Pence, ...]:
    """Round exact pence so that they add up to their rounded sum: not a penny lost or found.

    Each is rounded down, and the pence left over go to those that lost most by it (the largest
    remainders), the earlier first when they lost the same.
    """
    down = [floor(each) for each in exact]
    left_over = whole_pence(sum(exact, Decimal(0))) - sum(down)
    by_loss = sorted(range(len(exact)), key=lambda i: down[i] - exact[i])
    raised = set(by_loss[:left_over])
    return tuple(pence + (i in raised) for i, pence in enumerate(down))


def show_money(pence: Pence) -> str:
    """Pence as a person reads them: ``£1,240.00``, ``−£3.96``."""
    sign = "−" if pence < 0 else ""
    return f"{sign}£{abs(pence) // 100:,}.{abs(pence) % 100:02d}"


def plain_pounds(pence: Pence) -> str:
    """Pounds as programs read them, two decimals and nothing else: ``1240.00``, ``-3.96``."""
    return f"{'-' if pence < 0 else ''}{abs(pence) // 100}.{abs(pence) % 100:02}"


def read_money(field: str, text: str, *, least: Pence = 0) -> Pence:
    """The pence in a text such as ``486``, ``£1,240.50``, ``12.5``, ``1.2k`` or ``50p``.

    Raises :class:`Refused` if the text is no sum of whole pence, is under ``least`` pence or
    absurdly great.
    """
    squeezed = text.strip().replace(" ", "").replace("−", "-").lower()
    match = re.fullmatch(_FORM, squeezed) if len(squeezed) <= _LONGEST else None
    pence = _pence(match) if match else None
    if pence is None:
        raise Refused(field, text, "Give pounds and pence, such as 486.00.")
    if pence < least:
        raise Refused(field, text, f"Give {show_money(least)} or more.")
    if pence > _MOST_PENCE:
        raise Refused(field, text, f"Give {show_money(_MOST_PENCE)} or less.")
    return pence


def read_rough_money(field: str, text: str) -> Pence:
    """The pence in a price that is only near: ``about 600``, ``~600`` or ``600ish``, or exact.

    Raises :class:`Refused` as :func:`read_money`.
    """
    match = re.fullmatch(_ROUGH, text.strip())
    try:
        return read_money(field, match["sum"] if match else text)
    except Refused as refused:  # told with all that was typed
        raise Refused(field, text, refused.remedy) from None


def _pence(match: re.Match[str]) -> Pence | None:
    """Whole pence of a sum; None if it has no figures, or parts of a penny."""
    part, unit = match["part"] or "", match["unit"]
    if not (match["pounds"] or part) or (len(part) > 2 and unit != "k"):
        return None
    pounds = (match["pounds"] or "0").replace(",", "")
    pence = Decimal(f"{pounds}.{part or 0}") * _PENCE_IN.get(unit, 100)
    if pence != pence.to_integral_value():
        return None
    return int(-pence if match["minus"] else pence)
