"""Tell at a glance what a quote waits for, the time of a visit, and what a customer knows.

A quote cannot be sent before the survey answers all that it asks.
"""

from alembic import op

from storage.migrations.versions.show_jobs_at_a_glance import VIEW as GLANCE
from storage.migrations.versions.tell_more_at_a_glance import MORE

revision = "0014"
down_revision = "0013"

DECK = """
    json_extract(deck, '$.kind') IS NOT NULL
    AND CAST(coalesce(json_extract(deck, '$.thickness.mm'), 0) AS REAL) > 0
    AND (json_extract(deck, '$.kind') = 'sheet'
         OR (trim(json_extract(deck, '$.profile')) <> ''
             AND json_extract(deck, '$.cover_width') IS NOT NULL))
    AND json_extract(deck, '$.seen_above') = 1 AND json_extract(deck, '$.seen_below') = 1
    AND json_extract(deck, '$.nails_inside') IS NOT NULL
    AND json_extract(deck, '$.state') IS NOT NULL
    AND (json_extract(deck, '$.state') <> 'metres to replace'
         OR CAST(coalesce(json_extract(deck, '$.replace_m'), 0) AS REAL) > 0)
"""

OLD = """
    json_extract(old_covering, '$.kind') IS NOT NULL
    AND (json_extract(old_covering, '$.kind') = 'bare deck'
         OR (coalesce(json_extract(old_covering, '$.layers'), 0) > 0
             AND json_extract(old_covering, '$.suspicion') IS NOT NULL))
"""

ANSWERED = f"""
    SELECT 1 FROM survey WHERE job_id = job.id AND trim(json_extract(access, '$.means')) <> ''
    AND {DECK} AND {OLD}
"""  # noqa: S608 -- no one's words
"""A survey that answers what is asked before a quote is sent, but for the sizes of the roof and its
covering: without those it cannot be priced."""

STILL_MORE = f"""{MORE}
    job.visit_at AS visit_at,
    coalesce(acceptance.knows_right_ends, 0) AS knows_right_ends,
    EXISTS ({ANSWERED}) AS survey_answered,
"""


def upgrade() -> None:
    """Make the view anew."""
    op.execute("DROP VIEW glance")
    op.execute(GLANCE.replace("job.stage AS stage,", STILL_MORE))
