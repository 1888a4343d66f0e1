"""The days on the roof, and what was used on them."""

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from functools import partial

from domain.estimate.usage import UsageRecord, leftovers_to_stock
from domain.job import (
    Booking,
    DaysMoved,
    Extra,
    ExtraState,
    Means,
    Note,
    Rung,
    SignOff,
    Snag,
)
from tests import builders
from tests.storage.lives.deed import (
    TODAY,
    Deed,
    Doing,
    kind_of,
    sets,
    stock_move,
)
from tests.storage.lives.reckoner import (
    Life,
)


def booked(at: Doing) -> Deed:
    """No day, one, or two; booked again they are moved."""
    hours = [at.n % 8 + 1] * (at.n % 3 if at.life.days else 1)
    days = tuple(
        builders.booked_day(day=builders.LAY_DAY + timedelta(days=at.n % 5 + i), hours=Decimal(h))
        for i, h in enumerate(hours)
    )
    booking = Booking(days, materials_in_hand=bool(at.n % 2))
    return Deed(lambda: at.book.book_days(at.job, booking), sets(days=hours))


def moved(at: Doing) -> Deed:
    """All its days on, by as much: the hours go with them."""
    wanted = DaysMoved(at.job.days, 1 + at.n % 9)
    return Deed(lambda: at.book.move_days(at.job, wanted), sets(), _can_be_rung(at))


def stays(at: Doing) -> Deed:
    """The customer wants them to stay."""
    kept = tuple(Rung(day, TODAY, "r") for day in sorted({d.day for d in at.job.days}))

    def change(life: Life) -> None:
        life.staying += len(kept)

    call = partial(at.book.keep_days, at.job, kept)
    return Deed(call, change, _can_be_rung(at))


def _can_be_rung(at: Doing) -> bool:
    return bool(at.life.days) and not at.life.ended and at.life.degrees is None


def found(at: Doing) -> Deed:
    found = builders.stripping(found=f"{at.n} boards")
    call = partial(at.book.record_stripping, at.job, found)
    return Deed(call, sets(found=found.found))


def extra(at: Doing) -> Deed:
    """A new one to agree, or one known: agreed, not charged, or taken away."""
    known = at.job.extras[at.n % len(at.job.extras)] if at.job.extras and at.n % 4 else None
    allowed = not at.reckoner.billed(at.key, "invoice")
    words = known.words if known else f"board {len(at.life.extras)} {at.n}"
    if known is not None and at.n % 4 == 1:
        key = known.id or 0
        return Deed(
            lambda: at.book.delete_extra(at.job, key),
            lambda life: life.extras.pop(words) and None,
            allowed,
        )
    state = ExtraState.OPEN
    if known is not None:
        state = ExtraState.AGREED if at.n % 4 == 2 else ExtraState.NOT_CHARGED
    price = at.n + 7
    extra = Extra(
        words, Decimal(1), "m", price, Decimal(20), state,
        "Mrs Adeyemi", TODAY, Means.TEXT, id=known.id if known else None,
    )  # fmt: skip

    def change(life: Life) -> None:
        life.extras[words] = (price, str(state))

    return Deed(lambda: at.book.save_extra(at.job, extra), change, allowed)


def settled(at: Doing) -> Deed:
    """An extra that stands open is agreed."""
    still = next((e for e in at.job.extras if e.state is ExtraState.OPEN), None)
    if still is None:
        return extra(at)
    agreed = replace(still, state=ExtraState.AGREED)

    def change(life: Life) -> None:
        life.extras[still.words] = (still.price, "agreed")

    allowed = not at.reckoner.billed(at.key, "invoice")
    return Deed(lambda: at.book.save_extra(at.job, agreed), change, allowed)


def laid(at: Doing) -> Deed:
    laying = builders.laying(temperature_c=Decimal(at.n))
    return Deed(lambda: at.book.record_laying(at.job, laying), sets(degrees=at.n))


def used(at: Doing) -> Deed:
    """Used, wasted and left over to stock; taken from stock what the quote counted on."""
    used, left = Decimal(at.n % 60), Decimal(at.n % 7)
    usages = tuple(
        replace(each, used=used, wasted=Decimal(at.n % 3), left=left if at.n % 2 else Decimal(0))
        for each in builders.usages()
    )
    if at.job.quote is not None:
        moves = leftovers_to_stock(at.job, usages, TODAY)
    else:
        moves = (stock_move("mastic", at.n % 9 - 4),) if at.n % 9 - 4 else ()
    record = UsageRecord(usages, moves)
    rows = [(u.element, u.used, u.wasted, u.left) for u in record.usages]
    return Deed(
        lambda: at.book.record_usage(at.job, record),
        sets(used=rows),
        moves=[(kind_of(move), move.quantity) for move in moves],
    )


def snag(at: Doing) -> Deed:
    known = at.job.snags[-1] if at.job.snags and at.n % 3 else None
    words = known.words if known else f"snag {len(at.life.snags)} {at.n}"
    snag = Snag(words, TODAY if known else None, id=known.id if known else None)

    def change(life: Life) -> None:
        life.snags[words] = known is not None

    return Deed(lambda: at.book.save_snag(at.job, snag), change)


def noted(at: Doing) -> Deed:
    """A note more, or the last one in other words."""
    known = at.job.own_notes[-1] if at.job.own_notes and at.n % 3 == 0 else None
    note = Note(f"gate {at.reckoner.actions}", TODAY, id=known.id if known else None)

    def change(life: Life) -> None:
        life.noted[len(life.noted) - bool(known) :] = [note.words]

    return Deed(lambda: at.book.write_note(at.job, note), change)


def unnoted(at: Doing) -> Deed:
    """The last note is taken away; where there is none, one is written."""
    if not at.job.own_notes:
        return noted(at)
    known = at.job.own_notes[-1].id or 0

    def change(life: Life) -> None:
        life.noted.pop()

    return Deed(lambda: at.book.delete_note(at.job, known), change)


def signed(at: Doing) -> Deed:
    word = SignOff(f"Mrs {at.n}", TODAY)
    return Deed(lambda: at.book.sign_off(at.job, word), sets(signed=word.who))
