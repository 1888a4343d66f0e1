"""The plan to work by: how short its sheet is against a list strip by strip, and its cost."""

import random
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from bench.figures import Line, median
from domain.coverings.registry import SHINGLES
from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT
from domain.errors import Refused
from domain.setting_out.flat_slopes import Roof
from domain.setting_out.forms.roof import build_roof
from domain.takeoff.roof_takeoff import ShingleTakeOff, take_off_shingles, worked_out
from domain.takeoff.surveyfile import read_survey_file

_RANDOM = 40
_OVER = 'eaves_overhang = "50 mm"\nverge_overhang = "60 mm"'
_STEEP = 'pitch = "26.6 deg"'
NAMED = {
    "pent, 7 × 5 ft": f'form = "pent"\nlength = "7 ft"\nspan = "5 ft"\npitch = "16 deg"\n{_OVER}',
    "apex, 8 × 6 ft": f'form = "apex"\nlength = "8 ft"\nspan = "6 ft"\n{_STEEP}\n{_OVER}',
    "apex, 10 × 8 ft": f'form = "apex"\nlength = "10 ft"\nspan = "8 ft"\n{_STEEP}\n{_OVER}',
    "garage, 6 × 3 m": f'form = "apex"\nlength = "6 m"\nspan = "3 m"\npitch = "25 deg"\n{_OVER}',
    "hip, 3.6 × 2.4 m": 'form = "hip"\nlength = "3.6 m"\nspan = "2.4 m"\npitch = "30 deg"\n'
    'eaves_overhang = "100 mm"',
    "octagon, 1.2 m": 'form = "pyramid"\nsides = 8\nside = "1.2 m"\npitch = "30 deg"',
}


@dataclass(frozen=True, slots=True)
class Sheet:
    """One roof, worked out."""

    cutting: int
    laying: int
    one_by_one: int
    """Lines of a list that names every strip that is cut and every course."""
    over: int
    """Strips over the fewest."""
    packs_more: int
    ms: float
    """Of the processor's time, both plans together."""

    @property
    def lines(self) -> int:
        """Of both tables."""
        return self.cutting + self.laying


def measure_sheets() -> Iterator[Line]:
    """The roofs of known size, then as many at random."""
    sheet_of(_roof('form = "apex"\nlength = "2 m"\nspan = "2 m"\npitch = "30 deg"'), SQUARE_BUTT)
    for name, measures in NAMED.items():
        yield _line(name, sheet_of(_roof(measures), SQUARE_BUTT))
    sheets = list(_at_random(_RANDOM))
    yield Line(f"{len(sheets)} roofs at random, median lines", f"{_half(s.lines for s in sheets)}")
    one_by_one = _half(s.one_by_one for s in sheets)
    yield Line("  lines strip by strip, median", f"{one_by_one}")
    yield Line("  strips over the fewest, median", f"{_half(s.over for s in sheets)}")
    most = max(s.over for s in sheets)
    yield Line("  strips over the fewest, most", f"{most}")
    yield Line("  roofs that take more packs", f"{sum(s.packs_more > 0 for s in sheets)}")
    yield Line("  time, median", f"{median([s.ms for s in sheets]):.0f} ms")
    yield Line("  time, all within", f"{max(s.ms for s in sheets):.0f} ms")


def sheet_of(roof: Roof, shingle: Shingle) -> Sheet:
    """Work a roof out and count the lines of its sheet."""
    begun = time.process_time()
    fewest = take_off_shingles(roof, shingle)
    done = worked_out(fewest)
    if not isinstance(done, ShingleTakeOff):
        raise TypeError("shingles were counted")
    ended = time.process_time()
    plan = done.working or fewest.fewest.ways
    cut = sum(way.times for way in fewest.fewest.ways.cutting)
    return Sheet(
        cutting=len(plan.cutting),
        laying=len(plan.laying),
        one_by_one=cut + len(fewest.rows),
        over=done.over_fewest,
        packs_more=done.strips.packs - fewest.strips.packs,
        ms=(ended - begun) * 1000,
    )


def _line(name: str, sheet: Sheet) -> Line:
    packs = "packs equal" if not sheet.packs_more else f"{sheet.packs_more} PACKS MORE"
    more = f"{sheet.over} over the fewest, {packs}, {sheet.ms:.0f} ms"
    told = f"{sheet.cutting} + {sheet.laying} lines"
    return Line(name, told, f"strip by strip {sheet.one_by_one}; {more}")


def _half(values: Iterable[int]) -> str:
    return f"{median(list(values)):g}"


def _at_random(count: int) -> Iterator[Sheet]:
    """Sheds, summerhouses and garages, the same ones every time."""
    chance = random.Random(7)
    while count:
        try:
            sheet = sheet_of(_drawn(chance), chance.choice(list(SHINGLES.values())))
        except Refused:
            continue
        count -= 1
        yield sheet


def _drawn(chance: random.Random) -> Roof:
    """Of every form as often."""
    length, span = chance.randint(1200, 4500), chance.randint(1000, 2600)
    pitch = f'pitch = "{chance.randint(16, 45)} deg"'
    walls = f'length = "{length} mm"\nspan = "{min(span, length)} mm"\n{pitch}\n'
    sides = f'sides = {chance.choice((4, 6, 8))}\nside = "{chance.randint(900, 1600)} mm"\n'
    long = f'length = "{length} mm"\n'
    back = f'back_run = "{chance.randint(800, 1800)} mm"\nback_rise = "700 mm"\n'
    upper = f'upper_run = "{chance.randint(600, 1200)} mm"\nupper_rise = "400 mm"\n'
    return _roof(
        chance.choice(
            (
                f'form = "pent"\n{walls}{_OVER}',
                f'form = "lean-to"\n{walls}{_OVER}',
                f'form = "apex"\n{walls}{_OVER}',
                f'form = "offset-apex"\n{long}front_run = "700 mm"\nfront_rise = "500 mm"\n{back}',
                f'form = "barn"\n{long}lower_run = "400 mm"\nlower_rise = "700 mm"\n{upper}',
                f'form = "hip"\n{walls}',
                f'form = "pyramid"\n{sides}{pitch}',
                _wings(length, chance.randint(100, 800), chance.randint(700, 1600)),
            )
        )
    )


def _wings(eaves: int, inset: int, up: int) -> str:
    """Two slopes that meet in a valley."""
    slope = '[[roof.slope]]\nfinish = "ridge"\n'
    sizes = f'length = "{up} mm"\neaves = "{eaves} mm"\ntop = "{eaves + inset} mm"\n'
    left = f'{slope}{sizes}right_edge = "valley"\n'
    return f'form = "slopes"\n{left}{slope}{sizes}inset = "-{inset} mm"\nleft_edge = "valley"'


def _roof(measures: str) -> Roof:
    return build_roof(read_survey_file(f'covering = "square-butt"\n[roof]\n{measures}\n').measures)
