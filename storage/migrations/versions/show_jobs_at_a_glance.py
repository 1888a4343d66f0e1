"""Show jobs at a glance: one view of what the week and the lists need to know of each job."""

from alembic import op

revision = "0003"
down_revision = "0002"

COUNTING_QUOTE = """
    SELECT quote.id FROM quote LEFT JOIN acceptance ON acceptance.quote_id = quote.id
    WHERE quote.job_id = job.id
    ORDER BY acceptance.quote_id IS NOT NULL DESC, quote.number DESC LIMIT 1
"""
"""The accepted quote, else the newest."""

OWED = """
    SELECT sum(gross - coalesce((SELECT sum(pence) FROM allocation
                                 WHERE document_id = document.id), 0))
    FROM document WHERE job_id = job.id AND series = 'invoice'
"""

BILLS = """
    SELECT json_group_array(json_array(id, number, issued_on, due_on, gross,
        gross - coalesce((SELECT sum(pence) FROM allocation WHERE document_id = d.id), 0),
        kind = 'deposit invoice'))
    FROM (SELECT * FROM document
          WHERE job_id = job.id AND series = 'invoice' ORDER BY number) AS d
"""

DAYS = """
    SELECT json_group_array(json_array(day, hours, task, id))
    FROM (SELECT * FROM booking WHERE job_id = job.id ORDER BY day, id)
"""

HOURS = "SELECT json_group_array(used) FROM usage WHERE job_id = job.id AND unit = 'hour'"

PAID = """
    SELECT json_group_array(json_array(received_on, pence))
    FROM (SELECT * FROM payment WHERE job_id = job.id ORDER BY received_on, id)
"""

OPEN_SNAGS = """
    SELECT json_group_array(words)
    FROM (SELECT * FROM snag WHERE job_id = job.id AND done_on IS NULL ORDER BY id)
"""

FIRST_OPTION = "SELECT min(id) FROM option WHERE quote_id = quote.id"

VIEW = f"""
CREATE VIEW glance AS SELECT
    job.id AS job_id, job.ref AS ref, site.place AS place, customer.name AS customer,
    job.stage AS stage, job.ended AS ended,
    job.received_on AS received_on, job.visit_on AS visit_on,
    (SELECT old_covering FROM survey WHERE job_id = job.id) AS old_covering,
    quote.sent_on AS quote_sent_on, quote.holds_until AS holds_until,
    acceptance."on" AS accepted_on,
    (SELECT gross FROM option WHERE id = coalesce(acceptance.option_id, ({FIRST_OPTION})))
        AS quote_gross,
    coalesce(quote.deposit, 0) AS deposit,
    ({DAYS}) AS days,
    (SELECT max(day) FROM booking WHERE job_id = job.id) AS last_day,
    job.materials_in_hand AS materials_in_hand,
    strip."on" AS stripped_on, strip.cover AS cover,
    (SELECT count(*) FROM extra WHERE job_id = job.id AND state = 'to agree') AS extras_open,
    lay."on" AS laid_on,
    EXISTS (SELECT 1 FROM usage WHERE job_id = job.id) AS usage_written,
    ({HOURS}) AS hours_used,
    ({OPEN_SNAGS}) AS open_snags,
    ({BILLS}) AS bills,
    coalesce(({OWED}), 0) AS owed,
    ({PAID}) AS paid
FROM job
JOIN site ON site.id = job.site_id
JOIN customer ON customer.id = site.customer_id
LEFT JOIN quote ON quote.id = ({COUNTING_QUOTE})
LEFT JOIN acceptance ON acceptance.quote_id = quote.id
LEFT JOIN strip ON strip.job_id = job.id
LEFT JOIN lay ON lay.job_id = job.id
"""  # noqa: S608 -- no one's words

BY_DAY = {
    "booking": "day",
    "quote": "sent_on",
    "acceptance": '"on"',
    "document": "issued_on",
    "job": "stage",
}
"""The week looks for what happened since a day, and for jobs that are under way."""


def upgrade() -> None:
    """Make the view, and the indexes it is searched by."""
    op.execute(VIEW)
    for table, column in BY_DAY.items():
        name = column.strip('"')
        op.execute(f"CREATE INDEX {table}_by_{name} ON {table} ({column})")
