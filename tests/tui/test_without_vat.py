"""A trader who is not registered for VAT: no screen of theirs speaks of it, but where it must.

The demo's trader is one. Every string of the program that speaks of VAT is here with the reason.
"""

import re
import shutil
from pathlib import Path

import pytest

from domain.page_names import PageName
from tests.laid_out_once import NOW
from tests.tui.hands import Clock, Hands, app_at, key
from tests.tui.sight import lines
from tests.words.strings import seen_strings
from tui.job.page_tabs import TABS

_OF_VAT = re.compile(r"\b(vat|net|gross)\b", re.IGNORECASE)
_TALL = (120, 150)
"""A window in which nothing is scrolled out of sight."""

_MERCHANT = "what a merchant charges, which has VAT in it"
_STANDING = "the trader's own standing"
_CIS = "a contractor's own registrations, and how the trader stands to CIS"
_REGISTERED = "only where the trader is registered: no such line comes on the walk below"

STRINGS = {
    ("domain/accounts/invoice.py", _REGISTERED): {
        "VAT number",
        "A VAT invoice needs the customer's address: add it on the enquiry page.",
    },
    ("domain/accounts/invoice.py", _STANDING): {
        "The accepted quote bears VAT, and you are no longer registered for it: make a new version "
        "on the quote page and record that they accept it, then invoice.",
    },
    ("domain/papers/quarter_paper.py", _REGISTERED): {
        "Sums are with VAT; the spreadsheet has net and VAT of each.",
    },
    ("domain/accounts/vat_since.py", _REGISTERED): {
        "Invoiced or paid before we registered for VAT",
        "It is invoiced already: how VAT stands to the price cannot change now.",
        "The accepted quote bears VAT already, or you are not registered for it.",
        "We registered for VAT after we agreed: VAT is added, as agreed in writing on",
        "We registered for VAT after we agreed: VAT is inside the price we agreed.",
        "You registered for VAT after this quote: say on the money page whether VAT is inside the "
        "agreed price or added to it.",
    },
    ("domain/accounts/write_off.py", _REGISTERED): {
        "The VAT in it, {}, can be claimed back from HMRC.",
        "The VAT in it, {}, comes back only if it is written off",
    },
    ("domain/week/money_tasks.py", _REGISTERED): {
        "VAT invoice by {}, 30 days after the tax point",
    },
    ("domain/papers/extra_paper.py", _REGISTERED): {
        " before VAT",
        " including VAT",
        ", including VAT",
        "Price before VAT",
        "Price, VAT included",
    },
    ("storage/actions/accounts_actions.py", _REGISTERED): {
        "VAT {}",
    },
    ("tui/job/money/money_page.py", _REGISTERED): {
        "Saved: VAT is {}.",
    },
    ("tui/job/money/vat_terms_dialog.py", _REGISTERED): {
        "VAT is",
        "VAT on this price",
        "You registered for VAT after this price was agreed. A price that says nothing of VAT "
        "includes it; it is added only if they agreed to that in writing. It is asked once, and "
        "kept.",
    },
    ("domain/tax/vat.py", _MERCHANT): {"{} or {} per cent, the rates of VAT on that day"},
    ("storage/field_words.py", _STANDING): {"VAT"},
    ("storage/field_words.py", _REGISTERED): {"VAT number", "own price, VAT included", "VAT is"},
    ("domain/papers/invoice_paper.py", _REGISTERED): {
        "Of this, {} was paid on {}: that is the tax point of the {} VAT in it.",
        "VAT number {}",
        "VAT",
        "Before VAT",
        "Including VAT",
        "Total before VAT",
        "VAT at {} on {}",
    },
    ("domain/papers/quote_paper.py", _REGISTERED): {
        " including VAT",
        " plus VAT at {}",
        "VAT at {}",
        "Before VAT",
        "Total, including VAT",
        "Total before VAT",
        "Total including VAT",
    },
    ("domain/papers/order_paper.py", _REGISTERED): {"Net", "VAT", "With VAT"},
    ("domain/papers/order_paper.py", _MERCHANT): {"net each"},
    ("tui/lists/order_pages.py", _REGISTERED): {" before VAT"},
    ("tui/lists/fill_dialog.py", _MERCHANT): {
        "With VAT",
        "Before VAT",
    },
    ("tui/your_details/setting_up_dialogs.py", _MERCHANT): {
        "{} {}. {} takes all of it as your own. All before VAT.",
    },
    ("tui/job/stripping/extra_dialog.py", _REGISTERED): {"VAT included", ", VAT included,"},
    ("domain/papers/letters.py", _REGISTERED): {"{} including VAT", "{} before VAT"},
    ("tui/job/money/invoice_dialog.py", _REGISTERED): {"Total before VAT", "VAT", "Including VAT"},
    ("tui/job/quote/quote_shown.py", _REGISTERED): {
        "Price before VAT",
        "VAT is included",
        "All are before VAT",
    },
    ("tui/lists/prices_screen.py", _REGISTERED): {"before VAT"},
    ("tui/lists/prices_screen.py", _MERCHANT): {"with VAT"},
    ("tui/lists/price_dialog.py", _MERCHANT): {
        *("before VAT", "with VAT", "VAT"),
    },
    ("domain/estimate/stock.py", _MERCHANT): {"{} with VAT"},
    ("storage/field_words.py", _MERCHANT): {"{} with VAT"},
    ("domain/estimate/prices_in.py", _MERCHANT): {"with vat"},
    ("tui/lists/prices_in_screen.py", _MERCHANT): {
        "A CSV file whose first line names the columns: material, merchant, pack size, price; if "
        "you like also colour, VAT, with VAT (yes or no), since. Nothing is saved until you have "
        "seen it.",
    },
    ("tui/books/money_back_dialog.py", _MERCHANT): {"£ with VAT"},
    ("tui/books/purchase_dialog.py", _MERCHANT): {"£ as on the slip, with VAT"},
    ("tui/books/purchase_dialog.py", _REGISTERED): {"VAT", "{} of VAT in it"},
    ("domain/books/watched.py", _STANDING): {
        "VAT: {} in the twelve months to {}. Register by {}; you are registered from {}.",
        "VAT: {} in twelve months, over {} % of the {} at which you must register.",
    },
    ("tui/your_details/details_fields.py", _STANDING): {"VAT"},
    ("domain/trader.py", _CIS): {"gross"},
    ("domain/papers/held_paper.py", _CIS): {"Your VAT number"},
    ("tui/job/enquiry/enquiry_fields.py", _CIS): {"Their VAT number"},
    ("storage/field_words.py", _CIS): {"their VAT number"},
    ("tui/your_details/details_fields.py", _REGISTERED): {"VAT number"},
}
"""Every string that speaks of VAT, by its file and why it may."""

SHOWN = {
    "material merchant pack size with VAT since": _MERCHANT,
    "Given ● before VAT ○ with VAT": _MERCHANT,
    "Given ○ before VAT ● with VAT": _MERCHANT,
    "VAT 20 % £37.80 with VAT": _MERCHANT,
    "VAT 20 %": _MERCHANT,
    "VAT ● not registered ○ standard": _STANDING,
    "CIS standing ○ gross ○ registered ● not matched": _CIS,
}
"""Every line that the walk comes upon, and why it may."""

_LISTS = {
    "go('week')": (key("week", "forecast"), key("week", "print_week")),
    "go('jobs')": (),
    "go('prices')": ("enter", key("prices", "add")),
    "go('stock')": ("enter", key("stock", "put_in"), key("stock", "take_out")),
    "go('trader')": (),
    "new_enquiry": (),
    "help": (),
}
"""What brings each screen, and the keys that ask something there."""
_SIGNED_OFF, _TO_INVOICE, _STRIPPED, _BOOKED, _TO_QUOTE = 20, 25, 27, 30, 33
"""Jobs of the demo; one half paid, one with a deposit to ask for, one with an extra."""
_ASKED = (
    (_SIGNED_OFF, PageName.MONEY, "enter"),
    (_SIGNED_OFF, PageName.MONEY, key("money", "money_in")),
    (_SIGNED_OFF, PageName.QUOTE, key("quote", "paper")),
    (_TO_INVOICE, PageName.MONEY, key("money", "deposit")),
    (_TO_INVOICE, PageName.SIGN_OFF, key("job", "stage_back")),
    (_STRIPPED, PageName.STRIP, key("stripped", "add_extra")),
    (_STRIPPED, PageName.STRIP, key("job", "site_sheet")),
    (_BOOKED, PageName.BOOKING, key("booking", "materials")),
    (_BOOKED, PageName.BOOKING, key("job", "end")),
    (_TO_QUOTE, PageName.SURVEY, key("survey", "takeoff")),
    (_TO_QUOTE, PageName.QUOTE, key("quote", "side_by_side")),
    (_TO_QUOTE, PageName.QUOTE, key("quote", "send")),
)
"""What is asked for on a page of a job."""


def test_every_string_that_speaks_of_vat_has_its_reason() -> None:
    found = {(seen.path, seen.words) for seen in seen_strings() if _OF_VAT.search(seen.words)}
    assert found == {(path, words) for (path, _), many in STRINGS.items() for words in many}


@pytest.mark.long
async def test_no_screen_of_a_trader_who_is_not_registered_speaks_of_it(
    demo: Path, tmp_path: Path
) -> None:
    app = app_at(Path(shutil.copy(demo, tmp_path / "book.headlap")), Clock(NOW))
    found: set[str] = set()
    seen: set[str] = set()
    async with app.run_test(size=_TALL) as pilot:
        hands = Hands(pilot)

        async def look() -> None:
            await hands.comes_to_rest()
            shown = lines(app)
            seen.add("\n".join(shown))
            found.update(" ".join(line.split()) for line in shown if _OF_VAT.search(line))

        async def look_and_leave() -> None:
            await look()
            await hands.press("escape")
            await hands.comes_to_rest()

        for place, asks in _LISTS.items():
            await hands.press(key("anywhere", place).replace("question_mark", "f1"))
            await look()
            for by in asks:
                await hands.press(by)
                await look_and_leave()
            if place != "go('week')":
                await hands.press("escape")
                await hands.comes_to_rest()
        for page in TABS:
            app.open_job(_SIGNED_OFF, page)
            await look_and_leave()
        app.open_job(_TO_INVOICE, PageName.MONEY)  # it asks by itself whether to issue the invoice
        await look_and_leave()
        await look_and_leave()
        for job, page, asked in _ASKED:
            app.open_job(job, page)
            await hands.comes_to_rest()
            await hands.press(asked)
            await look_and_leave()
            await hands.press("escape")
            await hands.comes_to_rest()
    assert found == set(SHOWN)
    assert len(seen) > sum(len(asks) + 1 for asks in _LISTS.values()) + len(TABS) + len(_ASKED)
