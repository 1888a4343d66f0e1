"""Where a merchant's list goes: one place, however many jobs it is for.

It is asked once, and kept with the merchant: of the next list it holds as long as it still can.
"""

from collections.abc import Iterable

from domain.estimate.ordered import COLLECTED, Merchant
from domain.estimate.ordering import JobToSupply, MerchantList


def places_of(lists: Iterable[MerchantList], own: str) -> dict[str, str]:
    """What can be chosen, by its words, and the address that is kept: the usual one first.

    ``own`` is the trader's address; empty if it is not known.
    """
    jobs = {job.job_id: job for each in lists for job in each.jobs}
    soonest = sorted(jobs.values(), key=lambda job: (job.day, job.job_id))
    mine = {"my own address": own} if own.strip() else {}
    to = {f"to the job {job.place}": _address(job) for job in soonest}
    return mine | to | {"I collect it": COLLECTED}


def place_of(given: MerchantList, own: str, merchant: Merchant) -> str:
    """Where a list goes: where was said if it still can, else the usual place."""
    places = list(places_of([given], own).values())
    return merchant.deliver_to if merchant.deliver_to in places else places[0]


def is_to_be_asked(given: MerchantList, own: str, merchant: Merchant) -> bool:
    """Whether nobody has said yet where a list for several jobs goes."""
    return len(given.jobs) > 1 and merchant.deliver_to not in places_of([given], own).values()


def _address(job: JobToSupply) -> str:
    return job.address.strip() or job.place
