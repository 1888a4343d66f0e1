"""Changes that make a job fail what is asked before an old covering is touched, or come near to it.

Where each rule is from stands beside its check in ``domain/checks/safe_to_strip.py``.
"""

from datetime import timedelta

from domain.job import NONE_THERE, OldKind, Sample, Suspicion
from tests.builders import LAY_DAY, SIGNED, VISIT
from tests.domain.checks.changes import Change, both, job, own, part, surveyed

DAY_BEFORE = LAY_DAY - timedelta(days=1)
NOT_STRIPPED = job(stripping=None, laying=None)
TESTED = {"cleared_by": "A Laboratory", "sample_number": "S 117", "tested_on": VISIT}
GONE = {"removed_by": "A Remover", "removed_on": VISIT, "consignment_note": "C 42"}


def old(**changes: object) -> Change:
    return surveyed("old", **{"suspicion": Suspicion.BEFORE, **changes})


def open_roof(change: Change) -> Change:
    """The same before it was stripped."""
    return both(NOT_STRIPPED, change)


def underneath(**of_old: object) -> Change:
    """Something suspect lay under the old covering, and the deck is still open."""
    found = both(job(laying=None), part("stripping", suspect=True))
    return both(found, surveyed("old", **of_old))


FAILS: list[tuple[str, Change]] = [
    ("asbestos", old(sample=Sample.CLEAR)),  # by nobody
    *[
        ("asbestos", old(sample=Sample.CLEAR, **{**TESTED, name: None or ""}))
        for name in ("cleared_by", "sample_number")
    ],
    ("asbestos", old(sample=Sample.CLEAR, **{**TESTED, "tested_on": None})),
    ("asbestos", old(sample=Sample.FOUND, **TESTED)),
    *[
        ("asbestos", old(sample=Sample.FOUND, **{**GONE, name: ""}))
        for name in ("removed_by", "consignment_note")
    ],
    ("asbestos", old(sample=Sample.FOUND, **{**GONE, "removed_on": None})),
    ("asbestos", surveyed("old", sample=Sample.FOUND)),  # of 2000 or later, and found all the same
    ("fragile", open_roof(old(kind=OldKind.CEMENT_SHEET, sample=Sample.CLEAR, **TESTED))),
    *[
        (f"looked-{name}", open_roof(surveyed("around", **{name: " "})))
        for name in ("wildlife", "cables", "shared", "footing")
    ],
    ("waste-carrier", open_roof(own(waste_carrier=" "))),
    ("waste-carrier", open_roof(own(waste_expires=DAY_BEFORE))),
    ("liability", open_roof(own(liability_expires=DAY_BEFORE))),
    ("employers-liability", open_roof(surveyed("access", two_people=True))),
    (
        "employers-liability",
        open_roof(
            both(
                surveyed("access", two_people=True),
                own(employers_policy="EL 1", employers_expires=DAY_BEFORE),
            )
        ),
    ),
    ("wildlife-asked", open_roof(surveyed("around", wildlife="bat droppings at the ridge"))),
    ("suspect-asked", both(job(laying=None), part("stripping", suspect=None))),
    ("suspect", underneath()),
    ("suspect", underneath(sample=Sample.CLEAR, **TESTED)),  # of before it was stripped
]

HOLDS_STILL: list[tuple[str, Change]] = [
    ("asbestos", old(sample=Sample.CLEAR, **TESTED)),
    ("asbestos", old(kind=OldKind.CEMENT_SHEET, sample=Sample.CLEAR, **TESTED)),
    ("asbestos", old(sample=Sample.FOUND, **GONE)),
    ("fragile", surveyed("old", kind=OldKind.CEMENT_SHEET)),  # it is off by now
    ("looked-wildlife", surveyed("around", wildlife="")),  # it is off by now
    ("looked-cables", open_roof(surveyed("around", cables="overhead, to the house"))),
    ("waste-carrier", open_roof(both(own(waste_carrier=""), surveyed("old", taken_by="a firm")))),
    ("waste-carrier", open_roof(both(own(waste_carrier=""), surveyed("old", kind=OldKind.NONE)))),
    ("waste-carrier", open_roof(own(waste_expires=SIGNED))),
    ("liability", open_roof(own(liability_expires=LAY_DAY))),
    ("liability", open_roof(own(liability_expires=None))),
    (
        "employers-liability",
        open_roof(both(surveyed("access", two_people=True), own(employers_policy="EL 1"))),
    ),
    ("wildlife-asked", open_roof(surveyed("around", wildlife=NONE_THERE.upper()))),
    ("suspect-asked", part("stripping", suspect=None)),  # it is covered again
    ("suspect", underneath(sample=Sample.CLEAR, **{**TESTED, "tested_on": LAY_DAY})),
    ("suspect", underneath(sample=Sample.FOUND, **{**GONE, "removed_on": LAY_DAY})),
]
