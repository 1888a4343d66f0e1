"""A field that is refused is in sight with the reason under it, and nothing says all is well."""

from pathlib import Path

import pytest

from domain.job import Stage
from domain.page_names import PageName
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import SIZES, cut_off, lines, sees, text

SAVE, NEXT = key("job", "save"), key("job", "next_stage")


async def _refused(hands: Hands, field: str) -> list[str]:
    """Type what is no figure into a field, go away from it, save, and return what is seen."""
    hands.form.put(field, "soon")
    hands.form.focus_first()
    hands.form.scroll_home(animate=False)
    await hands.press(SAVE)
    await hands.hears("“soon” is not valid.")
    await hands.comes_to_rest()
    return lines(hands.app)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("field", ["rise", "pitch", "layers", "tested_on", "visited_on"])
async def test_the_field_and_its_reason_are_seen(
    tmp_path: Path, size: tuple[int, int], field: str
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SURVEY)
        hands.form.put("sample", "clear")  # its day is asked for
        seen = await _refused(hands, field)
        label = hands.form.labels[field]
        at = next(n for n, line in enumerate(seen) if label in line and "  soon" in line)
        assert seen[at + 1].strip().startswith("■ ")
        assert f"Not saved: {label} first." in text(app)
        assert await cut_off(pilot) == []


async def test_the_next_stage_does_not_hide_why_it_was_refused(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SURVEY)
        await _refused(hands, "rise")
        await hands.press(NEXT)
        await hands.hears("“soon” is not valid.")
        await hands.write({hands.form.labels["rise"]: "500 mm"})
        await hands.until(lambda: "Not saved:" not in text(app))
        assert "■ Give a length" not in text(app)
        await hands.press(NEXT)
        await hands.hears("Save what you typed under")


async def test_nothing_missing_is_not_said_of_what_cannot_be_read(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, lambda book, job: book.issue_invoice(job, TODAY))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        await hands.write({"Signed off by": "Mrs Adeyemi"})
        await sees(pilot, "Nothing missing once")
        await hands.write({"On": "soon"})
        await sees(pilot, "On cannot be read yet.")
        assert "Nothing missing" not in text(app)
        await hands.write({"On": "today"})
        await sees(pilot, "Nothing missing once")
