"""What a customer's papers name and put a sum to: the scope in words, in few sums.

From quantities and unit prices a customer could reckon back to the trader's rates, cost and markup.
So the materials are one sum and the work is another, each for the whole job. Measured are only
boards at the rate a metre that the quote names beforehand.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from domain.coverings.materials import Material
from domain.estimate.extra_terms import is_by_the_metre, net_of
from domain.estimate.quoting import option_total
from domain.job import Extra, ExtraState, Line, LineKind, Option
from domain.money import Pence, apportion

JOB = "job"
"""The unit of what is not measured."""
DEPOSIT = "deposit"
"""The unit of what is asked for before the work."""
MATERIALS = "materials"
WORK = "work"
"""What begins the words of the two sums for the whole job."""
_SUMS = (JOB, DEPOSIT)
_FIXINGS = frozenset(
    (
        "clout nails",  # what both kinds were called in older quotes
        *(
            each.words
            for each in (
                Material.SHINGLE_NAILS,
                Material.FELT_NAILS,
                Material.MASTIC,
                Material.ADHESIVE,
            )
        ),
    )
)
"""What is bought to hold the rest: a customer reads one word for all of it."""
_WORK = (LineKind.LABOUR, LineKind.DISPOSAL, LineKind.TRAVEL, LineKind.MINIMUM_CHARGE)


@dataclass(frozen=True, slots=True)
class Item:
    """One sum on a paper that a customer sees. Nothing of the trader's cost or rates is in it."""

    words: str
    quantity: Decimal
    unit: str
    """"job", "deposit", or "m" of boards at the named rate."""
    net: Pence
    vat_rate: Decimal
    """Per cent."""


def is_measured(items: Iterable[Item]) -> bool:
    """Tell whether any of them is told by its quantity: all others are one sum each."""
    return any(item.unit not in _SUMS for item in items)


def is_of(item: Item, what: str) -> bool:
    """Tell whether it is the sum of the materials or of the work of the whole job."""
    return item.words.startswith(f"{what}: ")


def items_of(option: Option) -> tuple[Item, ...]:
    """The materials, the work and the boards of an option; together they are its whole."""
    materials = _of(option, (LineKind.MATERIALS,))
    work = sorted(_of(option, _WORK), key=lambda line: _WORK.index(line.kind))
    named = [line.words for line in work if line.kind is not LineKind.MINIMUM_CHARGE]
    boards = tuple(
        Item(line.words, line.quantity, line.unit, line.price, line.vat_rate)
        for line in _of(option, (LineKind.DECK,))
    )
    sums = (*_lump(MATERIALS, _materials_named(materials), materials), *_lump(WORK, named, work))
    if option.own_gross is not None:
        sums = tuple(_at_own_price(sums, boards, option))
    return (*sums, *boards)


def _at_own_price(sums: Sequence[Item], boards: Sequence[Item], option: Option) -> Iterator[Item]:
    """The sums so that all comes to the trader's own price; boards keep the rate that is named."""
    for each in option_total(option).vat:
        here = [item for item in sums if item.vat_rate == each.rate]
        left = each.net - sum(item.net for item in boards if item.vat_rate == each.rate)
        whole = sum(item.net for item in here) or 1
        nets = apportion([Decimal(left) * item.net / whole for item in here])
        yield from (replace(item, net=net) for item, net in zip(here, nets, strict=True))


def extra_items(extras: Iterable[Extra], deck_rate: Pence, registered: bool) -> Iterator[Item]:
    """Extras as they were agreed, those not charged at nil.

    ``deck_rate`` is the net price of a metre of board that the quote named: what was priced by it
    is measured, anything else is a sum. ``registered`` for VAT or not is the trader.
    """
    for extra in extras:
        charged = extra.state is ExtraState.AGREED
        measured = is_by_the_metre(extra, deck_rate)
        yield Item(
            words=extra.words if charged else f"{extra.words} (not charged)",
            quantity=extra.quantity if charged and measured else Decimal(1),
            unit=extra.unit if charged and measured else JOB,
            net=net_of(extra) if charged else 0,
            vat_rate=extra.vat_rate if registered else Decimal(0),
        )


def _materials_named(lines: Iterable[Line]) -> tuple[str, ...]:
    """What the roof is covered with, by name, and the fixings in one word."""
    return tuple(
        dict.fromkeys("fixings" if line.words in _FIXINGS else line.words for line in lines)
    )


def _of(option: Option, kinds: Sequence[LineKind]) -> list[Line]:
    return [line for line in option.lines if line.kind in kinds]


def _lump(what: str, words: Iterable[str], lines: Sequence[Line]) -> Iterator[Item]:
    """Lines as one sum for each VAT rate among them; nothing for none."""
    nets: dict[Decimal, Pence] = {}
    for line in lines:
        nets[line.vat_rate] = nets.get(line.vat_rate, 0) + line.price
    for rate, net in nets.items():
        yield Item(f"{what}: {'; '.join(words)}", Decimal(1), JOB, net, rate)
