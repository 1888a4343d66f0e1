"""What a merchant asks for a pack, from a day on."""

from collections.abc import Awaitable, Callable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any, cast

from domain.coverings.materials import Material
from domain.days.calendar import show_date
from domain.days.dates import read_date
from domain.errors import Refused
from domain.estimate.amounts import read_amount
from domain.estimate.prices_in import net_of
from domain.estimate.stock import Price
from domain.money import Pence, read_money, share, show_money
from domain.quantity import plural, read_kg
from domain.tax import VatBand, rate_on, read_rate
from domain.typing_slips import Slip, far_price
from tui.lists.amount_dialog import BY_WORDS, AmountDialog
from tui.widgets.field_row import Field
from tui.widgets.field_values import money_typed, number_typed, read_merchant
from tui.widgets.form import Form
from tui.widgets.line_input import Takes

if TYPE_CHECKING:
    from tui.frame.program import Program

_MERCHANT = Field("merchant", "Merchant", hint="merchant name", needed=True)
_BEFORE_VAT, _WITH_VAT = _TERMS = ("before VAT", "with VAT")
_COLOUR = Field("colour", "Colour", hint="leave empty for every colour")


class PriceDialog(AmountDialog[Price]):
    """What a pack costs with VAT, or before it where that was typed, is written beside the rate."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = "PriceDialog #field-net, PriceDialog #field-vat { width: 15; }"

    def worked_out(self, form: Form) -> None:
        """As of every amount, and the other price than the one typed, while both can be read."""
        super().worked_out(form)
        today = cast("Program", self.app).open_book.today
        try:
            net, with_vat = _typed_as(form.values, today)
            told = f"{show_money(net + share(net, _vat(form.values, today)))} {_WITH_VAT}"
        except Refused:
            form.note("vat", "")
        else:
            form.note("vat", told if with_vat is None else f"{show_money(net)} {_BEFORE_VAT}")


def price_dialog(
    price: Price | None,
    material: Material,
    known: Sequence[Price],
    today: date,
    save: Callable[[Price], Awaitable[Any]],
    *,
    registered: bool,
) -> PriceDialog:
    """Ask for a new price of a material; ``price`` is the one it follows, if there is one.

    It is held against those ``known``; of who is not ``registered`` a first one is with VAT.
    """
    before = "No price yet."
    if price is not None:
        before = f"Current: {price.merchant}, since {show_date(price.since)} (kept)."
    return PriceDialog(
        f"New price: {material.words}",
        _fields(material),
        lambda values: read_price(values, material, today),
        save,
        material=material,
        words=f"{before} Quotes already made keep their prices.",
        values=price_typed(price, material, today, registered=registered),
        begin_at="net" if price is not None else None,
        slips=lambda typed: _far(typed, known),
    )


def another_price_dialog(
    known: Sequence[Price],
    today: date,
    save: Callable[[Price], Awaitable[Any]],
    *,
    registered: bool,
) -> PriceDialog:
    """Ask for the price of any material: another merchant's, or of another colour."""
    material = Field("material", "Material", choices=tuple(BY_WORDS), needed=True)
    return PriceDialog(
        "Price from another merchant or for another colour",
        (material, *_fields(None)),
        lambda values: read_price(values, _material(values["material"]), today),
        save,
        material=None,
        words="",
        values=_at_first(today, registered=registered),
        slips=lambda typed: _far(typed, known),
    )


def read_price(values: Mapping[str, str], material: Material, today: date) -> Price:
    """Return what was typed as a price. Raises :class:`Refused`."""
    colour = values["colour"].strip() if material.coloured else ""
    merchant = read_merchant("merchant", values["merchant"])
    per_pack = read_amount(
        "per_pack",
        values["per_pack"],
        material,
        "how many are in a pack, such as 21",
        least=Decimal("0.001"),
    )
    net, with_vat = _typed_as(values, today)
    return Price(
        material=material,
        merchant=merchant,
        per_pack=per_pack,
        net=net,
        vat_rate=_vat(values, today),
        since=read_date("since", values["since"], today),
        colour=colour,
        kg=_kg(values["kg"]),
        with_vat=with_vat,
    )


def price_typed(
    price: Price | None, material: Material, today: date, *, registered: bool
) -> dict[str, str]:
    """Return what stands in the fields at first: as it was typed before, from today."""
    typed = _at_first(today, registered=registered)
    if price is None:
        return typed | ({"per_pack": "1"} if material.unit == material.pack_word else {})
    return typed | {
        "merchant": price.merchant,
        "colour": price.colour,
        "per_pack": number_typed(price.per_pack),
        "net": money_typed(price.net if price.with_vat is None else price.with_vat),
        "terms": _BEFORE_VAT if price.with_vat is None else _WITH_VAT,
        "vat": number_typed(price.vat_rate),
        "kg": number_typed(price.kg),
    }


def _fields(material: Material | None) -> tuple[Field, ...]:
    unit, pack = "strips, m, nails", "pack or roll"
    if material is not None:
        unit, pack = plural(material.unit), material.pack_word
        unit = unit if material.unit == pack else f"{unit} a {pack}"
    coloured = (_COLOUR,) if material is None or material.coloured else ()
    return (
        _MERCHANT,
        *coloured,
        Field("per_pack", "Pack size", unit, takes=Takes.COUNT, needed=True),
        Field("net", "Price", f"£ a {pack}", takes=Takes.FIGURE, needed=True),
        Field("terms", "Given", choices=_TERMS),
        Field("vat", "VAT", "%", takes=Takes.FIGURE),
        Field(
            "kg",
            "Pack weight",
            f"kg a {pack}",
            hint="leave empty for the usual",
            takes=Takes.COUNT,
        ),
        Field("since", "From", hint="today", takes=Takes.DATE),
    )


def _at_first(today: date, *, registered: bool) -> dict[str, str]:
    """What stands in the fields of a first price: who reclaims no VAT reads the slip with it."""
    terms = _BEFORE_VAT if registered else _WITH_VAT
    return {"vat": _standard(today), "since": show_date(today), "terms": terms}


def _typed_as(values: Mapping[str, str], today: date) -> tuple[Pence, Pence | None]:
    """The price before VAT, and the one typed if that was with it."""
    asked, with_vat = read_money("net", values["net"], least=1), values.get("terms") == _WITH_VAT
    net = net_of(asked, _vat(values, today), with_vat=with_vat)
    return net, asked if with_vat else None


def _vat(values: Mapping[str, str], today: date) -> Decimal:
    """The rate, one of those on the day from which the price is. Raises :class:`Refused`."""
    try:
        day = read_date("since", values["since"], today)
    except Refused:  # that is refused by itself
        day = today
    return read_rate("vat", values["vat"], day)


def _far(typed: Price, known: Sequence[Price]) -> tuple[Slip, ...]:
    """A price that has lost or won a digit since the one before it."""
    slip = far_price("net", typed, known)
    return () if slip is None else (slip,)


def _kg(text: str) -> Decimal | None:
    """What a pack weighs, None for as usual."""
    least, most = Decimal("0.01"), Decimal(1000)
    example = "kilograms such as 27"
    return read_kg("kg", text, example, least=least, most=most) if text.strip() else None


def _standard(today: date) -> str:
    return number_typed(rate_on(VatBand.STANDARD, today))


def _material(words: str) -> Material:
    if words not in BY_WORDS:
        raise Refused("material", words, "Choose one with the arrow keys.")
    return BY_WORDS[words]
