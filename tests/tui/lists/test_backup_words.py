"""What restoring would lose, in sentences that stay short however much it is."""

from storage.backups.lost import Lost
from tui.lists.backup_words import also_holds, lost_lines, numbers_lost

MILL = "0421 Mill Row allotments behind the church"


def test_numbers_that_would_be_used_again_are_named() -> None:
    assert numbers_lost(Lost(invoices=(107, 108))) == (
        "Invoices INV-107 and INV-108 were issued since: their numbers would be used again."
    )
    assert numbers_lost(Lost(receipts=(7,))) == (
        "Receipt REC-7 was issued since: its number would be used again."
    )
    assert numbers_lost(Lost(invoices=tuple(range(1, 10)), receipts=(1, 2))) == (
        "Invoices INV-1, INV-2, INV-3 and 6 more and receipts REC-1 and REC-2 were issued since: "
        "their numbers would be used again."
    )
    assert numbers_lost(Lost(invoices=(1,), receipts=(1,), notes=("CRN-1", "MIS-1"))) == (
        "Invoice INV-1, receipt REC-1 and notes CRN-1 and MIS-1 were issued since: their numbers "
        "would be used again."
    )
    assert numbers_lost(Lost(new_jobs=(MILL,))) == ""


def test_the_rest_is_a_sentence_each() -> None:
    lost = Lost(
        quotes=("0420 Birch Lane",),
        new_jobs=(MILL, "0422 Quay"),
        changed_jobs=tuple(f"040{n} Quay" for n in range(4)),
        deleted_jobs=("0399 Weir",),
        lists=("prices", "stock"),
    )
    assert lost_lines(lost) == (
        "Quotes marked as sent since: 0420 Birch Lane.",
        "Jobs added since: 0421 Mill Row allotment…, 0422 Quay.",
        "Jobs changed since: 0400 Quay, 0401 Quay, 0402 Quay, 0403 Quay.",
        "Deleted since, but there again: 0399 Weir.",
        "Also changed since: prices, stock.",
    )


def test_nothing_lost_and_nothing_known_are_said() -> None:
    assert lost_lines(Lost()) == ("Nothing would be lost: nothing was saved since.",)
    assert lost_lines(None) == ("What would be lost cannot be told: the book cannot be read.",)
    assert also_holds(None) == also_holds(Lost()) == ()
    assert also_holds(Lost(undone=("0001 Mill Row", "prices"), only_in_backup=1)) == (
        "Undone since, but there again: 0001 Mill Row, prices.",
        "One thing saved is in this backup alone and would come back.",
    )
