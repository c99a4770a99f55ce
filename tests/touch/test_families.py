"""Every family of items is walked from end to end in the window, with all the readings that are asked for."""

from collections.abc import Callable
from datetime import timedelta

import pytest
from driver import Driver
from fleet import FLEET, LANYARD, ROUND, WEB
from harbour import EXAMINER, NOW

from app.register import Register, new_id
from inspection_rules.book import shipped
from inspection_rules.events import Acceptance, Reference
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.record import Finding, Inspection
from inspection_rules.walk import walk
from inspection_rules.words import Answer, InspectionKind, Seen

KEYS = {"%": "0", "kN": "9 0 0", "": "5"}


@pytest.fixture
def fleet(register: Register) -> Register:
    for item in FLEET:
        register.add_item(item, EXAMINER, NOW - timedelta(days=100))
    return register


@pytest.fixture
def sailing(fleet: Register, drive: Callable[..., Driver]) -> Driver:
    ui = drive()
    ui.app.person = EXAMINER
    return ui


def to_item(ui: Driver, item: Item) -> None:
    ui.tap("All items")
    ui.search(item.tag)
    ui.tap(item.tag)


def walk_on(ui: Driver) -> None:
    """Answer what is asked with what is sound; type a number where one is read."""
    ui.look_all_the_same()
    observation = ui.page.visit.step.observation
    if observation.kind == "question":
        ui.good()
        return
    ui.tap("Type ")
    ui.say_the_state()
    while type(ui.page).__name__ == "KeypadPage":
        ui.number(KEYS.get(ui.page.pad.value.unit, "7 5"))
        ui.tap("Record")
        ui.keep_what_looks_odd()
        if type(ui.page).__name__ == "PlacePage":
            ui.tap("Place not known")
        if observation.damages:
            ui.tap("No more of them")


@pytest.mark.parametrize("item", FLEET, ids=lambda item: item.tag)
def test_a_look_before_use_walks_from_the_tag_to_the_end(sailing: Driver, fleet: Register, item: Item) -> None:
    to_item(sailing, item)
    sailing.tap("Before use")
    while type(sailing.page).__name__ == "InspectPage":
        walk_on(sailing)
    sailing.tap("Sign and log")
    if sailing.shows("Can nobody take it by mistake?"):
        sailing.tap("DO NOT USE tag hung")
    assert len(fleet.judged(item.id)) == 1


@pytest.mark.parametrize("item", [WEB, LANYARD], ids=lambda item: item.tag)
def test_an_examination_with_its_readings_walks_to_the_end(sailing: Driver, fleet: Register, item: Item) -> None:
    to_item(sailing, item)
    sailing.tap("Periodic examination")
    while type(sailing.page).__name__ == "InspectPage":
        walk_on(sailing)
    assert sailing.shows("Sign and log")


def test_each_fitting_is_asked_about_by_its_own_name(sailing: Driver) -> None:
    to_item(sailing, LANYARD)
    sailing.tap("Periodic examination")
    names = set(sailing.page._names.values())
    assert {"connector 1", "connector 2", "adjuster"} <= names


def test_a_connector_is_not_asked_about_the_latch_of_a_hook(sailing: Driver) -> None:
    to_item(sailing, LANYARD)
    sailing.tap("Periodic examination")
    sailing.tap(sailing.station("F1", "fitting"))
    assert sailing.shows("Gate does not close or lock")
    assert not sailing.shows("Latch missing, bent or slack")


def test_every_edge_cut_is_read_with_its_place(sailing: Driver, fleet: Register) -> None:
    to_item(sailing, WEB)
    sailing.tap("Before use")
    sailing.tap(sailing.station("body", "edges"))
    sailing.tap("Cut or nicked")
    sailing.tap("More to look at here")
    sailing.tap("Each edge cut")
    sailing.tap("Type the first one")
    sailing.number("4")
    sailing.tap("Record")
    sailing.number("1 . 2")
    sailing.tap("Take this place")
    sailing.number("6 . 5")
    sailing.tap("Record")
    sailing.number("3")
    sailing.tap("Take this place")
    assert sailing.shows("This visit: 4 mm at 1.2 m · 6.5 mm at 3 m")
    sailing.tap("No more of them")
    reading = fleet.drafts()[0].inspection.reading("body", "edge_cut")
    assert [value.text for value in reading.values] == ["4 mm", "6.5 mm"]
    assert [place.text for place in reading.places] == ["1.2 m", "3 m"]


def test_a_damage_without_its_place_takes_the_places_of_the_others_into_the_note(
    sailing: Driver, fleet: Register
) -> None:
    to_item(sailing, WEB)
    sailing.tap("Before use")
    sailing.tap(sailing.station("body", "edges"))
    sailing.tap("More to look at here")
    sailing.tap("Each edge cut")
    sailing.tap("Type the first one")
    sailing.number("4")
    sailing.tap("Record")
    sailing.number("1 . 2")
    sailing.tap("Take this place")
    sailing.number("3")
    sailing.tap("Record")
    sailing.tap("Place not known")
    reading = fleet.drafts()[0].inspection.reading("body", "edge_cut")
    assert [value.text for value in reading.values] == ["4 mm", "3 mm"]
    assert (reading.places, reading.note) == ((), "said before: 4 mm at 1.2 m")


@pytest.fixture
def accepted(fleet: Register) -> str:
    """The roundsling's worn cover, examined and accepted a month ago; the acceptance's id."""
    steps = walk(ROUND, InspectionKind.PERIODIC, (), shipped())
    worn = ("body", "round_cover")
    findings = [
        Finding(part=s.part, observation=s.observation.id, seen=Seen.PRESENT, conditions=("worn",))
        if s.key == worn
        else Finding(part=s.part, observation=s.observation.id, seen=Seen.ABSENT)
        for s in steps
    ]
    at = NOW - timedelta(days=30)
    seen = Inspection(id=new_id(), item=ROUND.id, at=at, by=EXAMINER, kind=InspectionKind.PERIODIC, findings=findings)
    judgement = judge(fleet.case(seen, on=seen.on), shipped())
    fleet.log_inspection(seen, judgement)
    (ruling,) = [one for one in judgement.rulings if one.answer is Answer.HOLD and one.observation == "round_cover"]
    acceptance = Acceptance(
        id=new_id(),
        item=ROUND.id,
        at=at + timedelta(hours=1),
        by=EXAMINER,
        examined=(Reference(inspection=seen.id, rule=ruling.rule, part=ruling.part),),
        extent="thin over a hand's width at the label",
        reason="the core is untouched",
        until=NOW.date() + timedelta(days=60),
    )
    fleet.accept(acceptance)
    return acceptance.id


def test_what_was_accepted_is_offered_as_no_bigger(
    accepted: str, fleet: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    to_item(ui, ROUND)
    ui.tap("Before use")
    ui.good_until("Is the cover whole")
    assert ui.shows("thin over a hand's width at the label")
    ui.tap("As accepted, no bigger")
    finding = fleet.drafts()[0].inspection.finding("body", "round_cover")
    assert (finding.conditions, finding.accepted) == (("worn",), (accepted,))
    assert ui.sign("body", "cover") == "watch"


def test_something_more_than_was_accepted_is_not_covered_by_it(
    accepted: str, fleet: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    to_item(ui, ROUND)
    ui.tap("Before use")
    ui.good_until("Is the cover whole")
    ui.tap("As accepted, no bigger")
    ui.tap("Worn thin or furry")  # taken back
    ui.tap("Worn thin or furry")  # and seen anew, without saying that it is no bigger
    assert fleet.drafts()[0].inspection.finding("body", "round_cover").accepted == ()
    assert ui.sign("body", "cover") == "hold"
