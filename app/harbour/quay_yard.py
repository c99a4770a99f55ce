"""The quay yard's lifting slings: rope, web and round."""

from collections.abc import Iterator
from datetime import date, timedelta
from random import Random
from typing import Any

from app.harbour.telling import (
    BODY,
    EXAMINER,
    SPLICER,
    YARD_HAND,
    Clock,
    Story,
    braided,
    item,
    rounds,
    tucked,
    visit,
)
from app.photos.render import Body, BuryZone, Tag, TuckedEye, WebSling
from inspection_rules.item import Part
from inspection_rules.words import Construction, Duty, Fibre, InspectionKind, ItemKind, PartKind, SpliceKind

YARD = "quay yard"
BRAIDED = (3, 7)  # the rope slings that are no laid rope


def quay_yard(clock: Clock, rng: Random, start: date, today: date) -> Iterator[Story]:
    """Yield the stories of all slings."""
    yield from _rope_slings(clock, rng, start, today)
    yield from _web_slings(clock, start, today)
    yield from _roundslings(clock, start, today)


def _rope_slings(clock: Clock, rng: Random, start: date, today: date) -> Iterator[Story]:
    told: dict[int, dict[str, Any]] = {
        3: {"seen": {("body", "body_surface"): "cut"}, "scenes": {("body", "body_surface"): Body("strand cut")}},
        5: {"readings": {("B", "tail"): ("88 mm",)}, "scenes": {("B", "tail"): TuckedEye()}},
        7: {"seen": {("", "tag"): "unreadable"}, "scenes": {("", "tag"): Tag(None)}},
    }
    for number in range(1, 8):
        length = f"{rng.choice((3, 4, 6))} m"
        tag = f"RS-{number:02}"
        if number in BRAIDED:
            sling = braided(clock, start, tag, "twelve-strand sling", YARD, Duty.LIFTING, length,
                            kind=ItemKind.ROPE_SLING)  # fmt: skip
        else:
            sling = tucked(clock, start, tag, "three-strand sling", YARD, Duty.LIFTING, length)
        periodic = number == 5
        last = visit(InspectionKind.PERIODIC if periodic else InspectionKind.BEFORE_USE, today,
                     EXAMINER if periodic else YARD_HAND, **told.get(number, {}))  # fmt: skip
        made = [visit(InspectionKind.AS_MADE, start, SPLICER)]
        if number in BRAIDED:
            made.append(visit(InspectionKind.BEDDED_IN, start + timedelta(days=12), EXAMINER))
        yield Story(sling, (*made, *rounds(start, today, YARD_HAND), last))
    old = braided(clock, start, "RS-08", "two-eye sling, came without papers", YARD, Duty.LIFTING, "5 m",
                  kind=ItemKind.ROPE_SLING, known=False)  # fmt: skip
    found = visit(InspectionKind.AS_FOUND, today - timedelta(days=60), EXAMINER)
    last = visit(InspectionKind.BEFORE_USE, today, YARD_HAND, scenes={("A", "bury_feel"): BuryZone("sound")})
    yield Story(old, (found, last))


def _web_slings(clock: Clock, start: date, today: date) -> Iterator[Story]:
    """Three web slings; the edge of the second was cut."""
    eyes = [Part(id=end, kind=PartKind.TERMINATION, end=end, splice=SpliceKind.SEWN_EYE) for end in "AB"]
    for number in (1, 2, 3):
        sling = item(clock, start, f"WS-{number:02}", "web sling, two plies", YARD, ItemKind.WEB_SLING, Duty.LIFTING,
                     Fibre.POLYESTER, (eyes[0], BODY, eyes[1]), construction=Construction.WEBBING, width="60 mm",
                     thickness="6 mm", length="3 m", working_load_limit="20 kN")  # fmt: skip
        last = visit(InspectionKind.BEFORE_USE, today, YARD_HAND)
        if number == 2:
            edge = ("body", "web_edges")
            last = visit(
                InspectionKind.BEFORE_USE, today, YARD_HAND, seen={edge: "cut"},
                readings={("body", "edge_cut"): ("8 mm",)}, scenes={edge: WebSling(edge_cut=True)},
            )  # fmt: skip
        made = visit(InspectionKind.AS_MADE, start, EXAMINER)
        yield Story(sling, (made, *rounds(start, today, YARD_HAND), last))


def _roundslings(clock: Clock, start: date, today: date) -> Iterator[Story]:
    for number in (1, 2):
        sling = item(clock, start, f"RO-{number:02}", "roundsling", YARD, ItemKind.ROUNDSLING, Duty.LIFTING,
                     Fibre.POLYESTER, (BODY,), length="2 m", working_load_limit="20 kN")  # fmt: skip
        made = visit(InspectionKind.AS_MADE, start, EXAMINER)
        last = visit(InspectionKind.BEFORE_USE, today, YARD_HAND)
        yield Story(sling, (made, *rounds(start, today, YARD_HAND), last))
