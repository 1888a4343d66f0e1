"""What the book and the reckoner must agree on."""

import sqlite3
from typing import Any

from domain.job import Job
from domain.scope import ListName
from storage.book import Book
from tests.storage.lives.deed import TODAY
from tests.storage.lives.reckoner import STAGES, Kind, Reckoner


def see_money(plain: sqlite3.Connection, reckoner: Reckoner) -> None:
    sql = "SELECT series, number, job_id, kind, gross FROM document ORDER BY id"
    papers = [(p.series, p.number, p.job, p.kind, p.gross) for p in reckoner.papers]
    assert plain.execute(sql).fetchall() == papers
    sql = "SELECT job_id, pence FROM payment ORDER BY id"
    assert plain.execute(sql).fetchall() == reckoner.payments
    drifted = "SELECT * FROM to_list EXCEPT SELECT * FROM listed"
    assert not plain.execute(drifted).fetchall()
    listed = plain.execute("SELECT job_id, under_way, state FROM listed ORDER BY 1")
    assert listed.fetchall() == [
        (job, reckoner.is_under_way(job), life.ended or STAGES[life.stage])
        for job in reckoner.standing
        for life in [reckoner.life(job)]
    ]


def see_lists(plain: sqlite3.Connection, book: Book, reckoner: Reckoner) -> None:
    lists = {name: reckoner.life(name) for name in ListName}
    assert amounts_of(book.stock()) == reckoner.stock()[0]
    nails = "SELECT net FROM price WHERE material = 'nails' AND merchant = 'Quayside'"
    nets = [net for (net,) in plain.execute(nails)]
    assert sorted(nets) == sorted(lists[ListName.PRICES].prices)
    phones = [phone for (phone,) in plain.execute("SELECT phone FROM merchant")]
    assert phones == [told for told in (lists[ListName.STOCK].merchant_phone,) if told]
    bought = [pence for (pence,) in plain.execute("SELECT pence FROM purchase")]
    assert sorted(bought) == sorted(lists[ListName.BOOKS].bought)
    back = [pence for (pence,) in plain.execute("SELECT pence FROM money_back")]
    assert sorted(back) == sorted(lists[ListName.BOOKS].came_back)
    spent = sum(each.left for each in book.years_books(TODAY).books.purchases)
    assert spent == sum(bought) - sum(back)
    low = plain.execute("SELECT low_c FROM outlook").fetchall()
    expected = lists[ListName.FORECASTS].low
    assert low == ([] if expected is None else [(str(expected),)])
    ((phone, standing),) = plain.execute("SELECT phone, vat_standing FROM trader")
    details = lists[ListName.DETAILS]
    assert (phone, standing == "standard") == (
        details.phone or "01632 960100",
        details.registered,
    )


def see_job(job: Job, reckoner: Reckoner) -> None:
    """What a job says of itself is what was done to it."""
    key = job.id or 0
    life, bills = reckoner.life(key), reckoner.bills(key)
    assert (job.ref, job.stage, job.ended or "") == (
        f"{reckoner.refs[key]:04d}",
        STAGES[life.stage],
        life.ended,
    )
    seen = job.survey and (job.survey.access.photos, job.survey.covering)
    assert (seen and seen[0], seen and seen[1] and seen[1].key) == (life.photos, life.covering)
    assert {q.number: _offer(q) for q in job.quotes} == {
        number: (o.coverings, o.lines, o.deposit, o.sent) for number, o in life.offers.items()
    }
    agreed = [
        (q.number, [o.id for o in q.options].index(q.acceptance.option_id), q.acceptance.who)
        for q in job.quotes
        if q.acceptance
    ]
    assert agreed == ([life.agreed] if life.agreed else [])
    assert [day.hours for day in job.days] == life.days
    assert len(job.rung) == life.staying
    assert [each.until.day for each in job.chased] == life.chased
    assert {each.number for each in job.to_send if each.sent_on} == life.went
    assert (job.stripping and job.stripping.found) == life.found
    assert (job.laying and job.laying.temperature_c) == life.degrees
    assert {e.words: (e.price, e.state) for e in job.extras} == life.extras
    assert [(u.element, u.used, u.wasted, u.left) for u in job.usages] == life.used
    assert {snag.words: snag.done_on is not None for snag in job.snags} == life.snags
    assert [note.words for note in job.own_notes] == life.noted
    assert (job.sign_off and job.sign_off.who) == life.signed
    asked = [d for d in job.documents if d.kind.asks]
    assert sorted((d.number, d.kind, d.gross, d.paid) for d in asked) == [
        (bill.number, bill.kind, bill.gross, bill.paid) for bill in bills
    ]
    assert job.owed == reckoner.owed(key)
    received = sum(pence for of, pence in reckoner.payments if of == key)
    assert sum(p.pence for p in job.payments) == received
    over = sum(payment.unallocated for payment in job.payments)
    assert over == reckoner.over(key)


def _offer(quote: Any) -> tuple[Any, ...]:
    """A quote as the reckoner has it."""
    lines = tuple([(li.price, int(li.vat_rate)) for li in o.lines] for o in quote.options)
    sent = quote.sent_on is not None
    return tuple(o.covering for o in quote.options), lines, quote.deposit, sent


def amounts_of(lines: Any) -> dict[Kind, Any]:
    """Lines of stock as the reckoner has them."""
    return {
        (str(each.material), each.colour.strip().lower() if each.colour else ""): each.quantity
        for each in lines
    }
