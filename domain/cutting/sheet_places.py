"""Where in a tab shared tabs are cut, when the middle alone would take more packs.

An integer programme in counts alone: lays, shared tabs at each place, and runs; its cost is how
many places there are beside the middle.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil

from domain.coverings.shingle import Shingle
from domain.cutting.alike import AlikeRows, Wanted
from domain.cutting.model import partitions
from domain.cutting.sheet_patterns import pairs_of, run_of
from domain.cutting.working import CutPart, PartKind
from domain.integer_programme import Draft, Effort, Limit, search


def fewest_places(
    rows: Sequence[AlikeRows],
    shingle: Shingle,
    ridge_pieces: int,
    most_strips: int,
    step: Fraction,
    effort: Effort,
) -> tuple[Fraction, ...] | None:
    """As few places as will do, the middle of the tab first; the others are multiples of a step.

    None if none were found with which ``most_strips`` are enough. Raises
    :class:`domain.integer_programme.TooLarge` for a roof that the effort is not worth.
    """
    draft = Draft(effort.most)
    one_tab = run_of(1, shingle)
    for size in range(1, shingle.tabs + 1):
        run = run_of(size, shingle)
        draft.limit(run, ridge_pieces if run == one_tab else 0, None)
    _, *others = every_place(shingle, step)
    strips = [
        draft.unknown(most_strips, Counter(run_of(size, shingle) for size in sizes).items())
        for sizes in partitions(shingle.tabs, shingle.tabs)
    ]
    used = {place: _add_place(draft, place, shingle, most_strips) for place in others}
    _add_pairs(draft, shingle.half_tab, shingle, most_strips)
    for number, alike in enumerate(rows):
        _add_rows(draft, number, alike, shingle, every_place(shingle, step))
    programme = draft.programme(
        dict.fromkeys(used.values(), 1), Limit(0, most_strips, dict.fromkeys(strips, 1))
    )
    values = search(programme, effort)
    if values is None:
        return None
    return (shingle.half_tab, *(place for place, index in used.items() if values[index]))


def every_place(shingle: Shingle, step: Fraction) -> tuple[Fraction, ...]:
    """The middle of the tab, and every other multiple of a step within it."""
    multiples = (step * count for count in range(1, ceil(shingle.tab / step)))
    return (shingle.half_tab, *(place for place in multiples if place != shingle.half_tab))


def _add_place(draft: Draft, place: Fraction, shingle: Shingle, most: int) -> int:
    """A place to cut at, and the unknown that says whether anything is cut there."""
    draft.limit(place, -most * shingle.tabs**2, 0)
    _add_pairs(draft, place, shingle, most, (place, 1))
    return draft.unknown(1, [(place, -most * shingle.tabs**2)])


def _add_pairs(
    draft: Draft, place: Fraction, shingle: Shingle, most: int, *more: tuple[Fraction, int]
) -> None:
    """How many of each pair are cut at a place: each takes a run and gives a right and a left."""
    pairs = tuple(pairs_of(shingle, place))
    for part in dict.fromkeys(part for pair in pairs for part in pair.parts):
        draft.limit(part, 0, None)
    for pair in pairs:
        terms = [(run_of(pair.tabs, shingle), -1), *((part, 1) for part in pair.parts)]
        draft.unknown(most, [*terms, *more])


def _add_rows(
    draft: Draft, number: int, alike: AlikeRows, shingle: Shingle, places: Sequence[Fraction]
) -> None:
    """How many courses take each lay, and from which parts their pieces are."""
    count, times = alike.count, alike.times
    draft.limit(number, count, count)
    for lay in alike.rows.lays:
        wanted = alike.wanted(lay, shingle)
        names = [(number, lay, place) for place in range(len(wanted))]
        for name in names:
            draft.limit(name, 0, 0)
        wholes = (run_of(shingle.tabs, shingle), -lay.wholes * times)
        draft.unknown(count, [(number, 1), wholes, *((name, -1) for name in names)])
        for name, each in zip(names, wanted, strict=True):
            for part in _shortest(each, shingle, places):
                draft.unknown(count, [(name, 1), (part, -times)])


def _shortest(wanted: Wanted, shingle: Shingle, places: Iterable[Fraction]) -> Iterable[CutPart]:
    """The shortest run, and at each place the shortest part, that serve a piece."""
    tab = shingle.tab
    yield run_of(wanted.tabs, shingle)
    for place in places:
        for size in (wanted.tabs, wanted.tabs + 1):
            left, right = size * tab - place, (size - 1) * tab + place
            if wanted.is_left and left >= wanted.length and size <= shingle.tabs:
                yield CutPart(PartKind.LEFT, left)
                break
            if wanted.is_right and right >= wanted.length and size <= shingle.tabs:
                yield CutPart(PartKind.RIGHT, right)
                break
