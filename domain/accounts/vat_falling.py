"""When the VAT of a credit note falls back: as the money is paid back or set off, not before.

VAT Regulations 1995 reg. 24A to 24C (read): a decrease in consideration occurs when the supplier
pays it back, or sets it off against a debt; not when a note is written. What a note takes off of
what is still owed is set off at once. What was paid already is freed, and falls back on the day on
which that money is paid back, or pays another invoice.
"""

from collections import defaultdict
from dataclasses import dataclass, field
from fractions import Fraction

from domain.money import Pence, part_of


@dataclass(slots=True)
class _Note:
    """A credit note, and how much of it has fallen back so far."""

    gross: Pence
    vat: Pence
    fallen: Pence

    def fall(self, pence: Pence) -> Pence:
        """Let so much of it fall back; returns the VAT in that, so that all parts are the whole."""
        before = self._vat_fallen()
        self.fallen += pence
        return self._vat_fallen() - before

    def _vat_fallen(self) -> Pence:
        return part_of(self.vat, Fraction(self.fallen, self.gross))


@dataclass(slots=True)
class FallingVat:
    """The VAT that has yet to fall back, while the events of money are gone through."""

    _freed: list[tuple[int, Pence]] = field(default_factory=list)
    """By payment, since the last event of another kind."""
    _notes: dict[int, list[tuple[_Note, list[Pence]]]] = field(
        default_factory=lambda: defaultdict(list)
    )
    """By payment: the notes that freed something of it, with what of that is still held."""

    def free(self, payment_id: int, pence: Pence) -> None:
        """Money is taken off an invoice; a credit note may follow that needs it."""
        self._freed.append((payment_id, pence))

    def forget(self) -> None:
        """What was freed is for no credit note."""
        self._freed.clear()

    def credit(self, gross: Pence, vat: Pence) -> None:
        """A note is issued: what it did not free falls back at once.

        More than it takes off is freed where a contractor deducted too little before.
        """
        freed, self._freed = self._freed, []
        note = _Note(gross, vat, max(0, gross - sum(pence for _, pence in freed)))
        left = gross - note.fallen
        for payment_id, pence in freed:
            self._notes[payment_id].append((note, [min(pence, left)]))
            left -= min(pence, left)

    def held(self, payment_id: int) -> Pence:
        """What notes freed of a payment and has gone nowhere yet."""
        return sum(held[0] for _, held in self._notes[payment_id])

    def move(self, payment_id: int, pence: Pence) -> tuple[Pence, Pence]:
        """Money is paid back or pays an invoice: what of it falls back, and the VAT in that.

        What a note freed goes first, the oldest note first.
        """
        falls = vat = 0
        for note, held in self._notes[payment_id]:
            part = min(pence - falls, held[0])
            held[0] -= part
            falls, vat = falls + part, vat + note.fall(part)
        return falls, vat
