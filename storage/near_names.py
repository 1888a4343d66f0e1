"""What somebody may have meant to find whose words no job has: names and places a letter away."""

from itertools import chain, islice, product
from pathlib import Path

from domain.near_words import near
from storage.reading import reading
from storage.search_words import fold
from storage.texts import without_control
from storage.week_and_jobs import find_jobs

_OFFERED = 3
_TRIED = 6
"""Ways to put the near words together that are looked for; each takes as long as any search."""


def near_names(path: Path, words: str) -> tuple[str, ...]:
    """The likeliest words that find a job in place of these, which find none; the nearest first.

    A word that some name or place holds stays as it is, and a figure is never another. Of 50,000
    jobs it takes a few times what a search does, so it is for what finds nothing alone.
    """
    wanted = fold(without_control(words)).split()
    if not wanted or len(wanted) > _TRIED:
        return ()
    known = _known(path)
    everything = "\n".join(known)
    each = [
        [word]
        if word in everything or any(letter.isdigit() for letter in word)
        else near(word, known)[:_OFFERED]
        for word in wanted
    ]
    tried = (" ".join(known.get(word, word) for word in some) for some in product(*each))
    found = (some for some in islice(tried, _TRIED) if len(find_jobs(path, some)))
    return tuple(islice(found, _OFFERED))


def _known(path: Path) -> dict[str, str]:
    """Every word of a name or a place in small letters, with the word as it is written.

    Figures are left out: a number a digit away is another's.
    """
    with reading(path) as connection:
        texts = chain(
            connection.execute("SELECT name FROM customer"),
            connection.execute("SELECT place FROM site"),
        )
        words = {word for (text,) in texts for word in text.split() if not word.isdigit()}
    written = (word.strip(".,;:()[]\"'“”‘’") for word in sorted(words))
    return {fold(word): word for word in written if word}
