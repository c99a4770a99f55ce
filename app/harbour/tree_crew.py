"""The two-person tree crew: climbing lines, the rigging line, lanyards and a connector."""

from collections.abc import Iterator
from datetime import date, timedelta

from app.harbour.telling import (
    CLIMBER,
    CRITERIA,
    EXAMINER,
    SPLICER,
    Clock,
    Story,
    braided,
    hung,
    item,
    kernmantle,
    rounds,
    visit,
)
from app.photos.render import Body
from inspection_rules.words import Duty, Fibre, FittingKind, InspectionKind, ItemKind, SpliceKind

CREW = "tree crew"


def tree_crew(clock: Clock, start: date, today: date) -> Iterator[Story]:
    """Yield the stories of the crew's kit."""
    made = visit(InspectionKind.AS_MADE, start, SPLICER)
    look = visit(InspectionKind.BEFORE_USE, today, CLIMBER)
    rigging = braided(clock, start, "RL-01", f"rigging line of the {CREW}", CREW, Duty.TREE_RIGGING, "45 m",
                      fibre=Fibre.POLYESTER, ends="A")  # fmt: skip
    bedded = visit(InspectionKind.BEDDED_IN, start + timedelta(days=10), EXAMINER)
    yield Story(rigging, (made, bedded, *rounds(start, today, CLIMBER), look))
    ends = (SpliceKind.SEWN_EYE, SpliceKind.PLAIN_END)
    for number in (1, 2):
        line = kernmantle(clock, start, f"CL-{number:02}", f"climbing line {number} of the {CREW}", CREW,
                          ItemKind.LINE, "45 m", ends)  # fmt: skip
        last = look
        if number == 1:
            last = visit(
                InspectionKind.BEFORE_USE, today, CLIMBER, seen={("", "shock"): "shock"},
                scenes={("body", "cover"): Body("sound")},
            )  # fmt: skip
        yield Story(line, (made, *rounds(start, today, CLIMBER), last))
    lanyard = kernmantle(
        clock, start, "LY-01", f"positioning lanyard of the {CREW}", CREW, ItemKind.LANYARD, "4 m",
        (SpliceKind.SEWN_EYE, SpliceKind.PLAIN_END),
        (FittingKind.CONNECTOR, FittingKind.CONNECTOR, FittingKind.ADJUSTER),
    )  # fmt: skip
    late = visit(InspectionKind.PERIODIC, today - timedelta(days=425), EXAMINER)
    yield Story(lanyard, (made, late, look))
    connector = item(
        clock, start, "CN-01", f"steel connector of the {CREW}", CREW, ItemKind.CONNECTOR, Duty.LIFE_SUPPORT,
        Fibre.POLYESTER, hung((FittingKind.CONNECTOR,)), breaking_force="40 kN", maker_criteria=CRITERIA,
    )  # fmt: skip
    first = visit(InspectionKind.PERIODIC, start, EXAMINER)
    yield Story(connector, (first, *rounds(start, today, CLIMBER), look))
