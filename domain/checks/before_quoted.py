"""What must be so before a job is marked as quoted: the roof measured, seen and priced."""

from collections.abc import Callable
from functools import partial

from domain.checks.check import Check, Holds, Part, Severity, Situation
from domain.checks.safe_to_strip import AGE, KEPT_OFF, LOOKED, RULED_OUT
from domain.checks.surveyed_roof import (
    can_be_drawn,
    in_each_covering,
    measures_disagree,
    pitch_in_doubt,
)
from domain.coverings.registry import COVERINGS
from domain.errors import HeadlapError
from domain.estimate.nails_chosen import length_is_open
from domain.estimate.quoting import cost_and_margin, is_priced_from
from domain.job import Deck, DeckKind, DeckState, Edges, OldCovering, OldKind, Stage, Survey
from domain.page_names import PageName

_stop = partial(Check, stage=Stage.QUOTED, severity=Severity.STOP, page=PageName.SURVEY)
_caution = partial(Check, stage=Stage.QUOTED, severity=Severity.CAUTION, page=PageName.SURVEY)


def _surveyed(test: Callable[[Survey], bool]) -> Holds:
    """Make what holds only if there is a survey and ``test`` is true of it."""
    return lambda s: s.job.survey is not None and test(s.job.survey)


def _deck(test: Callable[[Deck], bool]) -> Holds:
    return _surveyed(lambda survey: test(survey.deck))


def _old(test: Callable[[OldCovering], bool]) -> Holds:
    """Make what holds if ``test`` is true of the old covering, or the deck is bare."""
    return _surveyed(lambda survey: survey.old.kind is OldKind.NONE or test(survey.old))


def _unless(test: Callable[[Survey], bool]) -> Holds:
    """Make what holds unless there is a survey and ``test`` is true of it.

    A caution made with it is not shown while there is no survey: the stops say that first.
    """
    return lambda s: s.job.survey is None or not test(s.job.survey)


def _over_cost(situation: Situation) -> bool:
    """Tell whether no price of the trader's own is under the cost."""
    quotes = situation.job.quotes
    own = [each for each in (quotes[-1].options if quotes else ()) if each.own_gross is not None]
    return all(cost_and_margin(each).pence >= 0 for each in own)


def _no_photos(survey: Survey) -> bool:
    return not survey.access.photos.strip()


def _state_known(deck: Deck) -> bool:
    if deck.state is DeckState.REPLACE:
        return deck.replace_m is not None and deck.replace_m > 0
    return deck.state is not None


def _boards_known(deck: Deck) -> bool:
    if deck.kind is DeckKind.SHEET:
        return True
    return bool(deck.profile.strip()) and deck.cover_width is not None


def _priced_as_surveyed(situation: Situation) -> bool:
    """Tell whether the quote that counts was priced from the survey as it stands.

    What a customer accepted stays agreed. While there is nothing to hold a quote against, other
    stops say so.
    """
    survey, quote = situation.job.survey, situation.job.quote
    if survey is None or survey.covering is None or quote is None or quote.acceptance is not None:
        return True
    try:
        return is_priced_from(quote, survey)
    except HeadlapError:
        return True


def _noted(id_: str, thing: str, text: Callable[[Edges], str]) -> Check:
    """Make the caution about one thing that stands at the edges."""
    return _caution(
        id=id_,
        part=Part.EDGES,
        holds=_unless(lambda survey: not text(survey.edges).strip()),
        words=f"{thing} noted?",
        remedy="Note what is there and its condition, or “none”.",
    )


_ROOF = (
    _stop(
        id="roof-drawn",
        part=Part.SIZES,
        holds=_surveyed(can_be_drawn),
        words="Roof measured and sizes add up?",
        remedy="Fill in the sizes; the survey page flags any that is wrong.",
    ),
    _stop(
        id="covering-chosen",
        holds=_surveyed(lambda survey: bool(survey.covering and survey.covering.key in COVERINGS)),
        words="Covering chosen?",
        remedy="Choose the covering to price.",
    ),
)

_DECK = (
    _stop(
        id="deck-from-above",
        part=Part.DECK,
        holds=_deck(lambda deck: deck.seen_above is True),
        words="Deck looked at from above?",
        remedy="Look at it from above, from a ladder or boards, without loading it.",
    ),
    _stop(
        id="deck-from-below",
        part=Part.DECK,
        holds=_deck(lambda deck: deck.seen_below is True),
        words="Deck looked at from below?",
        remedy="Look at it from inside with a light; lift the lining if there is one.",
    ),
    _stop(
        id="deck-kind",
        part=Part.DECK,
        holds=_deck(lambda deck: deck.kind is not None),
        words="Deck: boards or sheet?",
        remedy="Choose which it is.",
    ),
    _stop(
        id="deck-thickness",
        part=Part.DECK,
        holds=_deck(lambda deck: deck.thickness is not None and deck.thickness.mm > 0),
        words="Deck: how thick?",
        remedy="Measure it at an edge or a knot hole.",
    ),
    _stop(
        id="deck-boards",
        part=Part.DECK,
        holds=_deck(_boards_known),
        words="Boards: which profile, and how wide is each?",
        remedy="Give the profile and the cover width of one board.",
    ),
    _stop(
        id="deck-state",
        part=Part.DECK,
        holds=_deck(_state_known),
        words="Deck: sound, metres to replace, or unsafe to stand on?",
        remedy="Choose which; if boards need replacing, say how many metres you can see now.",
    ),
    _stop(
        id="deck-nails",
        part=Part.DECK,
        holds=_deck(lambda deck: deck.nails_inside is not None),
        words="Do nails show inside?",
        remedy="Look inside, and answer yes or no.",
    ),
    _caution(
        id="nail-length",
        part=Part.DECK,
        holds=lambda s: not length_is_open(s.job.survey, s.trader.nailing),
        words="Which shingle nails for this deck?",
        remedy="The usual ones show inside or do not hold: choose a length, with the customer "
        "where points would show.",
    ),
)

_OLD = (
    _stop(
        id="old-kind",
        part=Part.OLD,
        holds=_surveyed(lambda survey: survey.old.kind is not None),
        words="Old covering: what is it?",
        remedy="Choose what is on the roof now.",
    ),
    _stop(
        id="old-layers",
        part=Part.OLD,
        holds=_old(lambda old: old.layers is not None and old.layers > 0),
        words="Old covering: how many layers?",
        remedy="Count them at a verge.",
    ),
    AGE,
    RULED_OUT,
    KEPT_OFF,
    *LOOKED,
)

_WAYS = (
    _stop(
        id="access",
        part=Part.ACCESS,
        holds=_surveyed(lambda survey: bool(survey.access.means.strip())),
        words="How will you get up there?",
        remedy="Decide how to reach and work on the roof: ladder, hop-ups, tower, boards.",
    ),
    _stop(
        id="customer-kind",
        part=Part.ENQUIRY,
        holds=lambda s: s.job.customer.kind_asked,
        words="Householder, business, contractor?",
        remedy="Ask, and choose it on the enquiry page: prices and the right to cancel hang on it.",
        page=PageName.ENQUIRY,
    ),
    _stop(
        id="own-name",
        holds=lambda s: bool(s.trader.name.strip() and s.trader.address.strip()),
        words="Are your own name and address filled in?",
        remedy="Add them in your details: the quote goes out in your name.",
        page=PageName.TRADER,
    ),
    _stop(
        id="quote-sent",
        holds=lambda s: any(q.sent_on and q.valid_until for q in s.job.quotes),
        words="Quote sent, dated, with how long it is valid?",
        remedy="Price it, send it to the customer and mark it as sent.",
        page=PageName.QUOTE,
    ),
    _stop(
        id="priced-as-surveyed",
        holds=_priced_as_surveyed,
        words="Priced from the latest survey?",
        remedy="Priced before the survey changed: price it again.",
        page=PageName.QUOTE,
    ),
    _caution(
        id="own-price",
        holds=_over_cost,
        words="Is your own price over what it costs you?",
        remedy="Ask more and price it again, or say why it is worth it.",
        page=PageName.QUOTE,
    ),
    _caution(
        id="measures-agree",
        part=Part.SIZES,
        holds=_unless(measures_disagree),
        words="Do the roof sizes add up?",
        remedy="Measure again where the take-off flags a mismatch, or say why it is right.",
    ),
    _caution(
        id="pitch",
        part=Part.SIZES,
        holds=lambda s: not any(map(pitch_in_doubt, in_each_covering(s.job))),
        words="Pitch steep enough for the covering?",
        remedy="Measure the pitch again, or choose a covering for a low pitch.",
    ),
    _caution(
        id="work-off",
        part=Part.DECK,
        holds=_unless(
            lambda survey: not survey.deck.works_off or survey.deck.state is DeckState.UNSAFE
        ),
        words="Deck strong enough to stand on?",
        remedy="If not, work from the side or from boards, and allow the time.",
    ),
    _caution(
        id="one-person",
        part=Part.ACCESS,
        holds=_unless(lambda survey: survey.access.two_people is not False),
        words="Can one person do it?",
        remedy="If not, find a helper for the day and price it in.",
    ),
)

_EDGES = (
    _noted("barge-boards", "Barge boards", lambda edges: edges.barge_boards),
    _noted("fascia", "Fascia", lambda edges: edges.fascia),
    _noted("finials", "Finials", lambda edges: edges.finials),
    _noted("drip-trim", "Drip trim", lambda edges: edges.drip_trim),
    _noted("gutter", "Gutter", lambda edges: edges.gutter),
    _caution(
        id="ventilation",
        part=Part.EDGES,
        holds=_unless(
            lambda survey: (
                survey.edges.lined is not False
                and not (survey.edges.lined and survey.edges.ventilation.strip())
            )
        ),
        words="Ventilation noted, if the building is lined?",
        remedy="Say whether it is lined and, if so, how the roof is ventilated.",
    ),
    _caution(
        id="photo",
        part=Part.ACCESS,
        holds=lambda s: s.photographs > 0 or _unless(_no_photos)(s),
        words="Photos taken?",
        remedy=(
            "Take one of each slope and one of the deck from inside. Put them into the folder of "
            "the job, or note where they are."
        ),
    ),
)

BEFORE_QUOTED = (*_ROOF, *_DECK, *_OLD, *_WAYS, *_EDGES)
"""In the order they are asked."""
