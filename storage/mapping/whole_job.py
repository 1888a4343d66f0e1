"""A whole job from the rows of its tables, and back: the rows of what is written at once."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from operator import itemgetter
from typing import Any, TypeVar

from domain.estimate.quoting import option_total
from domain.job import (
    Acceptance,
    Allocation,
    BookedDay,
    CautionNote,
    Chase,
    CounterEntry,
    Customer,
    Document,
    Enquiry,
    Extra,
    Job,
    Laying,
    Line,
    Note,
    Option,
    Payment,
    Quote,
    Rung,
    SignOff,
    Site,
    Snag,
    Stripping,
    Survey,
    ToSend,
    Usage,
    WriteOff,
)
from storage.mapping.codec import Cell, Record, cells_of, value_of
from storage.rows import OptionRow

V = TypeVar("V")


@dataclass(frozen=True, slots=True)
class JobRows:
    """Every row that belongs to one job, in the order of their keys."""

    job: Record
    site: Record
    customer: Record
    survey: Record | None
    quotes: Sequence[Record]
    options: Sequence[Record]
    lines: Sequence[Record]
    acceptances: Sequence[Record]
    bookings: Sequence[Record]
    rung: Sequence[Record]
    strip: Record | None
    extras: Sequence[Record]
    lay: Record | None
    usages: Sequence[Record]
    signoff: Record | None
    snags: Sequence[Record]
    documents: Sequence[Record]
    payments: Sequence[Record]
    settled_elsewhere: Sequence[Record]
    allocations: Sequence[Record]
    freed: Sequence[Record]
    counter_entries: Sequence[Record]
    statements: Sequence[Record]
    write_offs: Sequence[Record]
    chased: Sequence[Record]
    to_send: Sequence[Record]
    notes: Sequence[Record]
    own_notes: Sequence[Record]


def job_of(rows: JobRows, **told: Any) -> Job:
    """Return the job that its rows make, with what is ``told`` of it by those of others."""
    return value_of(
        Job,
        rows.job,
        **told,
        customer=_value(Customer, rows.customer),
        site=_value(Site, rows.site),
        enquiry=_value(Enquiry, rows.job),
        survey=_maybe(Survey, rows.survey),
        quotes=tuple(_quote(rows, row) for row in sorted(rows.quotes, key=itemgetter("number"))),
        days=_values(BookedDay, sorted(rows.bookings, key=itemgetter("day"))),
        rung=_values(Rung, rows.rung),
        stripping=_maybe(Stripping, rows.strip),
        extras=_values(Extra, rows.extras),
        laying=_maybe(Laying, rows.lay),
        usages=_values(Usage, rows.usages),
        sign_off=_maybe(SignOff, rows.signoff),
        snags=_values(Snag, rows.snags),
        documents=tuple(_document(rows, row) for row in rows.documents),
        payments=tuple(_payment(rows, row) for row in rows.payments),
        settled_elsewhere=_values(Document, rows.settled_elsewhere),
        paid_elsewhere=tuple(_paid_elsewhere(rows)),
        write_offs=_values(WriteOff, rows.write_offs),
        chased=_values(Chase, rows.chased),
        to_send=_values(ToSend, rows.to_send),
        notes=_values(CautionNote, rows.notes),
        own_notes=_values(Note, rows.own_notes),
    )


def option_row(quote_id: int, option: Option) -> OptionRow:
    """Return the row of an option, with what it comes to, VAT included."""
    return OptionRow(
        quote_id=quote_id, gross=option_total(option).gross, **cells_of(option, "id", "lines")
    )


def _quote(rows: JobRows, row: Record) -> Quote:
    options = [option for option in rows.options if option["quote_id"] == row["id"]]
    taken = next((each for each in rows.acceptances if each["quote_id"] == row["id"]), None)
    return value_of(
        Quote,
        row,
        options=tuple(_option(rows, option) for option in options),
        acceptance=_maybe(Acceptance, taken),
    )


def _option(rows: JobRows, row: Record) -> Option:
    lines = [line for line in rows.lines if line["option_id"] == row["id"]]
    return value_of(Option, row, lines=_values(Line, lines))


def _document(rows: JobRows, row: Record) -> Document:
    paid = _sum_of(rows.allocations, "pence", document_id=row["id"])
    freed = _sum_of(rows.freed, "pence", document_id=row["id"])
    deducted = _sum_of(rows.allocations, "cis", document_id=row["id"])
    return value_of(
        Document,
        row,
        paid=paid - freed,
        credited=_sum_of(rows.documents, "gross", refers_to=row["id"]),
        cis_credited=_sum_of(rows.documents, "cis", refers_to=row["id"]),
        written_off=_written_off(rows, row["id"]),
        deducted=deducted - _sum_of(rows.freed, "cis", document_id=row["id"]),
    )


def _written_off(rows: JobRows, document: Cell) -> int:
    """What was given up of a document, less what was taken back of it."""
    of_it = [each for each in rows.write_offs if each["document_id"] == document]
    back = {each["takes_back"] for each in of_it}
    stand = (each for each in of_it if each["takes_back"] is None and each["id"] not in back)
    return sum(int(each["pence"] or 0) for each in stand)


def _paid_elsewhere(rows: JobRows) -> Iterator[tuple[int, Allocation]]:
    own = {row["id"] for row in rows.payments}
    for row in rows.allocations:
        if row["payment_id"] not in own:
            pair = {name: row[name] for name in ("payment_id", "document_id")}
            freed = [
                value_of(Allocation, each)
                for each in rows.freed
                if all(each[name] == cell for name, cell in pair.items())
            ]
            part = value_of(Allocation, row)
            rest = part.pence - sum(each.pence for each in freed)
            cis = part.cis - sum(each.cis for each in freed)
            if rest > 0:
                yield int(row["payment_id"] or 0), replace(part, pence=rest, cis=cis)


def _payment(rows: JobRows, row: Record) -> Payment:
    def of_it(several: Sequence[Record]) -> list[Record]:
        return [each for each in several if each["payment_id"] == row["id"]]

    return value_of(
        Payment,
        row,
        allocations=_values(Allocation, of_it(rows.allocations)),
        freed=_values(Allocation, of_it(rows.freed)),
        counter_entries=_values(CounterEntry, of_it(rows.counter_entries)),
        statement_on=next((_day(each["on"]) for each in of_it(rows.statements)), None),
    )


def _day(cell: Cell) -> date:
    return date.fromisoformat(str(cell))


def _sum_of(several: Sequence[Record], column: str, **which: Cell) -> int:
    """Add up a column of the rows that hold a cell."""
    ((name, cell),) = which.items()
    return sum(int(each[column] or 0) for each in several if each[name] == cell)


def _value(kind: type[V], row: Record) -> V:
    return value_of(kind, row)


def _maybe(kind: type[V], row: Record | None) -> V | None:
    return None if row is None else _value(kind, row)


def _values(kind: type[V], rows: Sequence[Record]) -> tuple[V, ...]:
    return tuple(_value(kind, row) for row in rows)
