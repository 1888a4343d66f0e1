"""The coming jobs with what they take, and what is ordered for them, read from the book."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal

from domain.coverings.materials import Material
from domain.estimate.nails_chosen import nailed_with
from domain.estimate.ordered import Merchant, Ordered
from domain.estimate.ordering import (
    JobToSupply,
    MerchantList,
    kind_of,
    order_lists,
    settled_by,
)
from domain.estimate.quoting import kept_basis
from domain.estimate.reserved import not_reserved
from domain.estimate.supplies import PricesAndStock
from domain.trader import Nailing
from storage.mapping.codec import value_of
from storage.queries import is_in_hand, read_prices, read_reservations, read_stock, read_trader
from storage.rows import MerchantRow, OrderedRow
from storage.tables import Tables

_AHEAD = timedelta(days=14)
"""How far ahead is ordered: a common practice, so that nothing lies about for long."""

_COMING = """
    SELECT job.id, job.ref, site.place, site.address, job.materials_in_hand, option.basis,
        (SELECT json_extract(deck, '$.nail_mm') FROM survey WHERE job_id = job.id) AS nail,
        (SELECT min(day) FROM booking WHERE job_id = job.id AND day >= ?1) AS first
    FROM job
    JOIN site ON site.id = job.site_id
    JOIN quote ON quote.job_id = job.id
    JOIN acceptance ON acceptance.quote_id = quote.id
    JOIN option ON option.id = acceptance.option_id
    WHERE job.id IN (SELECT job_id FROM booking WHERE day BETWEEN ?1 AND ?2)
        AND job.ended IS NULL AND job.stage NOT IN ('stripped', 'laid', 'signed off')
        AND NOT EXISTS (SELECT 1 FROM strip WHERE job_id = job.id)
        AND NOT EXISTS (SELECT 1 FROM lay WHERE job_id = job.id)
        AND NOT EXISTS (SELECT 1 FROM usage WHERE job_id = job.id)
    ORDER BY job.id, quote.number
"""
"""Agreed jobs with a day to come of which nothing is begun; the newest quote of a job last."""


@dataclass(frozen=True, slots=True)
class Orders:
    """What is to be ordered, and what is on its way."""

    jobs: tuple[JobToSupply, ...]
    """The coming jobs whose materials are not in hand."""
    lists: tuple[MerchantList, ...]
    """To order, a merchant each."""
    coming: tuple[Ordered, ...]
    """Ordered or part delivered, the soonest first."""
    merchants: Mapping[str, Merchant] = field(default_factory=dict)
    """Each merchant of whom more than the name is known, by it."""

    def settled_by(self, ordered: MerchantList) -> frozenset[int]:
        """The jobs for which nothing is left to order once a list is ordered."""
        return settled_by(ordered, self.lists, self.jobs)


def read_orders(tables: Tables, today: date) -> Orders:
    """Return what is to be ordered for the jobs of the coming fortnight."""
    nailing = read_trader(tables).nailing
    jobs = tuple(_coming_jobs(tables, today, nailing))
    ours = {job.job_id for job in jobs}
    reserved = [each for each in read_reservations(tables) if each.job_id not in ours]
    stock = not_reserved(read_stock(tables), reserved)
    coming = tuple(_on_their_way(tables))
    on_its_way: dict[tuple[Material, str], Decimal] = {}
    for each in coming:
        kind = kind_of(each.material, each.colour)
        on_its_way[kind] = on_its_way.get(kind, Decimal(0)) + each.to_come * each.per_pack
    lists = order_lists(
        jobs, PricesAndStock(read_prices(tables), stock, today, nailing), on_its_way
    )
    known = (value_of(Merchant, row) for row in tables.read(MerchantRow))
    return Orders(jobs, lists, coming, {each.name: each for each in known})


def _coming_jobs(tables: Tables, today: date, nailing: Nailing) -> Iterator[JobToSupply]:
    until = today + _AHEAD
    found = tables.found(_COMING, today.isoformat(), until.isoformat())
    newest = {row[0]: row for row in found}
    for key, ref, place, address, in_hand, text, nail, first in newest.values():
        basis = kept_basis(text)
        if basis is not None and not in_hand and not is_in_hand(tables, key):
            day = date.fromisoformat(first)
            supplies = nailed_with(basis.supplies, nail, nailing)
            yield JobToSupply(key, ref, place, address, day, supplies)


def _on_their_way(tables: Tables) -> Iterator[Ordered]:
    wanted = "SELECT id FROM ordered WHERE came < packs ORDER BY expected_on, id"
    for (key,) in tables.found(wanted):
        row = tables.read_one(OrderedRow, key)
        if row is not None:
            yield value_of(Ordered, row)
