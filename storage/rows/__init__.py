"""The tables as SQLModel reads and writes them: one class a table, cells as SQLite holds them.

What a cell may hold is checked by the tables themselves and by the values of the domain; SQLModel
checks nothing. The names say what stands in a cell: ``Day`` and ``Time`` ISO text, ``Number`` an
exact decimal in digits, ``Json`` a group of figures, ``Yes`` 1 or 0, ``Pence`` whole pence.
No row leaves ``storage``.
"""

from sqlalchemy.orm import configure_mappers

from storage.rows.base import TableRow
from storage.rows.books_rows import MilesRow, MoneyBackRow, PurchaseRow
from storage.rows.customer_rows import CustomerRow, PictureRow, SiteRow, TraderRow
from storage.rows.job_rows import AcceptanceRow, JobRow, LineRow, OptionRow, QuoteRow, SurveyRow
from storage.rows.journal_rows import ActionRow, JournalRow
from storage.rows.money_rows import (
    AllocationRow,
    ChaseRow,
    CounterEntryRow,
    DocumentRow,
    ForecastRow,
    FreedRow,
    PaymentRow,
    PriceRow,
    StatementRow,
    StockMoveRow,
    ToSendRow,
    WriteOffRow,
)
from storage.rows.on_site_rows import (
    BookingRow,
    CautionNoteRow,
    ExtraRow,
    LayRow,
    NoteRow,
    PutOffRow,
    RungRow,
    SignoffRow,
    SnagRow,
    StripRow,
    UsageRow,
)
from storage.rows.order_rows import MerchantRow, OrderedForRow, OrderedRow

# A row that is read is made without its constructor, which would have told the mapper.
configure_mappers()

__all__ = [
    "AcceptanceRow",
    "ActionRow",
    "AllocationRow",
    "BookingRow",
    "CautionNoteRow",
    "ChaseRow",
    "CounterEntryRow",
    "CustomerRow",
    "DocumentRow",
    "ExtraRow",
    "ForecastRow",
    "FreedRow",
    "JobRow",
    "JournalRow",
    "LayRow",
    "LineRow",
    "MerchantRow",
    "MilesRow",
    "MoneyBackRow",
    "NoteRow",
    "OptionRow",
    "OrderedForRow",
    "OrderedRow",
    "PaymentRow",
    "PictureRow",
    "PriceRow",
    "PurchaseRow",
    "PutOffRow",
    "QuoteRow",
    "RungRow",
    "SignoffRow",
    "SiteRow",
    "SnagRow",
    "StatementRow",
    "StockMoveRow",
    "StripRow",
    "SurveyRow",
    "TableRow",
    "ToSendRow",
    "TraderRow",
    "UsageRow",
    "WriteOffRow",
]
