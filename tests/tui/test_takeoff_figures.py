"""What the survey tells beside its fields, in figures."""

from datetime import date

from domain.estimate.supplies import Sources
from tests import builders
from tui.reading.survey import FIELDS, survey_typed
from tui.reading.takeoff import work_out

SOURCES = Sources((), (), date(2026, 6, 3))
TYPED = {field.id: "" for field in FIELDS} | survey_typed(builders.survey())


def test_the_worked_example_is_told_in_figures() -> None:
    # source: the trade specification's worked example of an apex of 2.4 m by 1.8 m, read.
    told = {figure.label: figure.words for figure in work_out(TYPED, SOURCES).figures}
    assert told == {
        "Slope": "1,062 mm × 2",
        "Eaves": "2,520 mm",
        "Pitch": "26.57°",
        "Area": "5.35 m²",
        "Courses": "7 at 133.86 mm",
        "Cut plan": "42, proven fewest",
        "Edges": "11 strips",
        "Laid": "53, 2 for breakage",
        "To buy": "55 strips",
        "Packs": "3 packs of 21",
        "Underlay": "1 roll of 15 m",
        "Saves": "5 strips",
        "Weight": "99 kg",  # by hand, with the rest: tests of what a roof weighs
        "Old": "19 kg, 1 sack",
        "On deck": "3.5 → 15.2 kg/m²",
    }
    order = list(told)  # what is bought is not pushed off by it
    assert order.index("Underlay") < order.index("Saves")
