"""What the columns of the book are called, and how what stands in one is read: for the history."""

import json
import re
from collections.abc import Callable, Mapping
from contextlib import suppress
from datetime import date, time
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from domain.coverings.registry import name_of
from domain.days.calendar import WEEKDAYS, show_date
from domain.days.clock import show_time
from domain.estimate.ordered import where_to
from domain.estimate.usage import ELEMENTS
from domain.money import show_money
from domain.quantity import show_amount, show_quantity
from domain.setting_out.kinds import RoofForm

Row = Mapping[str, Any]

HIDDEN = frozenset(
    {
        *("id", "version", "job_id", "site_id", "customer_id", "quote_id", "option_id", "ref"),
        *("basis", "plans", "sent_as", "snapshot", "check_id", "logo", "number"),
    }
)
"""Numbers of rows, and what is kept beside what a person typed."""
OF_NO_LINE = frozenset({"line", "allocation", "freed", "picture", "ordered_for"})
"""Tables whose rows are told by those they belong to."""

LABELS: Mapping[str, str] = MappingProxyType(
    {
        "customer.name": "who",
        "customer.phone": "telephone",
        "customer.kind": "customer is",
        "customer.kind_asked": "asked who they are",
        "customer.tax_reference": "their reference",
        "customer.vat_number": "their VAT number",
        "customer.in_cis": "registered for CIS",
        "customer.end_user_on": "end user, told on",
        "customer.email": "e-mail",
        "customer.address": "their address",
        "site.address": "its address",
        "site.ruled_out": "days that don't suit",
        "job.ended": "ended as",
        "job.ended_why": "why",
        "job.told_on": "told on",
        "job.kept": "kept of the deposit",
        "job.kept_why": "kept for",
        "job.vat_terms": "VAT is",
        "job.vat_agreed_on": "agreed in writing on",
        "job.said": "what they say",
        "job.nominal": "rough size",
        "job.rough": "rough price given",
        "survey.roof.form": "roof",
        "survey.covering.key": "covering",
        "survey.covering.colour": "colour",
        "survey.deck.kind": "deck",
        "survey.deck.state": "state of the deck",
        "survey.deck.seen_above": "seen from above",
        "survey.deck.seen_below": "seen from below",
        "survey.deck.nails_inside": "nails show inside",
        "survey.deck.nail_mm": "shingle nails",
        "survey.deck.replace_m": "boards to replace",
        "survey.deck.works_off": "safe to stand on",
        "survey.old_covering.kind": "old covering",
        "survey.old_covering.suspicion": "asbestos: how old",
        "survey.old_covering.cleared_by": "laboratory",
        "survey.old_covering.sample": "sample tested",
        "survey.old_covering.tested_on": "tested on",
        "survey.old_covering.removed_by": "removed by",
        "survey.old_covering.removed_on": "removed on",
        "survey.old_covering.taken_by": "taken away by",
        "survey.edges.past_edge": "strips past edge",
        "survey.edges.slope_one": "slope 1 looks to",
        "survey.around.wildlife": "bats and nests",
        "survey.around.shared": "shared wall or roof",
        "survey.around.footing": "bad ladder footing",
        "survey.edges.lined": "lined inside",
        "survey.access.means": "worked from",
        "survey.access.two_people": "two people needed",
        "survey.access.photos": "photographs",
        "quote.holds_until": "valid until",
        "quote.sent_on": "sent on",
        "quote.deck_rate": "boards found rotten, a metre",
        "acceptance.who": "accepted by",
        "acceptance.on": "accepted on",
        "acceptance.means": "agreed how",
        "option.own_gross": "own price, VAT included",
        "acceptance.made_at": "agreed where",
        "acceptance.notice_on": "notice given on",
        "acceptance.early_request_on": "early start asked for on",
        "acceptance.knows_right_ends": "knows that the right ends",
        "acceptance.request_means": "early start asked for by",
        "acceptance.materials_on": "last materials reached them",
        "acceptance.urgent_why": "urgent repair",
        "strip.on": "stripped on",
        "strip.cover": "deck left",
        "strip.waste_kg": "old covering",
        "strip.waste_to": "taken to",
        "strip.suspect": "suspect underneath",
        "lay.on": "laid on",
        "lay.ticks": "checked",
        "lay.temperature_c": "temperature",
        "lay.wind_mph": "wind",
        "signoff.who": "signed off by",
        "signoff.on": "signed off on",
        "signoff.guarantee_words": "it covers",
        "trader.phone": "telephone",
        "trader.email": "e-mail",
        "trader.bank_name": "name on the account",
        "trader.account": "account number",
        "trader.vat_standing": "VAT",
        "trader.vat_number": "VAT number",
        "trader.utr": "UTR",
        "trader.cis_standing": "CIS standing",
        "job.on_foundation": "on a foundation",
        "document.cis": "CIS to deduct",
        "payment.cis": "CIS deducted",
        "trader.waste_carrier": "waste carrier registration",
        "trader.waste_expires": "registered until",
        "trader.liability_expires": "insured until",
        "trader.employers_policy": "employer's liability",
        "trader.employers_expires": "helper insured until",
        "trader.rates.hour": "labour",
        "trader.rates.mile": "travel",
        "trader.rates.disposal_kg": "old covering",
        "trader.rates.deck_metre": "boards found rotten",
        "trader.rates.least_charge": "minimum charge",
        "trader.rates.labour.set_up": "setting up",
        "trader.rates.labour.strip": "stripping",
        "trader.rates.labour.deck": "deck repair",
        "trader.rates.labour.clearing": "clearing up",
        "trader.limits.least_c": "air temperature above",
        "trader.limits.lay_mph": "lay only if wind under",
        "trader.limits.never_mph": "off the roof over",
        "trader.limits.gust_factor": "gusts up to",
        "trader.limits.underlay_rest_min": "let underlay relax for",
        "trader.limits.drying_min": "let a wet deck dry for",
        "trader.nailing.shingle_nail": "shingle nails",
        "trader.nailing.felt_nail": "felt nails",
        "trader.nailing.edge_centres": "nails at edges, every",
        "trader.van.sack_kg": "a rubble sack",
        "trader.backup_folder": "second folder",
        "trader.work_from": "on a roof from",
        "trader.work_until": "on a roof until",
        "trader.quote_days": "quote valid for",
        "trader.guarantee_years": "guarantee",
        "trader.nation": "bank holidays for",
        "trader.look.logo_name": "logo",
    }
)
"""As the forms call them; any other column by its own name."""
_GROUPS = frozenset(
    {
        *("survey.roof", "survey.covering", "survey.deck", "survey.old_covering"),
        *("survey.edges", "survey.access", "survey.around", "lay.ticks"),
        *("trader.working_days", "trader.rates", "trader.limits", "trader.van", "trader.look"),
        "trader.nailing",
    }
)
"""Columns that hold JSON."""
_ISO_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_ISO_TIME = re.compile(r"\d\d:\d\d(:\d\d)?")


def _yes(cell: Any) -> str:
    return "yes" if cell else "no"


def _plain(text: str) -> str:
    """A text as it is; a day or a time as they are written here."""
    with suppress(ValueError):  # what a person typed may look like a day that never was
        if _ISO_DAY.fullmatch(text):
            return _day(text)
        if _ISO_TIME.fullmatch(text):
            return show_time(time.fromisoformat(text))
    return text


def _weekdays(cell: Any) -> str:
    return ", ".join(WEEKDAYS[day][:3] for day in cell)


def _in(unit: str) -> Callable[[Any], str]:
    return lambda cell: f"{show_quantity(Decimal(str(cell)))} {unit}"


def _day(cell: Any) -> str:
    return show_date(date.fromisoformat(cell)) if cell else ""


def _snag(row: Row) -> tuple[str, str]:
    took = [
        f"fixed {_day(row['done_on'])}" if row["done_on"] else "open",
        f"{row['hours']} h" if Decimal(row.get("hours") or 0) else "",
        row.get("materials") or "",
        show_money(row["cost"]) if row.get("cost") else "",
    ]
    return f"snag “{row['words']}”", ", ".join(filter(None, took))


def _amount(row: Row) -> str:
    return show_amount(Decimal(row["quantity"]), row.get("unit", "")).strip()


def _used(row: Row) -> tuple[str, str]:
    element = ELEMENTS.get(row["element"])
    parts = [(name, Decimal(row[name])) for name in ("used", "wasted", "left", "returned")]
    told = [f"{show_quantity(n)} {name}" for name, n in parts if n or name == "used"]
    return element.words if element else row["element"], ", ".join(told)


def _forecast(row: Row) -> tuple[str, str]:
    told = [
        str(row.get("sky") or ""),
        f"lowest {row['low_c']} °C" if row.get("low_c") else "",
        f"wind {row['wind_mph']} mph" if row.get("wind_mph") else "",
        f"gusts {row['gust_mph']} mph" if row.get("gust_mph") else "",
    ]
    return _day(row["day"]), ", ".join(filter(None, told)) or "not known"


def _chased(row: Row) -> tuple[str, str]:
    until = _day(row["until"])
    if row["promised"]:
        return "said they would pay", f"on {until}"
    what = "taken further" if row.get("further") else "reminder"
    return what, f"again on {until}"


def _extra(row: Row) -> tuple[str, str]:
    return (
        f"extra “{row['words']}”",
        f"{_amount(row)}, {show_money(row['price'])}, {row['state']}",
    )


def _merchant(row: Row) -> tuple[str, str]:
    """How to reach a merchant and where the last list went; older rows know no place."""
    place = row.get("deliver_to") or ""
    words = where_to(place.replace("\n", ", ")) if place else ""
    return str(row["name"]), ", ".join(filter(None, (row["phone"], words))) or "nothing known"


def _price(row: Row) -> tuple[str, str]:
    colour = f", {row['colour']}" if row["colour"] else ""
    typed = row.get("with_vat")
    asked = show_money(row["net"]) if typed is None else f"{show_money(typed)} with VAT"
    asked = f"{asked} for {row['per_pack']}, from {_day(row['since'])}"
    unsure = ", a starting figure" if row.get("starting") else ""
    return f"{row['material']}{colour} at {row['merchant']}", f"{asked}{unsure}"


_MONEY = (
    *("job.rough", "quote.deposit", "quote.deck_rate"),
    *("trader.rates.hour", "trader.rates.mile", "trader.rates.disposal_kg"),
    *("trader.rates.deck_metre", "trader.rates.least_charge"),
)
_YES = (
    "customer.kind_asked",
    "customer.in_cis",
    "job.on_foundation",
    "job.materials_in_hand",
    "trader.expense_headings",
    "acceptance.knows_right_ends",
    "lay.deck_dry",
)
_UNITS = {
    "strip.waste_kg": "kg",
    "lay.temperature_c": "°C",
    "lay.wind_mph": "mph",
    "trader.days_to_pay": "days",
    "trader.quote_days": "days",
    "trader.guarantee_years": "years",
    "trader.hours_a_day": "hours",
    "trader.van.payload_kg": "kg",
    "trader.van.sack_kg": "kg",
    "trader.limits.least_c": "°C",
    "trader.limits.lay_mph": "mph",
    "trader.limits.never_mph": "mph",
    "trader.limits.underlay_rest_min": "minutes",
    "trader.limits.drying_min": "minutes",
}
_SHOWN: Mapping[str, Callable[[Any], str]] = MappingProxyType(
    {
        **dict.fromkeys(_MONEY, show_money),
        **dict.fromkeys(_YES, _yes),
        **{path: _in(unit) for path, unit in _UNITS.items()},
        "survey.covering.key": name_of,
        "survey.roof.form": lambda cell: RoofForm(cell).called,
        "trader.working_days": _weekdays,
    }
)
"""How what stands in a column is read, where its type does not say."""

ROWS: Mapping[str, Callable[[Row], tuple[str, str]]] = MappingProxyType(
    {
        "booking": lambda row: (_day(row["day"]), f"{row['hours']} h, {row['task']}"),
        "extra": _extra,
        "usage": _used,
        "snag": _snag,
        "note": lambda row: ("note", f"“{row['words']}”"),
        "caution_note": lambda row: ("caution passed", f"“{row['words']}”"),
        "put_off": lambda row: (f"“{row['kind']}”", f"back on {_day(row['until'])}"),
        "rung": lambda row: (_day(row["day"]), "rung, stays"),
        "chase": _chased,
        "option": lambda row: (
            ", ".join(filter(None, (name_of(row["covering"]), row["colour"]))),
            show_money(row["gross"]) if row.get("gross") is not None else "offered",
        ),
        "to_send": lambda row: (
            f"{row['paper']} {row['number']}",
            f"sent on {_day(row['sent_on'])}" if row["sent_on"] else "not sent yet",
        ),
        "document": lambda row: (f"{row['kind']} {row['number']}", show_money(row["gross"])),
        "payment": lambda row: ("payment", f"{show_money(row['pence'])} by {row['method']}"),
        "counter_entry": lambda row: (row["kind"], f"{show_money(row['pence'])}, {row['reason']}"),
        "write_off": lambda row: (
            "written off" if row["takes_back"] is None else "write-off cancelled",
            f"{show_money(row['pence'])}, {row['reason']}",
        ),
        "statement": lambda row: ("statement of deduction", _day(row["on"])),
        "price": _price,
        "stock_move": lambda row: (
            "stock of " + ", ".join(filter(None, (row["material"], row["colour"]))),
            f"{row['quantity']}, {row['words']}",
        ),
        "ordered": lambda row: (
            f"order of {name_of(row['material'])} {row['colour']}".rstrip(),
            f"{row['packs']}, here {row['came']}",
        ),
        "merchant": _merchant,
        "purchase": lambda row: (
            f"{row['what']} at {row['merchant']}",
            f"{show_money(row['pence'])}, {_day(row['on'])}, {row['heading']}",
        ),
        "money_back": lambda row: (
            "money back from the merchant",
            f"{show_money(row['pence'])}, {_day(row['on'])}, {row['reason']}",
        ),
        "miles": lambda row: (f"{_day(row['on'])}, {row['words']}", f"{row['miles']} miles"),
        "outlook": _forecast,
    }
)
"""Tables of which one action may write several rows: what a row is called, and what it says."""


def label_of(path: str) -> str:
    """What a column is called: ``survey.roof.eaves_overhang`` is the eaves overhang."""
    parts = path.split(".")
    of_one = f"slope {parts[-2]} " if parts[-2].isdigit() else ""
    return LABELS.get(path) or of_one + parts[-1].replace("_", " ")


def shown(path: str, cell: Any) -> str:
    """What stands in a column, in words; nothing for an empty one."""
    if cell is None or cell in ("", []):
        return ""
    if path in _SHOWN:
        return _SHOWN[path](cell)
    if isinstance(cell, bool):
        return _yes(cell)
    if isinstance(cell, list):
        return ", ".join(map(str, cell))
    return _plain(str(cell))


def cells_within(path: str, cell: Any) -> list[tuple[str, Any]]:
    """The fields of a group that one cell holds as JSON, each with its path; else the cell."""
    if path in _GROUPS and cell:
        cell = json.loads(cell)
    if isinstance(cell, dict) and "typed" in cell:
        return [(path, cell["typed"])]
    if isinstance(cell, list) and any(isinstance(part, dict) for part in cell):
        cell = {str(number): part for number, part in enumerate(cell, 1)}
    if not isinstance(cell, dict):
        return [(path, cell)]
    return [found for name, part in cell.items() for found in cells_within(f"{path}.{name}", part)]
