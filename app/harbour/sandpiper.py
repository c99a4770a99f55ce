"""The workboat Sandpiper: twelve mooring lines with their tails, and the towing pendant."""

from collections.abc import Iterator
from datetime import date, timedelta
from random import Random
from typing import Any

from app.harbour.telling import (
    BURY_MM,
    DECKHAND,
    EXAMINER,
    MATE,
    SPLICER,
    Clock,
    Story,
    Visit,
    both,
    braided,
    tucked,
    visit,
)
from app.photos.render import BuriedEye, LockStitching
from inspection_rules.words import Construction, Duty, Fibre, InspectionKind, ItemKind

LINES = (
    "bow line, port", "bow line, starboard", "bow breast, port", "bow spring, port", "bow spring, starboard",
    "stern spring, port", "stern spring, starboard", "stern breast, starboard", "stern line, port",
    "stern line, starboard", "spare line, fore peak", "new bow breast, starboard",
)  # fmt: skip
TAILS = ("bow line, port", "bow line, starboard", "stern line, port", "stern line, starboard")
PAPERS: dict[str, Any] = {
    "maker_criteria": "criteria of the harbour loft for mooring lines, 3rd edition",
    "breaking_force": "440 kN",
    "breaking_spliced": True,
    "ship_design_force": "400 kN",
}
TAIL_PAPERS = PAPERS | {"breaking_force": "500 kN"}


def sandpiper(clock: Clock, rng: Random, start: date, today: date) -> Iterator[Story]:
    """Yield the stories of all that is on board."""
    yield from _lines(clock, rng, start, today)
    yield from _tails(clock, start, today)
    yield _pendant(clock, start, today)


def _lines(clock: Clock, rng: Random, start: date, today: date) -> Iterator[Story]:
    for number, name in enumerate(LINES, 1):
        item = braided(clock, start, f"ML-{number:02}", f"{name}, of the Sandpiper", "Sandpiper", Duty.MOORING,
                       "60 m", **PAPERS)  # fmt: skip
        last = visit(InspectionKind.BEFORE_USE, today, MATE if number % 2 else DECKHAND)
        if number == len(LINES):
            made = today - timedelta(days=10)
            new = visit(InspectionKind.PERIODIC, today, EXAMINER, readings=both("mark_offset", "7 mm", "8 mm"))
            yield Story(item, (visit(InspectionKind.AS_MADE, made, SPLICER), new))
            continue
        bury = f"{BURY_MM} mm" if number == 5 else f"{BURY_MM + 24 + rng.randrange(0, 60)} mm"
        as_made = visit(InspectionKind.AS_MADE, start, SPLICER, readings=both("bury", bury))
        bedded = visit(InspectionKind.BEDDED_IN, start + timedelta(days=16), EXAMINER)
        if number == 4:
            last = visit(
                InspectionKind.BEFORE_USE, today, DECKHAND,
                not_examined={("B", "lock_stitching"): "under frozen chafe gear"},
            )  # fmt: skip
        yield Story(item, (as_made, bedded, *monthly(start, today), last))


def _tails(clock: Clock, start: date, today: date) -> Iterator[Story]:
    """Tails of plaited polyester; the third has been in use for a little more than its eighteen months."""
    for number, name in enumerate(TAILS, 1):
        used = today - timedelta(days=553) if number == 3 else today - timedelta(days=240 + 30 * number)
        item = tucked(
            clock, used, f"MT-{number:02}", f"mooring tail of the {name}, of the Sandpiper", "Sandpiper",
            Duty.MOORING, "11 m", kind=ItemKind.MOORING_TAIL, fibre=Fibre.POLYESTER,
            construction=Construction.PLAITED_8, diameter="36 mm", first_used=used, **TAIL_PAPERS,
        )  # fmt: skip
        made = visit(InspectionKind.AS_MADE, used, SPLICER)
        yield Story(item, (made, *monthly(used, today), visit(InspectionKind.BEFORE_USE, today, DECKHAND)))


def _pendant(clock: Clock, start: date, today: date) -> Story:
    """The pendant whose marks creep a little every month, until two readings together show it."""
    item = braided(clock, start, "TP-01", "towing pendant of the Sandpiper", "Sandpiper", Duty.TOWING, "20 m")
    as_made = visit(InspectionKind.AS_MADE, start, SPLICER, readings=both("bury", f"{80 * 24} mm"))
    bedded = visit(InspectionKind.BEDDED_IN, start + timedelta(days=16), EXAMINER)
    creep = (0, 0, 1, 0, 1, 1, 0, 1, 1, 2, 1, 2, 2, 2, 3, 2, 3, 2, 3, 3, 3, 4)
    visits = [
        visit(
            InspectionKind.PERIODIC,
            start + timedelta(days=46 + 30 * month),
            EXAMINER,
            readings={("A", "mark_offset"): (f"{out} mm", f"{max(out - month % 2, 0)} mm")},
        )
        for month, out in enumerate(creep)
    ]
    last = visit(
        InspectionKind.PERIODIC, today, EXAMINER,
        readings={("A", "mark_offset"): ("6 mm", "5 mm", "6 mm", "5 mm")},  # read again at once, as it asks
        scenes={("A", "mark_offset"): BuriedEye(offset_mm=6), ("A", "lock_stitching"): LockStitching("whole")},
    )  # fmt: skip
    return Story(item, (as_made, bedded, *visits, last))


def monthly(start: date, today: date) -> Iterator[Visit]:
    """The examination of each month that mooring asks for, the last one ten days ago."""
    on = today - timedelta(days=10)
    days = []
    while on > start + timedelta(days=20):
        days.append(on)
        on -= timedelta(days=28)
    for day in reversed(days):
        yield visit(InspectionKind.PERIODIC, day, EXAMINER)
