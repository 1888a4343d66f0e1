"""The trader's details as they are typed, and back."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, time
from decimal import Decimal
from pathlib import PurePath

from domain.accounts.identifiers import read_account, read_sort_code, read_utr, read_vat_number
from domain.contacts import read_email, read_telephone, set_postcode
from domain.days.calendar import WEEKDAYS
from domain.days.clock import read_time, show_time
from domain.days.dates import read_ruled_out
from domain.errors import Refused
from domain.look import Picture, colour_words, read_colour
from domain.money import read_money
from domain.quantity import read_count, read_in_mm, read_kg, read_number
from domain.starting_rates import changed, with_confirmed
from domain.trader import (
    CisStanding,
    LabourRates,
    Nailing,
    Rates,
    Trader,
    Van,
    VatStanding,
    WeatherLimits,
)
from tui.widgets.field_values import (
    address_typed,
    date_typed,
    money_typed,
    number_typed,
    read_address,
    read_optional_until,
)
from tui.your_details.details_fields import (
    BACKUPS,
    LABOUR,
    LIMITS,
    MONEY,
    NAILING,
    PAPERS,
    VAN,
    WHO,
)

_MONEY_RATES = ("hour", "mile", "disposal_kg", "deck_metre", "minimum_charge")
_PERCENTS = ("contingency", "markup")


def trader_typed(trader: Trader) -> dict[str, str]:
    """Return what stands in the fields for these details."""
    rates, limits = trader.rates, trader.limits
    texts = {f.id: getattr(trader, f.id, "") for f in (*WHO, *MONEY, *PAPERS, *BACKUPS)}
    typed = {key: value for key, value in texts.items() if isinstance(value, str)}
    typed |= charges_typed(rates)
    typed |= {f.id: number_typed(getattr(rates.labour, f.id)) for f in LABOUR}
    typed |= {f.id: number_typed(getattr(limits, f.id)) for f in LIMITS}
    typed |= {f.id: number_typed(getattr(trader.van, f.id)) for f in VAN}
    typed |= {f.id: number_typed(getattr(trader.nailing, f.id)) for f in NAILING}
    days = [WEEKDAYS[day][:3] for day in sorted(trader.working_days)]
    return typed | {
        "address": address_typed(trader.address),
        "colour": colour_words(trader.look.colour),
        "logo": trader.look.logo_name,
        "days_to_pay": number_typed(trader.days_to_pay),
        "waste_expires": date_typed(trader.waste_expires),
        "liability_expires": date_typed(trader.liability_expires),
        "employers_expires": date_typed(trader.employers_expires),
        "hours_a_day": number_typed(trader.hours_a_day),
        "work_from": show_time(trader.work_from),
        "work_until": show_time(trader.work_until),
        "working_days": ", ".join(days),
        "quote_days": number_typed(trader.quote_days),
        "guarantee_years": number_typed(trader.guarantee_years or None),
        "nation": trader.nation,
    }


def trader_from_fields(values: Mapping[str, str], trader: Trader, today: date) -> Trader:
    """What was typed, on top of the details as they were read. Raises :class:`Refused`."""
    standing = VatStanding(values["vat_standing"] or VatStanding.NOT_REGISTERED)
    registered = standing is not VatStanding.NOT_REGISTERED
    work_from, work_until = _working_day(values)
    return replace(
        trader,
        name=values["name"].strip(),
        trading_as=values["trading_as"].strip(),
        phone=read_telephone("phone", values["phone"]),
        email=read_email("email", values["email"]),
        bank_name=values["bank_name"].strip(),
        address=set_postcode("address", read_address(values["address"])),
        sort_code=_if_given(read_sort_code, values, "sort_code"),
        account=_if_given(read_account, values, "account"),
        days_to_pay=_count(values, "days_to_pay", "days such as 14", "day", most=365),
        vat_standing=standing,
        # A number that was never asked for again stays recorded, should they register anew.
        vat_number=read_vat_number("vat_number", values["vat_number"])
        if registered
        else trader.vat_number,
        utr=_if_given(read_utr, values, "utr"),
        cis_standing=CisStanding(values["cis_standing"] or CisStanding.NOT_MATCHED),
        waste_carrier=values["waste_carrier"].strip(),
        waste_expires=_until(values, "waste_expires", today),
        liability_policy=values["liability_policy"].strip(),
        liability_expires=_until(values, "liability_expires", today),
        employers_policy=values["employers_policy"].strip(),
        employers_expires=_until(values, "employers_expires", today),
        hours_a_day=_number(
            values, "hours_a_day", "hours such as 8", "hour", least="0.5", most="16"
        ),
        work_from=work_from,
        work_until=work_until,
        working_days=_working_days(values["working_days"]),
        quote_days=_count(values, "quote_days", "days such as 30", "day", most=365),
        guarantee_years=_guarantee(values),
        nation=values["nation"] or trader.nation,
        rates=_rates(values, trader.rates),
        limits=_limits(values),
        van=_van(values),
        nailing=_nailing(values),
        backup_folder=_folder(values["backup_folder"]),
        look=replace(trader.look, colour=read_colour("colour", values["colour"])),
    )


def with_logo(trader: Trader, picture: Picture | None) -> Trader:
    """The details with another picture on the papers, or with none."""
    key, name = (picture.key, picture.name) if picture else ("", "")
    return replace(trader, look=replace(trader.look, logo=key, logo_name=name))


def _folder(text: str) -> str:
    """Read a folder that is found from wherever the program is started."""
    folder = text.strip()
    if folder and not (PurePath(folder).is_absolute() or folder.startswith("~")):
        remedy = "Give all of its path, such as /media/stick/backups, or leave it empty."
        raise Refused("backup_folder", text, remedy)
    return folder


def charges_typed(rates: Rates) -> dict[str, str]:
    """Return what stands in the fields for what is charged."""
    typed = {field: money_typed(getattr(rates, field)) for field in _MONEY_RATES}
    return typed | {field: number_typed(getattr(rates, field)) for field in _PERCENTS}


def read_charges(values: Mapping[str, str], before: Rates) -> Rates:
    """Return what is charged as typed; what was changed is confirmed by it. Raises Refused."""
    money = {field: read_money(field, values[field]) for field in _MONEY_RATES}
    charges = replace(
        before,
        hour=money["hour"],
        mile=money["mile"],
        disposal_kg=money["disposal_kg"],
        deck_metre=money["deck_metre"],
        minimum_charge=money["minimum_charge"],
        contingency=_number(values, "contingency", "per cent such as 5", "%", most="1000"),
        markup=_number(values, "markup", "per cent such as 15", "%", most="1000"),
    )
    return with_confirmed(charges, changed(before, charges))


def _rates(values: Mapping[str, str], before: Rates) -> Rates:
    labour = LabourRates(
        **{f.id: _number(values, f.id, "hours such as 0.25", "hour", most="24") for f in LABOUR}
    )
    rates = replace(read_charges(values, before), labour=labour)
    return with_confirmed(rates, changed(before, rates))


def _limits(values: Mapping[str, str]) -> WeatherLimits:
    lay = _number(values, "lay_mph", "miles an hour such as 17", "mph", most="100")
    never = _number(values, "never_mph", "miles an hour such as 23", "mph", most="100")
    if never < lay:
        raise Refused("never_mph", values["never_mph"], f"Give {number_typed(lay)} mph or more.")
    return WeatherLimits(
        least_c=_number(values, "least_c", "degrees such as 5", "°C", most="40"),
        lay_mph=lay,
        never_mph=never,
        gust_factor=_number(values, "gust_factor", "a factor such as 1.5", "", least="1", most="5"),
        underlay_rest_min=_count(
            values, "underlay_rest_min", "minutes such as 30", "minute", least=0
        ),
        drying_min=_count(values, "drying_min", "minutes such as 60", "minute", least=0),
    )


def _van(values: Mapping[str, str]) -> Van:
    payload = values["payload_kg"].strip()
    return Van(
        payload_kg=_kg(values, "payload_kg", "kilograms such as 700", most="5000")
        if payload
        else None,
        sack_kg=_kg(values, "sack_kg", "kilograms such as 25", most="1000"),
    )


def _nailing(values: Mapping[str, str]) -> Nailing:
    shingle, felt = (
        read_in_mm(field, values[field], "millimetres such as 20", least=10, most=100)
        for field in ("shingle_nail", "felt_nail")
    )
    centres = read_in_mm(
        "edge_centres", values["edge_centres"], "millimetres such as 50", least=20, most=300
    )
    return Nailing(shingle, felt, centres)


def _working_day(values: Mapping[str, str]) -> tuple[time, time]:
    """The first and the last time that the trader is on a roof."""
    first = read_time("work_from", values["work_from"])
    last = read_time("work_until", values["work_until"])
    if last <= first:
        remedy = f"Give a time after {show_time(first)}."
        raise Refused("work_until", values["work_until"], remedy)
    return first, last


def _working_days(text: str) -> frozenset[int]:
    remedy = "Give weekdays with commas, such as Mon, Tue, Wed."
    try:
        days = read_ruled_out("working_days", text)
    except Refused as error:
        raise Refused("working_days", text, remedy) from error
    if days.dates or not days.weekdays:
        raise Refused("working_days", text, remedy)
    return days.weekdays


def _if_given(read: Callable[[str, str], str], values: Mapping[str, str], field: str) -> str:
    """Read a number that may be left empty."""
    return read(field, values[field]) if values[field].strip() else ""


def _guarantee(values: Mapping[str, str]) -> int:
    if not values["guarantee_years"].strip():
        return 0
    return _count(values, "guarantee_years", "years such as 5", "year", most=50)


def _until(values: Mapping[str, str], field: str, today: date) -> date | None:
    return read_optional_until(field, values[field], today, today)


def _number(
    values: Mapping[str, str], field: str, example: str, unit: str, *, least: str = "0", most: str
) -> Decimal:
    low, high = Decimal(least), Decimal(most)
    return read_number(field, values[field], example, unit=unit, least=low, most=high)


def _count(
    values: Mapping[str, str],
    field: str,
    example: str,
    unit: str,
    *,
    least: int = 1,
    most: int = 999,
) -> int:
    return read_count(field, values[field], example, unit=unit, least=least, most=most)


def _kg(values: Mapping[str, str], field: str, example: str, *, most: str) -> Decimal:
    return read_kg(field, values[field], example, least=Decimal(1), most=Decimal(most))
