"""The glossary, ``docs/words.md``: what is never said, and where a phrase is right after all."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tests.architecture.sources import ROOT

GLOSSARY = ROOT / "docs" / "words.md"
_CODE = re.compile(r"`([^`]+)`")


@dataclass(frozen=True, slots=True)
class Glossary:
    """What ``docs/words.md`` lays down."""

    forbidden: tuple[str, ...]
    """Phrases that no string a user sees may hold."""
    allowed: tuple[str, ...]
    """Phrases that hold a forbidden one and are right."""

    def wrong_in(self, words: str) -> list[str]:
        """The forbidden phrases in a text; what is allowed is taken out first."""
        plain = " ".join(words.casefold().split())
        if plain in self.allowed:
            return []
        for phrase in self.allowed:
            if phrase in self.forbidden:
                continue  # right only where it stands alone
            plain = plain.replace(phrase, "·")
        return [
            phrase
            for phrase in self.forbidden
            if re.search(rf"(?<!\w){re.escape(phrase)}(?!\w)", plain)
        ]


def read_glossary() -> Glossary:
    """Read it from the page."""
    page = GLOSSARY.read_text(encoding="utf-8")
    return Glossary(tuple(_under(page, "Never said")), tuple(_under(page, "Right after all")))


def _under(page: str, heading: str) -> Iterator[str]:
    """The phrases in code marks in the first column of the table under a heading."""
    _, _, below = page.partition(f"## {heading}\n")
    for line in below.partition("\n## ")[0].splitlines():
        if line.startswith("| `"):
            yield from (phrase.casefold() for phrase in _CODE.findall(line.split("|")[1]))
