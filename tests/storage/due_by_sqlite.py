"""The lines due of an evening, reckoned by plain SQL from the tables alone.

It stands beside the program's own rules and shares nothing with them: no view of the book, none of
its modules. Every kind is one query over what is recorded, after the words of the project's aims.
Left out is what no table tells: whether a second backup is on a stick, and whether a day is long
enough. Of the weather it knows days of rain or cold all day long, which is what the evenings are
laid out with.
"""

import sqlite3
from collections import Counter
from contextlib import closing
from datetime import date
from pathlib import Path

_BILLS = """
CREATE TEMP VIEW bills AS SELECT *, owed = gross AND gross > 0 AND waits AS lies FROM (SELECT
    job_id, kind = 'deposit invoice' AS of_deposit, due_on, gross,
    gross - coalesce((SELECT sum(pence) FROM allocation WHERE document_id = document.id), 0)
        + coalesce((SELECT sum(pence) FROM freed WHERE document_id = document.id), 0)
        - coalesce((SELECT sum(gross) FROM document AS note WHERE refers_to = document.id), 0)
        AS owed,
    coalesce((SELECT sum(gross) FROM document AS note WHERE refers_to = document.id), 0) AS off,
    EXISTS (
        SELECT 1 FROM to_send WHERE job_id = document.job_id AND paper = 'invoice'
            AND to_send.number = document.number AND sent_on IS NULL
    ) AS waits
FROM document WHERE series = 'invoice') WHERE off < gross OR gross = 0
"""

_FACTS = """
CREATE TEMP VIEW recorded AS SELECT
    job.id AS id, job.stage AS stage, job.ended IS NOT NULL AS ended,
    instr('enquiry  survey   quoted   booked   stripped laid     signed off', job.stage) / 9
        AS rank,
    job.visit_on, job.visit_at, job.materials_in_hand AS in_hand,
    survey.job_id IS NOT NULL AS surveyed,
    trim(json_extract(survey.access, '$.means')) <> '' AS answered,
    json_extract(survey.old_covering, '$.kind') = 'looks like cement sheet' AND strip."on" IS NULL
        AND lay."on" IS NULL AS doubtful,
    quote.id IS NOT NULL AS quoted, quote.sent_on AS final_on, quote.holds_until, quote.deposit,
    quote.sent_on IS NOT NULL AND EXISTS (
        SELECT 1 FROM to_send WHERE job_id = job.id AND paper = 'quote' AND sent_on IS NULL
            AND number = quote.number
    ) AS lies_unsent,
    acceptance."on" AS yes_on,
    CASE WHEN customer.kind = 'householder' AND acceptance.made_at = 'at the customer''s home'
        AND acceptance.urgent_why = '' THEN
        CASE WHEN acceptance.notice_on IS NULL THEN date(acceptance."on", '+14 days', '+12 months')
             ELSE date(max(acceptance."on", acceptance.notice_on), '+14 days') END
    END AS right_ends,
    CASE WHEN request_means IS NOT NULL THEN acceptance.early_request_on END AS asked_on,
    acceptance.knows_right_ends AS knows,
    strip."on" AS stripped, strip.cover, lay."on" AS laid,
    EXISTS (SELECT 1 FROM usage WHERE job_id = job.id) AS used,
    (SELECT min(day) FROM booking WHERE job_id = job.id AND day >= :today
        AND day IS NOT strip."on") AS next_day,
    (SELECT coalesce(sum(pence), 0) FROM payment WHERE job_id = job.id)
        - (SELECT coalesce(sum(pence), 0) FROM counter_entry WHERE job_id = job.id)
        - (SELECT coalesce(sum(gross - owed - off), 0) FROM bills WHERE job_id = job.id)
        AS held_over,
    EXISTS (SELECT 1 FROM bills WHERE job_id = job.id) AS billed,
    EXISTS (SELECT 1 FROM bills WHERE job_id = job.id AND NOT of_deposit) AS billed_for_work
FROM job JOIN site ON site.id = site_id JOIN customer ON customer.id = customer_id
LEFT JOIN survey ON survey.job_id = job.id
LEFT JOIN quote ON quote.id = coalesce(
    (SELECT quote_id FROM acceptance JOIN quote ON quote.id = quote_id WHERE job_id = job.id),
    (SELECT max(id) FROM quote WHERE job_id = job.id)
)
LEFT JOIN acceptance ON acceptance.quote_id = quote.id
LEFT JOIN strip ON strip.job_id = job.id
LEFT JOIN lay ON lay.job_id = job.id
"""

_AS_THEY_ARE = """
CREATE TEMP VIEW facts AS SELECT *,
    NOT ended AND (yes_on IS NOT NULL OR rank >= 3) AND rank < 5 AS agreed,
    next_day IS NOT NULL AND laid IS NULL AND rank < 5 AS lies_ahead,
    stripped IS NULL AND laid IS NULL AS untouched
FROM recorded
"""

_DUE = {
    "sheet the deck": "cover = 'open' AND laid IS NULL",
    "tie the tarpaulin down": """NOT ended AND cover = 'sheeted' AND laid IS NULL AND EXISTS (
        SELECT 1 FROM outlook WHERE day IN (:today, date(:today, '+1 day'))
            AND CAST(wind_mph AS REAL) >= 40)""",
    "is the deck closed?": """agreed AND untouched AND EXISTS (
        SELECT 1 FROM booking WHERE job_id = facts.id AND day = :today)""",
    "get the old covering tested": "NOT ended AND surveyed AND doubtful",
    "ring about the weather": """NOT ended AND lies_ahead AND EXISTS (
        SELECT 1 FROM booking JOIN outlook USING (day)
        WHERE job_id = facts.id AND day >= :today AND day IS NOT stripped
            AND (sky IN ('rain', 'cold') OR CAST(wind_mph AS REAL) >= 40))""",
    "order the materials": """NOT ended AND lies_ahead AND NOT in_hand AND stripped IS NULL
        AND next_day <= date(:today, '+7 days')""",
    "get the request to start early": """agreed AND right_ends >= :today AND EXISTS (
        SELECT 1 FROM (
            SELECT stripped AS first UNION ALL SELECT laid
            UNION ALL SELECT next_day WHERE laid IS NULL
        ) WHERE first <= right_ends AND (coalesce(asked_on, '9') > first OR NOT knows))""",
    "mark as laid": """NOT ended AND rank < 5 AND (
        laid IS NOT NULL AND used OR laid IS NULL AND cover = 'laid the same day')""",
    "issue the invoice": "NOT ended AND rank >= 5 AND NOT billed_for_work",
    "agree an extra": """NOT ended AND EXISTS (
        SELECT 1 FROM extra WHERE job_id = facts.id AND state = 'to agree')""",
    "issue the deposit invoice": """NOT ended AND deposit > 0 AND yes_on IS NOT NULL
        AND untouched AND NOT billed""",
    "pay money back": "ended AND held_over > 0",
    "settle what was overpaid": """NOT ended AND held_over > 0 AND billed_for_work
        AND NOT EXISTS (SELECT 1 FROM bills WHERE job_id = facts.id AND owed > 0)""",
    "did it go ahead?": """agreed AND (
        untouched
            AND EXISTS (SELECT 1 FROM booking WHERE job_id = facts.id AND day < :today)
            AND NOT EXISTS (SELECT 1 FROM booking WHERE job_id = facts.id AND day = :today)
        OR cover = 'sheeted' AND laid IS NULL AND EXISTS (
            SELECT 1 FROM booking WHERE job_id = facts.id AND day > stripped AND day <= :today))""",
    "record materials and hours": "NOT ended AND laid IS NOT NULL AND NOT used",
    "mark as booked": "agreed AND rank < 3 AND lies_ahead",
    "book a day": """agreed AND untouched AND NOT EXISTS (
        SELECT 1 FROM booking WHERE job_id = facts.id AND task <> 'lay')""",
    "book the laying": """agreed AND cover = 'sheeted' AND laid IS NULL AND NOT EXISTS (
        SELECT 1 FROM booking WHERE job_id = facts.id AND day > stripped)""",
    "get it signed off": "NOT ended AND stage = 'laid' AND billed_for_work",
    "send the quote": """NOT ended AND surveyed AND answered AND NOT doubtful
        AND final_on IS NULL AND yes_on IS NULL AND rank <= 2""",
    "ask about a quote": """NOT ended AND final_on IS NOT NULL AND NOT lies_unsent
        AND yes_on IS NULL AND holds_until BETWEEN :today AND date(:today, '+3 days')""",
    "ring about a quote that ran out": """NOT ended AND final_on IS NOT NULL AND NOT lies_unsent
        AND yes_on IS NULL AND holds_until < :today""",
    "fill in the survey": """NOT ended AND (
        NOT surveyed AND visit_on <= :today
        OR surveyed AND NOT answered AND NOT doubtful
            AND final_on IS NULL AND yes_on IS NULL AND rank <= 2)""",
    "arrange the visit": """NOT ended AND NOT surveyed AND rank <= 1 AND (
        visit_on IS NULL OR visit_at IS NULL AND visit_on > :today)""",
    "visit": """NOT ended AND visit_on = date(:today, '+1 day') AND visit_at IS NOT NULL""",
}
"""What puts a job on the list, by what the line asks for."""

_MORE = {
    "issue the invoice": "SELECT job_id FROM bills WHERE lies AND NOT of_deposit",
    "issue the deposit invoice": "SELECT job_id FROM bills WHERE lies AND of_deposit",
    "chase what is overdue": """SELECT job_id FROM bills
        WHERE owed > 0 AND due_on < :today AND NOT lies""",
    "ask for the statement of deduction": """SELECT job_id FROM payment
        WHERE cis > 0 AND NOT EXISTS (SELECT 1 FROM statement WHERE payment_id = payment.id)
            AND NOT EXISTS (SELECT 1 FROM counter_entry
                            WHERE payment_id = payment.id AND kind = 'mistake')
            AND date(received_on, '-5 days', 'start of month', '+1 month', '+18 days') < :today""",
    "put a snag right": """SELECT job_id FROM snag JOIN facts ON facts.id = job_id
        WHERE done_on IS NULL AND NOT ended""",
    "send the quote": "SELECT id FROM facts WHERE NOT ended AND lies_unsent AND yes_on IS NULL",
}
"""What is asked once for every bill, snag or final quote."""

_PAPERS = """
    SELECT CASE WHEN until < (
        SELECT min(next_day) FROM facts
        WHERE NOT ended AND lies_ahead AND next_day <= date(:today, '+7 days')
    ) THEN 'renew what has run out' ELSE 'renew a registration or policy' END
    FROM (SELECT waste_expires AS until FROM trader UNION ALL SELECT liability_expires FROM trader)
    WHERE date(until, '-1 month') <= :today
"""
"""The trader's own papers with a month or less to run: some run out before the next booked day."""

_RATES = """
    SELECT 'confirm the starting rates' FROM trader
    WHERE name <> '' AND json_array_length(rates, '$.confirmed') = 0
"""
"""On these evenings all of the trader's rates are confirmed, or none."""

_PUT_OFF = "SELECT kind, job_id FROM put_off WHERE until > :today"


def lines_due(path: Path, today: date) -> Counter[tuple[str, int]]:
    """What is due of each job, and how often; of the trader's own papers as of job 0."""
    due: Counter[tuple[str, int]] = Counter()
    with closing(sqlite3.connect(path)) as book:
        for view in (_BILLS, _FACTS, _AS_THEY_ARE):
            book.execute(view.replace(":today", f"'{today}'"))
        queries = [(kind, f"SELECT id FROM facts WHERE {rule}") for kind, rule in _DUE.items()]  # noqa: S608 -- ours
        for kind, query in (*queries, *_MORE.items()):
            found = book.execute(query.replace(":today", f"'{today}'"))
            due.update((kind, key) for (key,) in found)
        for put_off in book.execute(_PUT_OFF.replace(":today", f"'{today}'")):
            due.pop(put_off, None)
        for own in (_PAPERS, _RATES):
            of_trader = book.execute(own.replace(":today", f"'{today}'"))
            due.update((kind, 0) for (kind,) in of_trader)
    return due
