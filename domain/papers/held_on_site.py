"""What is held of a roof: what was seen at the survey, and what was done."""

from collections.abc import Iterator

from domain.coverings.registry import name_of
from domain.job import AROUND_WORDS, Around, Deck, Job, OldCovering, Stripping, Survey
from domain.papers.blocks import Block
from domain.papers.held_rows import day_of, in_a_row, known_details, table_of, yes_no
from domain.quantity import show_amount
from domain.setting_out.measures import MEASURES_OF, RoofMeasures


def survey_blocks(survey: Survey | None) -> Iterator[Block]:
    """What was measured and seen."""
    if survey is None:
        return
    old, edges, covering = survey.old, survey.edges, survey.covering
    edge_words = (
        f"{name.replace('_', ' ')}: {words}"
        for name in (
            "barge_boards",
            "fascia",
            "finials",
            "drip_trim",
            "gutter",
            "ventilation",
            "slope_one",
            "wind_from",
        )
        if (words := getattr(edges, name).strip())
    )
    yield from known_details(
        "Survey",
        ("Visited on", day_of(survey.visited_on)),
        ("Roof", in_a_row(survey.measures.form, *_measured(survey.measures))),
        ("Covering", in_a_row(name_of(covering.key), covering.colour) if covering else ""),
        ("Deck", _deck(survey.deck)),
        (
            "Old covering",
            in_a_row(
                old.kind or "",
                "" if old.layers is None else f"layers: {old.layers}",
                old.suspicion or "",
                f"taken by {old.taken_by}" if old.taken_by else "",
            ),
        ),
        ("Asbestos", in_a_row(*_asbestos(old))),
        ("Before stripping", in_a_row(*_around(survey.around))),
        ("Edges", in_a_row(*edge_words)),
        ("Lined inside", yes_no(edges.lined)),
        ("Worked from", survey.access.means),
        ("Two people needed", yes_no(survey.access.two_people)),
        ("Photographs", survey.access.photos),
    )


def _asbestos(old: OldCovering) -> Iterator[str]:
    """The sample of the old covering, who tested it, and who took away what was found."""
    if old.sample is not None:
        yield f"sample {old.sample}"
    parts = (
        ("number", old.sample_number),
        ("tested by", old.cleared_by),
        ("on", day_of(old.tested_on)),
        ("removed by", old.removed_by),
        ("on", day_of(old.removed_on)),
        ("consignment note", old.consignment_note),
    )
    yield from (f"{words} {told}" for words, told in parts if told)


def _around(around: Around) -> Iterator[str]:
    """What was looked for, and what of it is there."""
    for name, words in AROUND_WORDS.items():
        if not around.is_open(name):
            yield f"{words}: {getattr(around, name).strip()}"


def on_site_blocks(job: Job) -> Iterator[Block]:
    """What was found and done on the roof, and what was to be put right."""
    if job.stripping is not None:
        yield from _stripping(job.stripping)
    if job.laying is not None:
        day = job.laying
        yield from known_details(
            "Laying",
            ("On", day_of(day.on)),
            ("Temperature", "" if day.temperature_c is None else f"{day.temperature_c} °C"),
            ("Average wind", "" if day.wind_mph is None else f"{day.wind_mph} mph"),
            ("Deck dry", yes_no(day.deck_dry)),
        )
    if job.sign_off is not None:
        yield from known_details(
            "Signing off",
            ("Signed off by", job.sign_off.who),
            ("On", day_of(job.sign_off.on)),
            ("Guarantee until", day_of(job.sign_off.guarantee_until)),
            ("Guarantee", job.sign_off.guarantee_words),
        )
    snags = (
        (snag.words, snag.materials, day_of(snag.done_on) or "still to do") for snag in job.snags
    )
    yield from table_of("Callbacks", ("To put right", "Materials", "Done"), snags)
    notes = ((day_of(note.on), note.words) for note in job.own_notes)
    yield from table_of("Notes", ("On", "What"), notes)


def _stripping(found: Stripping) -> Iterator[Block]:
    yield from known_details(
        "Stripping",
        ("On", day_of(found.on)),
        ("What we found", found.found),
        ("Left for the night", found.cover),
        ("Suspect underneath", yes_no(found.suspect)),
        ("Old covering", "" if found.waste_kg is None else show_amount(found.waste_kg, "kg")),
        ("Taken to", found.waste_to),
        ("Waste transfer note", found.transfer_note),
    )


def _deck(deck: Deck) -> str:
    replaced = "" if deck.replace_m is None else f"{show_amount(deck.replace_m, 'm')} to replace"
    return in_a_row(
        deck.kind or "",
        deck.profile,
        deck.thickness.typed if deck.thickness else "",
        "" if replaced else deck.state or "",
        replaced,
        "safe to stand on" if deck.works_off else "",
        "nails show inside" if deck.nails_inside else "",
        f"shingle nails {deck.nail_mm} mm" if deck.nail_mm else "",
    )


def _measured(roof: RoofMeasures) -> Iterator[str]:
    """Each measure as it was typed."""
    for name in MEASURES_OF[roof.form]:
        measure = getattr(roof, name)
        if name != "slopes" and measure is not None:
            yield f"{name.replace('_', ' ')} {getattr(measure, 'typed', measure)}"
    for number, slope in enumerate(roof.slopes, 1):
        yield f"slope {number}: eaves {slope.eaves.typed}, {slope.length.typed} up"
