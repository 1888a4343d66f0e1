"""Lay out the book: a table for everything that is kept."""

from alembic import op

from storage.bookfile import APPLICATION_ID
from storage.migrations.columns import (
    ID,
    day,
    decimal,
    flag,
    group,
    of,
    one_of,
    only_one_per,
    pence,
    whole,
    words,
)

revision = "0001"
down_revision = None

MEANS = ("signed", "e-mail", "text", "spoken")
VERSION = "version INTEGER NOT NULL"

PEOPLE: dict[str, tuple[str, ...]] = {
    "trader": (
        "id INTEGER PRIMARY KEY CHECK (id = 1)",
        *map(words, ("name", "trading_as", "address", "phone", "email")),
        *map(words, ("bank_name", "sort_code", "account")),
        one_of("vat_standing", "not registered", "standard"),
        *map(words, ("vat_number", "utr", "waste_carrier")),
        day("waste_expires", known=False),
        words("liability_policy"),
        day("liability_expires", known=False),
        whole("days_to_pay", 0, 365),
        whole("quote_days", 0, 365),
        decimal("hours_a_day"),
        group("working_days"),
        one_of("nation", "England", "Wales", "Scotland", "Northern Ireland"),
        group("rates"),
        group("limits"),
        group("van"),
        VERSION,
    ),
    "customer": (
        ID,
        words("name"),
        one_of("kind", "householder", "business"),
        *map(words, ("address", "phone", "email")),
        VERSION,
    ),
    "site": (
        ID,
        of("customer"),
        *map(words, ("place", "address", "access", "ruled_out")),
        VERSION,
    ),
}

OFFER: dict[str, tuple[str, ...]] = {
    "job": (
        ID,
        "ref TEXT NOT NULL UNIQUE CHECK (length(ref) >= 4 AND ref NOT GLOB '*[^0-9]*')",
        of("site"),
        one_of("stage", "enquiry", "survey", "quoted", "booked", "stripped", "laid", "signed off"),
        one_of("ended", "declined", "called off", known=False),
        words("ended_why"),
        flag("materials_in_hand"),
        day("received_on"),
        *map(words, ("said", "building", "nominal")),
        pence("rough", known=False),
        day("visit_on", known=False),
        "visit_at TEXT CHECK (visit_at IS NULL OR visit_at IS strftime('%H:%M:%S', visit_at))",
        VERSION,
    ),
    "survey": (
        only_one_per("job"),
        group("roof"),
        group("covering", known=False),
        *map(group, ("deck", "old_covering", "edges", "access")),
        day("visited_on", known=False),
    ),
    "quote": (
        ID,
        of("job"),
        whole("number", 1, 999),
        day("drafted_on"),
        pence("deposit"),
        pence("deck_rate"),
        day("sent_on", known=False),
        day("holds_until", known=False),
        "UNIQUE (job_id, number)",
    ),
    "option": (ID, of("quote"), *map(words, ("covering", "colour", "basis")), pence("gross")),
    "line": (
        ID,
        of("option"),
        one_of("kind", "materials", "labour", "travel", "disposal", "deck repair", "least charge"),
        words("words"),
        decimal("quantity"),
        words("unit"),
        pence("cost"),
        pence("price"),
        decimal("vat_rate"),
    ),
    "acceptance": (
        only_one_per("quote"),
        of("option"),
        words("who"),
        day("on"),
        one_of("means", *MEANS),
        one_of(
            "made_at",
            "at the customer's home",
            "at a distance (telephone, e-mail, post)",
            "at the trader's own premises",
        ),
        day("notice_on", known=False),
        day("early_request_on", known=False),
        flag("knows_right_ends"),
    ),
}

WORK: dict[str, tuple[str, ...]] = {
    "booking": (ID, of("job"), day("day"), decimal("hours"), words("task")),
    "strip": (
        only_one_per("job"),
        day("on"),
        words("found"),
        one_of("cover", "laid the same day", "sheeted", "open"),
        decimal("waste_kg", known=False),
        *map(words, ("waste_to", "transfer_note")),
    ),
    "extra": (
        ID,
        of("job"),
        words("words"),
        decimal("quantity"),
        words("unit"),
        "price INTEGER NOT NULL",
        decimal("vat_rate"),
        one_of("state", "to agree", "agreed", "not charged"),
        words("agreed_by"),
        day("agreed_on", known=False),
        one_of("means", *MEANS, known=False),
        flag("begun_before"),
    ),
    "lay": (
        only_one_per("job"),
        day("on"),
        group("ticks"),
        decimal("temperature_c", known=False),
        decimal("wind_mph", known=False),
        flag("deck_dry", known=False),
    ),
    "usage": (
        ID,
        of("job"),
        *map(words, ("element", "unit")),
        *map(decimal, ("estimated", "used", "wasted", "left", "returned")),
        "UNIQUE (job_id, element)",
    ),
    "snag": (ID, of("job"), words("words"), day("done_on", known=False)),
    "signoff": (
        only_one_per("job"),
        words("who"),
        day("on"),
        day("guarantee_until", known=False),
        words("guarantee_words"),
    ),
    "caution_note": (ID, of("job"), *map(words, ("check_id", "words")), day("on")),
}

MONEY: dict[str, tuple[str, ...]] = {
    "document": (
        ID,
        of("job"),
        one_of("series", "invoice", "receipt"),
        "number INTEGER NOT NULL CHECK (number >= 1)",
        one_of("kind", "deposit invoice", "invoice", "receipt"),
        day("issued_on"),
        day("tax_point"),
        day("due_on"),
        pence("gross"),
        group("snapshot"),
        "UNIQUE (series, number)",
        "CHECK ((series = 'receipt') = (kind = 'receipt'))",
    ),
    "payment": (ID, of("job"), day("received_on"), pence("pence", least=1), words("method")),
    "allocation": (
        ID,
        of("payment"),
        of("document"),
        pence("pence", least=1),
        "UNIQUE (payment_id, document_id)",
    ),
    "price": (
        ID,
        *map(words, ("material", "merchant")),
        decimal("per_pack"),
        pence("net"),
        decimal("vat_rate"),
        day("since"),
        words("colour"),
        decimal("kg", known=False),
    ),
    "stock_move": (
        ID,
        *map(words, ("material", "colour")),
        decimal("quantity"),
        day("on"),
        words("words"),
        of("job", known=False),
    ),
    "outlook": (
        "day TEXT NOT NULL PRIMARY KEY CHECK (day IS date(day))",
        whole("dry_from", 0, 23, known=False),
        whole("dry_until", 1, 24, known=False),
        flag("rain_all_day"),
        *(decimal(name, known=False) for name in ("low_c", "wind_mph", "gust_mph")),
        VERSION,
    ),
}

RECORD: dict[str, tuple[str, ...]] = {
    "action": ("id INTEGER PRIMARY KEY", words("at"), words("words"), "undone_at TEXT"),
    "journal": (
        ID,
        of("action"),
        words("entity"),
        group("before", known=False),
        group("after", known=False),
        "CHECK (before IS NOT NULL OR after IS NOT NULL)",
    ),
}

INDEXED = {
    "site": "customer_id",
    "job": "site_id",
    "option": "quote_id",
    "line": "option_id",
    "acceptance": "option_id",
    "booking": "job_id",
    "extra": "job_id",
    "snag": "job_id",
    "caution_note": "job_id",
    "document": "job_id",
    "payment": "job_id",
    "allocation": "document_id",
    "stock_move": "job_id",
    "journal": "action_id",
}
"""Children are found by their parent."""


def upgrade() -> None:
    """Make every table, strict about types, and the indexes by which children are found."""
    op.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    for tables in (PEOPLE, OFFER, WORK, MONEY, RECORD):
        for name, columns in tables.items():
            op.execute(f'CREATE TABLE "{name}" ({", ".join(columns)}) STRICT')
    for name, column in INDEXED.items():
        op.execute(f'CREATE INDEX "{name}_by_{column}" ON "{name}" ({column})')
