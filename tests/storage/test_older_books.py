"""A book of an older version: copied first, then brought up to date, or left as it was."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import create_engine
from sqlmodel import SQLModel

from domain.scope import ListName
from storage import bookfile, migrations
from storage.bookfile import SCHEMA
from storage.errors import DamagedNotBackedUp, Locked, NotBackedUp, NotCurrent, NotKept
from storage.week_and_jobs import find_jobs
from tests.storage.books import Cells, dump, enquired, open_book, opened, query

COPY = Path("backups") / "book 2026-06-25 19.00.00.headlap"
HELD = (
    "INSERT INTO customer (id, name, kind, address, phone, email, version)"
    " VALUES (1, 'Mrs Vane', 'householder', '', '01632 960100', '', 1)",
    "INSERT INTO site VALUES (1, 1, 'Priory Gardens', '', '', '', 1)",
    "INSERT INTO job (id, ref, site_id, stage, ended, ended_why, materials_in_hand, received_on,"
    " said, building, nominal, rough, visit_on, visit_at, version)"
    " VALUES (1, '0001', 1, 'enquiry', NULL, '', 0, '2026-06-01', 'leaks', 'shed',"
    " '8 x 6 ft', NULL, NULL, NULL, 1)",
)
"""What an older book has in it."""


@pytest.fixture(params=range(1, SCHEMA), ids=lambda version: f"version {version}")
def older(path: Path, request: pytest.FixtureRequest) -> Path:
    """A book as an older version left it, with a job in it."""
    return book_of_version(path, request.param)


@pytest.fixture
def oldest(path: Path) -> Path:
    """A book of the first version."""
    return book_of_version(path, 1)


def book_of_version(path: Path, version: int) -> Path:
    engine = create_engine(f"sqlite:///{path}")
    with engine.begin() as connection:
        connection.exec_driver_sql("BEGIN")  # left alone, the driver commits every CREATE
        config = Config(attributes={"connection": connection})
        config.set_main_option("script_location", str(Path(migrations.__file__).parent))
        config.set_main_option("path_separator", "os")
        command.upgrade(config, f"{version:04d}")
    engine.dispose()
    for statement in HELD:
        query(path, statement)
    return path


def _in_columns_of(held: dict[str, list[Cells]], now: dict[str, list[Cells]]) -> object:
    """What stands now in the tables and columns that an older book had: new ones come last."""
    return {
        name: [row[: len(old)] for old, row in zip(rows, now[name], strict=True)]
        for name, rows in held.items()
    }


def schema(path: Path) -> set[tuple[object, ...]]:
    """Every table, index, view and trigger."""
    return set(query(path, "SELECT type, name, sql FROM sqlite_master"))


def test_an_older_book_is_brought_up_to_date_with_all_it_holds(older: Path) -> None:
    held = dump(older, "alembic_version")
    with opened(older) as book:
        job = book.job_by_ref("1")
        assert (job.customer.name, job.site.place) == ("Mrs Vane", "Priory Gardens")
        assert _in_columns_of(held, dump(older, "alembic_version")) == held
        assert enquired(book).ref == "0002"
    assert query(older, "PRAGMA user_version") == [(SCHEMA,)]


def test_it_is_then_like_one_made_new(older: Path, tmp_path: Path) -> None:
    open_book(older).close()
    new = tmp_path / "new"
    open_book(new).close()
    assert schema(older) == schema(new)


def test_a_copy_is_made_first(older: Path) -> None:
    before, version = dump(older), query(older, "PRAGMA user_version")
    open_book(older).close()
    copy = older.parent / COPY
    assert dump(copy) == before
    assert query(copy, "PRAGMA user_version") == version
    assert oct(copy.stat().st_mode & 0o777) == "0o600"
    assert oct(copy.parent.stat().st_mode & 0o777) == "0o700"
    assert [each.name for each in copy.parent.iterdir()] == [copy.name]


def test_the_copy_has_what_was_not_written_back_yet(oldest: Path) -> None:
    with closing(sqlite3.connect(oldest, isolation_level=None)) as other:
        other.execute("PRAGMA journal_mode = WAL")
        other.execute("UPDATE customer SET name = 'Mrs Vane-Tempest'")
        open_book(oldest).close()
    assert query(oldest.parent / COPY, "SELECT name FROM customer") == [("Mrs Vane-Tempest",)]


def test_a_current_book_is_not_copied(oldest: Path) -> None:
    open_book(oldest).close()
    (oldest.parent / COPY).unlink()
    open_book(oldest).close()
    assert list((oldest.parent / "backups").iterdir()) == []


def test_an_older_book_is_not_read_at_a_glance_nor_touched(older: Path) -> None:
    before = older.read_bytes()
    with pytest.raises(NotCurrent):
        find_jobs(older, "")
    assert [each.name for each in older.parent.iterdir()] == [older.name]
    assert older.read_bytes() == before


def test_a_step_that_fails_leaves_the_book_as_it_was(oldest: Path) -> None:
    query(oldest, "CREATE TABLE glance (in_the_way TEXT)")  # the last step wants the name
    before = oldest.read_bytes()
    with pytest.raises(NotKept, match="could not be saved: table glance already exists"):
        open_book(oldest)
    assert oldest.read_bytes() == before
    assert dump(oldest.parent / COPY) == dump(oldest)


@pytest.mark.parametrize(
    ("sound", "damaged"),
    [
        (b"\x0a", b"\xff"),  # the first byte of the index's page: no kind of page
        (b"\x03\x03\x09\x09", b"\x03\x03\x08\x09"),  # its one entry: another customer's
    ],
)
def test_a_copy_that_is_not_sound_stops_it(oldest: Path, sound: bytes, damaged: bytes) -> None:
    # https://www.sqlite.org/fileformat.html, sections 1.6 and 2.1; read.
    ((page,),) = query(
        oldest, "SELECT rootpage FROM sqlite_master WHERE name = 'site_by_customer_id'"
    )
    ((size,),) = query(oldest, "PRAGMA page_size")
    content = oldest.read_bytes()
    start, end = (page - 1) * size, page * size
    index = content[start:end].replace(sound, damaged, 1)
    content = content[:start] + index + content[end:]
    oldest.write_bytes(content)
    with pytest.raises(DamagedNotBackedUp):
        open_book(oldest)
    assert oldest.read_bytes() == content
    assert list((oldest.parent / "backups").iterdir()) == []


def test_without_room_for_a_copy_nothing_is_done(oldest: Path) -> None:
    before = oldest.read_bytes()
    (oldest.parent / "backups").touch()
    with pytest.raises(NotBackedUp, match="backups cannot be written: File exists"):
        open_book(oldest)
    assert oldest.read_bytes() == before


def test_a_book_that_another_program_writes_is_left(
    oldest: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bookfile, "BUSY_SECONDS", 0.05)
    before = oldest.read_bytes()
    with closing(sqlite3.connect(oldest, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(Locked):
            open_book(oldest)
    assert oldest.read_bytes() == before


ACTED = (
    "INSERT INTO action VALUES (1, '2026-06-01T18:00:00', 'enquiry of Mrs Vane added', NULL)",
    "INSERT INTO action VALUES (2, '2026-06-01T18:01:00', 'new price saved', NULL)",
    "INSERT INTO action VALUES (3, '2026-06-01T18:02:00', '0001 Priory Gardens, snag saved', NULL)",
    "INSERT INTO action VALUES (4, '2026-06-01T18:03:00', '0001 Priory Gardens, undone', '2026')",
    "INSERT INTO action VALUES (5, '2026-06-01T18:04:00', 'stock of nails changed', NULL)",
    "INSERT INTO journal VALUES (1, 1, 'customer', NULL, '{\"id\": 9}')",
    "INSERT INTO journal VALUES (2, 1, 'job', NULL, '{\"id\": 1}')",
    "INSERT INTO journal VALUES (3, 2, 'price', NULL, '{\"id\": 9}')",
    "INSERT INTO journal VALUES (4, 3, 'snag', NULL, '{\"id\": 9, \"job_id\": 1}')",
    "INSERT INTO journal VALUES (5, 4, 'job', '{\"id\": 1}', '{\"id\": 1}')",
    "INSERT INTO journal VALUES (6, 5, 'stock_move', NULL, '{\"id\": 9, \"job_id\": null}')",
)
"""What an older program did, with the pictures it kept of it."""


@pytest.mark.parametrize("older", range(1, 5), indirect=True)  # the fifth notes it itself
def test_what_an_older_program_did_is_of_the_job_or_the_list_it_was_done_to(older: Path) -> None:
    for statement in ACTED:
        query(older, statement)
    with opened(older) as book:
        assert [entry.words for entry in book.history(1)] == [
            "undone",
            "snag saved",
            "enquiry of Mrs Vane added",
        ]
        assert [entry.words for entry in book.history(ListName.PRICES)] == ["new price saved"]
    assert query(older, "SELECT job_id, list_name, made_in, follows FROM action ORDER BY id") == [
        (1, None, "", 0),
        (None, "prices", "", 0),
        (1, None, "", 1),
        (1, None, "", None),
        (None, "stock", "", 0),
    ]


def test_every_table_is_mapped_column_by_column(path: Path) -> None:
    open_book(path).close()
    mapped = {name: table.columns.keys() for name, table in SQLModel.metadata.tables.items()}
    tables = dump(path, "alembic_version", "listed")  # these the database keeps itself
    assert {
        name: [column for _, column, *_ in query(path, f'PRAGMA table_info("{name}")')]
        for name in tables
    } == mapped


def test_a_paper_issued_before_has_the_kind_of_its_customer_and_stays_guarded(path: Path) -> None:
    book_of_version(path, 42)
    query(path, "UPDATE customer SET kind = 'business'")
    query(
        path,
        "INSERT INTO document (id, job_id, series, number, kind, issued_on, tax_point, due_on,"
        " gross, snapshot) VALUES (1, 1, 'invoice', 1, 'invoice', '2026-06-01', '2026-06-01',"
        " '2026-06-01', 100, '{}')",
    )
    with opened(path):
        assert query(path, "SELECT customer_kind FROM document") == [("business",)]
    with pytest.raises(sqlite3.IntegrityError, match="never changes"):
        query(path, "UPDATE document SET customer_kind = 'householder'")
