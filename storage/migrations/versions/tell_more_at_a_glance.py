"""Tell more at a glance: how to reach the customer, and whether they may cancel.

A job that was called off with its deck open is under way too: somebody has to close it.
"""

from alembic import op

from storage.migrations.versions.keep_what_is_under_way import AGAIN, OF_JOB
from storage.migrations.versions.keep_what_is_under_way import VIEW as TO_LIST
from storage.migrations.versions.show_jobs_at_a_glance import VIEW as GLANCE

revision = "0010"
down_revision = "0009"

DISTANT = "acceptance.made_at <> 'at the trader''s own premises'"

MORE = f"""
    customer.phone AS phone, customer.email AS email,
    coalesce(nullif(site.address, ''), customer.address) AS address,
    coalesce(customer.kind = 'householder' AND {DISTANT}, 0) AS may_cancel,
    acceptance.notice_on AS notice_on, acceptance.early_request_on AS early_request_on,
    job.stage AS stage,
"""

OPEN_DECK = "SELECT 1 FROM strip WHERE job_id = job.id AND cover = 'open'"

CHANGES = (
    ("INSERT", OF_JOB.format("NEW")),
    ("UPDATE OF job_id, cover", f"{OF_JOB.format('OLD')}, {OF_JOB.format('NEW')}"),
    ("DELETE", OF_JOB.format("OLD")),
)
"""What changes whether a deck is open, and the jobs it is that of."""


def upgrade() -> None:
    """Make both views anew, and keep the list by what stripping records too."""
    op.execute("DROP VIEW glance")
    op.execute(GLANCE.replace("job.stage AS stage,", MORE))
    op.execute("DROP VIEW to_list")
    op.execute(TO_LIST.replace("AS under_way", f"OR EXISTS ({OPEN_DECK}) AS under_way"))
    for change, jobs in CHANGES:
        name = f"strip_{change.split()[0].lower()}_listed"
        op.execute(f"CREATE TRIGGER {name} AFTER {change} ON strip BEGIN {AGAIN.format(jobs)} END")
    op.execute("DELETE FROM listed")
    op.execute("INSERT INTO listed SELECT * FROM to_list")
