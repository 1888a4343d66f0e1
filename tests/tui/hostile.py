"""Text that no form was made for, and its typing into every field of a form."""

from collections.abc import Mapping

from textual import events
from textual.screen import ModalScreen
from textual.widgets import Input

from tests.tui.hands import Hands, key, said
from tui.frame.message_line import MessageLine
from tui.job.reprice_dialog import RepriceDialog
from tui.widgets.field_row import Field
from tui.widgets.form import Form
from tui.widgets.slip_words import SAVE_AGAIN

NASTY = (
    "Smith [/] & Sons [bold red]a[/bold red] \\[z] '); DROP TABLE job;-- \"“$(x)” "
    "\u202eabc \u05d0\u05d1\u05d2 \u200f١٢ 🏚️ 👷🏽\u200d♀️ ½ ① a\x1b[31mb\x07\tc "
)
"""Markup, quotes, commands, both directions of writing, emoji, other digits, control characters."""
TEXTS = {
    "empty": "",
    "misspelled": "twleve foot adn a harf 1e999",
    "negative": "-3",
    "enormous": "9" * 40,
    "hostile": NASTY + "x" * (2000 - len(NASTY)) + "\nsecond line\r\nthird",
}


async def type_everywhere(hands: Hands, text: str, good: Mapping[str, str]) -> None:
    """Type a text into all fields of the form in front at once, and save until it is saved.

    Each refusal must name one field of the form and put the cursor there; that field then gets
    what ``good`` has for its label, or what stood in it before.
    """
    form = hands.form
    _show_all(form)
    before = form.values
    for field in form.fields:
        _paste(form, field, text)
    await hands.is_drawn()
    with hands.app.batch_update():  # what is said is heard without a drawing each time
        await _save_at_last(hands, form, before | _by_id(form, good))


_MISSING = "■ Still missing: "
"""How a sentence begins that names all fields that are empty."""


async def _save_at_last(hands: Hands, form: Form, good: Mapping[str, str]) -> None:
    refused: list[str] = []
    while sentence := await _saved_or_told(hands):
        named = [field for field in form.fields if _names(sentence, field)]
        most = len(form.fields) if sentence.startswith(_MISSING) else 1
        assert 1 <= len(named) <= most, f"names no field: {sentence}"
        assert sentence.endswith("."), sentence
        entry = form.query_one(f"#field-{named[0].id}")
        await hands.until(lambda entry=entry: hands.app.focused is entry)  # type: ignore[misc]
        for field in named:
            assert field.label not in refused, f"refused again, with what is good: {sentence}"
            refused.append(field.label)
            form.put(field.id, good[field.id])


def _names(sentence: str, field: Field) -> bool:
    if sentence.startswith(_MISSING):
        return field.label.casefold() in sentence.casefold()
    return sentence.startswith((f"■ {field.label}: ", f"■ {field.label} is empty. "))


async def _saved_or_told(hands: Hands) -> str:
    """Save, and return what the program refuses it for; nothing once it is saved."""
    screen = hands.app.screen
    screen.query_one(MessageLine).hush()
    await hands.press(key("dialog", "save"))
    await hands.until(lambda: hands.app.screen is not screen or bool(said(hands.app)))
    if isinstance(hands.app.screen, RepriceDialog):  # what is refused is then said on the page
        await hands.press(key("reprice", "save"))
        await hands.until(lambda: hands.app.screen is screen and bool(said(hands.app)))
    if hands.app.screen is not screen:
        assert isinstance(screen, ModalScreen)
        return ""
    sentence = said(hands.app)
    if SAVE_AGAIN in sentence:
        return await _saved_or_told(hands)
    return sentence if sentence.startswith("■") else ""


def _by_id(form: Form, good: Mapping[str, str]) -> dict[str, str]:
    return {field.id: good[field.label] for field in form.fields if field.label in good}


def _show_all(form: Form) -> None:
    """Choose what brings the fields on that are hidden."""
    for field in form.fields:
        if field.only_for is not None:
            form.put(*field.only_for[:2])


def _paste(form: Form, field: Field, text: str) -> None:
    """Put a text in a field in place of what is there, as a terminal pastes it."""
    widget = form.query_one(f"#field-{field.id}")
    if isinstance(widget, Input):
        widget.value = ""
        widget.post_message(events.Paste(text))
