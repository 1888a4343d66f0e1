"""A dialog that asks how much of a material there is."""

from collections.abc import Awaitable, Callable, Iterable, Mapping
from typing import Any, TypeVar

from domain.coverings.materials import MATERIALS, Material
from domain.estimate.amounts import amount_note
from domain.tone import Tone
from domain.typing_slips import Slip
from tui.widgets.field_row import Field
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog

T = TypeVar("T")

BY_WORDS: Mapping[str, Material] = {material.words: material for material in MATERIALS}
_AMOUNTS = ("counted", "quantity", "per_pack")
"""Ids of the fields that ask for an amount; a form has one of them."""


class AmountDialog(FormDialog[T]):
    """Nails may be typed by weight: what they count is written beside it."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = """
    AmountDialog FieldRow > .label { width: 13; }
    AmountDialog #field-quantity, AmountDialog #field-counted, AmountDialog #field-per_pack {
        width: 15;
    }
    """

    def __init__(  # noqa: PLR0913  what every dialog takes, and the material
        self,
        title: str,
        fields: Iterable[Field],
        read: Callable[[dict[str, str]], T],
        save: Callable[[T], Awaitable[Any]],
        *,
        material: Material | None,
        words: str,
        values: Mapping[str, str],
        begin_at: str | None = None,
        slips: Callable[[T], Iterable[Slip]] = lambda _: (),
    ) -> None:
        """``material`` is None if it is chosen in the form; the rest as of every dialog."""
        asked = tuple(fields)
        self._amount = next(field.id for field in asked if field.id in _AMOUNTS)
        self._material = material
        super().__init__(
            title, asked, read, save, words=words, values=values, begin_at=begin_at, slips=slips
        )

    def worked_out(self, form: Form) -> None:
        """How many nails there are in a weight of them."""
        material = self._material or BY_WORDS.get(form.values.get("material", ""))
        form.note(self._amount, amount_note(form.values[self._amount], material), Tone.QUIET)
