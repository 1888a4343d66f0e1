"""The errors a person can put right, as values that carry the field, the value and the remedy."""


class HeadlapError(Exception):
    """Anything that is told to the user in one sentence."""


class Refused(HeadlapError):
    """A value that cannot be taken: which field, what stood in it, and what would do.

    ``field`` is the id of the field ("slope_length") or its path of keys ("slope 1, eaves"),
    ``value`` the text as typed or empty, ``remedy`` what would do ("Give a length such as 2.4 m
    or 7 ft 10 in."), a whole sentence or two. Whoever shows the field says it by its label, with
    :meth:`sentence`; the message of the exception names it by :attr:`words`.
    """

    def __init__(self, field: str, value: object, remedy: str) -> None:
        self.field = field
        self.value = _shown(str(value))
        self.remedy = remedy
        super().__init__(self.sentence(self.words))

    @property
    def words(self) -> str:
        """The field in plain words, for where no form shows it: "Slope length"."""
        words = self.field.replace("_", " ")
        return f"{words[:1].upper()}{words[1:]}"

    def sentence(self, label: str) -> str:
        """The sentence that a person reads, the field called by its label."""
        wrong = f"{label}: {self.value} is not valid." if self.value else f"{label} is empty."
        return f"{wrong} {self.remedy}"


class NotNow(HeadlapError):
    """An action that the record does not allow yet: the message names what would settle it."""


def _shown(text: str, most: int = 40) -> str:
    """The value on one line, shortened, with anything unprintable made visible; blank is empty."""
    if not text.strip():
        return ""
    line = "".join(c if c.isprintable() else "�" for c in text)
    return f"“{line}”" if len(line) <= most else f"“{line[: most - 1]}…”"
