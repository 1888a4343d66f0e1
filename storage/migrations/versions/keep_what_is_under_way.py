"""Keep what is under way, and the words a job is found by, beside the jobs.

The week looked through every job that ever was to find the few that matter, and the list put the
words of every job together for every letter typed. Both now stand in one narrow table, a row a
job, that triggers keep to what ``to_list`` says of it.
"""

from alembic import op

revision = "0006"
down_revision = "0005"

OWED = """
    SELECT coalesce(sum(gross - coalesce((SELECT sum(pence) FROM allocation
                                          WHERE document_id = document.id), 0)), 0)
    FROM document WHERE job_id = job.id AND series = 'invoice'
"""

INVOICED = "SELECT 1 FROM document WHERE job_id = job.id AND kind = 'invoice'"

SNAG_OPEN = "SELECT 1 FROM snag WHERE job_id = job.id AND done_on IS NULL"

WORDS = "customer.name || ' ' || site.place || ' ' || job.ref"

VIEW = f"""
CREATE VIEW to_list AS SELECT
    job.id AS job_id,
    (job.ended IS NULL AND (job.stage <> 'signed off' OR NOT EXISTS ({INVOICED})
                            OR EXISTS ({SNAG_OPEN}))) OR ({OWED}) <> 0 AS under_way,
    coalesce(job.ended, job.stage) AS state,
    {WORDS} NOT GLOB '*[^ -~]*' AS plain,
    lower({WORDS}) AS words
FROM job
JOIN site ON site.id = job.site_id
JOIN customer ON customer.id = site.customer_id
"""  # noqa: S608 -- no one's words
"""Under way is what has not ended and is not signed off, invoiced and free of snags, and what owes
something. Words are plain if SQLite can put them into small letters: it does so for ASCII alone."""

TABLE = """
CREATE TABLE listed (
    job_id INTEGER PRIMARY KEY,
    under_way INTEGER NOT NULL,
    state TEXT NOT NULL,
    plain INTEGER NOT NULL,
    words TEXT NOT NULL
) STRICT
"""

INDEXES = (
    "CREATE INDEX listed_under_way ON listed (job_id) WHERE under_way",
    "CREATE INDEX listed_by_state ON listed (state)",
    'CREATE INDEX strip_by_on ON strip ("on")',
    'CREATE INDEX lay_by_on ON lay ("on")',
    "DROP INDEX document_by_job_id",
    "CREATE INDEX document_by_job_id ON document (job_id, series, number)",
)
"""What was stripped or laid is found by its day, as the rest is. The bills of a job, in the order
of their numbers, were read out of all bills: SQLite took the index that was in that order."""

AT_SITE = "SELECT id FROM job WHERE site_id = {0}.id"
OF_CUSTOMER = (
    "SELECT job.id FROM job JOIN site ON site.id = site_id WHERE site.customer_id = {0}.id"
)
OF_JOB = "{0}.job_id"
SETTLED = "SELECT job_id FROM document WHERE id = {0}.document_id"

CHANGES = (
    ("job", "INSERT", "NEW.id"),
    ("job", "UPDATE OF id, ref, site_id, stage, ended", "OLD.id, NEW.id"),
    ("job", "DELETE", "OLD.id"),
    ("site", "INSERT", AT_SITE.format("NEW")),
    ("site", "UPDATE OF customer_id, place", AT_SITE.format("NEW")),
    ("customer", "INSERT", OF_CUSTOMER.format("NEW")),
    ("customer", "UPDATE OF name", OF_CUSTOMER.format("NEW")),
    ("document", "INSERT", OF_JOB.format("NEW")),
    ("allocation", "INSERT", SETTLED.format("NEW")),
    ("snag", "INSERT", OF_JOB.format("NEW")),
    ("snag", "UPDATE OF job_id, done_on", f"{OF_JOB.format('OLD')}, {OF_JOB.format('NEW')}"),
    ("snag", "DELETE", OF_JOB.format("OLD")),
)
"""What changes a row of the list, and the jobs it is that of. Documents and allocations are only
ever added; a row that takes the place of another comes as an INSERT."""

AGAIN = """
    DELETE FROM listed WHERE job_id IN ({0});
    INSERT INTO listed SELECT * FROM to_list WHERE job_id IN ({0});
"""


def upgrade() -> None:
    """Make the table, fill it, and set the triggers that keep it."""
    op.execute(VIEW)
    op.execute(TABLE)
    op.execute("INSERT INTO listed SELECT * FROM to_list")
    for index in INDEXES:
        op.execute(index)
    for table, change, jobs in CHANGES:
        name = f"{table}_{change.split()[0].lower()}_listed"
        op.execute(
            f"CREATE TRIGGER {name} AFTER {change} ON {table} BEGIN {AGAIN.format(jobs)} END"
        )
