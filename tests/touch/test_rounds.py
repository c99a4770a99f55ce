"""A round from the first tap to the report, driven by touches at positions."""

import sys
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest
from driver import Driver
from harbour import EXAMINER, MATE, NOW, sound

from app.device import Unavailable
from app.register import Register
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.round.one import OnePage
from app.touch.screens.round.order import OrderPage
from app.touch.screens.round.round import RoundPage
from app.touch.screens.round.signed import SignedPage
from app.touch.screens.round.summary import SummaryPage
from app.touch.widgets.buttons import RowButton
from inspection_rules.book import shipped
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.record import Finding
from inspection_rules.rounds import Whereabouts
from inspection_rules.words import Answer, InspectionKind, Seen, Where

KIT, DECK = 6, 12


def roundsling(number: int, place: str, prefix: str) -> Item:
    """A sling with few questions: what is tested here is the round, not the inspection."""
    tag = f"{prefix}-{number:02}"
    return Item.model_validate(
        {
            "id": tag.lower(), "tag": tag, "description": f"sling {number}", "place": place, "kind": "roundsling",
            "duty": "lifting", "fibre": "polyester", "made": "2050-01-10", "length": "4 m",
            "parts": [{"id": "body", "kind": "body"}],
        }
    )  # fmt: skip


def enter(register: Register, place: str, prefix: str, count: int) -> None:
    """Items with their baseline and a periodic examination of a month ago."""
    for number in range(1, count + 1):
        item = roundsling(number, place, prefix)
        register.add_item(item, EXAMINER, NOW - timedelta(days=200))
        for kind, days in ((InspectionKind.AS_MADE, 190), (InspectionKind.PERIODIC, 30)):
            look(register, item, kind, days)


def look(register: Register, item: Item, kind: InspectionKind, days: float, wrong: str = "", how: str = "") -> str:
    """`wrong` names the observation at which something is found, `how` what: the first condition of it otherwise."""
    one = sound(item, kind, NOW - timedelta(days=days), EXAMINER if kind is not InspectionKind.BEFORE_USE else MATE)
    if wrong:
        observation = next(o for o in shipped().observations.values() if o.id == wrong)
        bad = Finding(
            part=next(f.part for f in one.findings if f.observation == wrong), observation=wrong, seen=Seen.PRESENT,
            conditions=(how or observation.conditions[0].id,),
        )  # fmt: skip
        one = one.model_copy(update={"findings": (*(f for f in one.findings if f.observation != wrong), bad)})
    register.log_inspection(one, judge(register.case(one, on=one.on), shipped()))
    return one.id


@pytest.fixture
def kit(folder: Path, register: Register) -> Register:
    enter(register, "climbing kit", "RO", KIT)
    return register


def begin(ui: Driver, place: str, purpose: str = "Before a climb") -> None:
    ui.tap("Start a round")
    ui.tap(place)
    ui.tap("mate")
    ui.tap(purpose)


def inspect_next(ui: Driver) -> None:
    ui.tap(ui.page.foot.children[0])
    assert isinstance(ui.page, InspectPage)
    ui.good_to_the_end()
    ui.tap("Sign and log as mate")


def test_a_kit_of_six_sound_items_ends_ready(kit: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    around = ui.taps
    for number in range(1, KIT + 1):
        before = ui.taps
        assert ui.shows(f"Next: RO-{number:02}")
        inspect_next(ui)
        assert isinstance(ui.page, RoundPage)
        assert ui.shows(f"Logged: RO-{number:02}")
        sys.stdout.write(f"RO-{number:02}: {ui.taps - before} taps\n")
    ui.tap("All answered: is it ready?")
    assert ui.shows("READY: 6 items")
    ui.tap("Sign and log: READY, as mate · user")
    sys.stdout.write(f"a kit of six: {ui.taps} taps, {around} before the first item\n")
    (signed,) = kit.rounds()
    assert signed.summary.ready
    assert (signed.made.place, signed.made.purpose, signed.made.by) == ("climbing kit", "before a climb", MATE)
    assert kit.round_under_way() is None
    assert kit.verify() == []


def test_what_was_logged_is_told_until_the_next_thing_is_begun(kit: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    inspect_next(ui)
    assert ui.shows("Logged: RO-01")
    ui.tap("RO-02")
    ui.back()
    assert isinstance(ui.page, RoundPage)
    assert not ui.shows("Logged: ")


def test_a_deck_of_twelve_ends_not_ready_and_names_what_stops_it(
    folder: Path, register: Register, drive: Callable[..., Driver]
) -> None:
    enter(register, "deck", "ML", DECK)
    ui = drive()
    begin(ui, "deck", "Before arrival")
    for number in range(1, DECK + 1):  # as another hand does it, on the same device
        item = roundsling(number, "deck", "ML")
        wrong = "identity" if number == 4 else ""
        kinds = [f.observation for f in sound(item, InspectionKind.BEFORE_USE, NOW).findings]
        look(register, item, InspectionKind.BEFORE_USE, 0, kinds[-1] if wrong else "")
    ui.tap("Is it ready?")
    assert isinstance(ui.page, SummaryPage)
    assert ui.shows("NOT READY: 1 of 12 stops it: ML-04")
    with pytest.raises(LookupError):
        ui.button("Sign and log: READY")
    ui.tap("Sign and log: NOT READY, as mate · user")
    (signed,) = register.rounds("deck")
    assert [line.tag for line in signed.summary.stops] == ["ML-04"]


def test_an_app_that_was_ended_comes_back_to_the_same_item(kit: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    inspect_next(ui)
    ui.tap("Next: RO-02")
    ui.good(2)
    at = ui.page.visit.at
    ui.__exit__()
    again = drive()
    assert again.shows("Go on with the round: climbing kit · before a climb · 1 of 6")
    again.tap("Go on with the round")
    again.tap("Go on with RO-02")
    assert again.page.visit.at == at
    assert len(again.page.visit.inspection.entries) == 2


def test_a_look_whose_round_was_killed_before_it_was_told_is_counted(
    kit: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    ui.__exit__()
    look(kit, roundsling(1, "climbing kit", "RO"), InspectionKind.BEFORE_USE, 0)
    again = drive()
    again.tap("Go on with the round")
    assert again.shows("Next: RO-02")


def melted(register: Register, number: int) -> None:
    item = roundsling(number, "climbing kit", "RO")
    look(register, item, InspectionKind.BEFORE_USE, 1, "round_hurt", "melted")


@pytest.mark.parametrize(("hurt", "sign"), [((2, 3), "remove"), ((), "")])
def test_a_place_wears_the_sign_of_the_worst_answer_there(
    kit: Register, drive: Callable[..., Driver], hurt: tuple[int, ...], sign: str
) -> None:
    for number in hurt:
        melted(kit, number)
    ui = drive()
    ui.tap("Start a round")
    (row,) = (one for one in ui.widgets() if isinstance(one, RowButton) and one.title == "climbing kit")
    assert row.answer == sign


def test_the_head_of_a_round_names_what_its_record_stops_before_anybody_looked(
    kit: Register, drive: Callable[..., Driver]
) -> None:
    for number in (3, 5):
        melted(kit, number)
    ui = drive()
    begin(ui, "climbing kit")
    assert ui.shows("Stopped by: RO-03, RO-05")


def test_what_was_not_found_stops_the_round(kit: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    ui.tap("RO-03")
    ui.tap("Not found")
    ui.tap("Keep: not found")
    assert ui.shows("Stopped by: RO-03")
    ui.tap("Is it ready?")
    assert ui.shows("Not found.")
    ui.tap("Sign and log: NOT READY")
    assert "RO-03" in [line.tag for line in kit.rounds()[0].summary.stops]
    assert kit.standing("ro-03", NOW.date()).where is Where.NOT_FOUND


def test_what_is_ashore_does_not_stop_it_and_is_logged_as_ashore(kit: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    ui.tap("RO-02")
    ui.tap("Ashore")
    ui.tap(ui.page.field)
    ui.type("the net shed")
    ui.tap("Keep: ashore")
    ui.tap("Is it ready?")
    ui.tap("Sign and log: NOT READY")
    assert "RO-02" not in [line.tag for line in kit.rounds()[0].summary.stops]
    assert kit.standing("ro-02", NOW.date()).where is Where.ASHORE


def test_a_loan_wants_to_whom(kit: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    ui.tap("RO-02")
    ui.tap("On loan")
    ui.tap("Keep: on loan")
    assert ui.shows("Type it here first.")


def test_a_look_from_before_the_round_counts_only_when_the_person_says_so(
    kit: Register, drive: Callable[..., Driver]
) -> None:
    look(kit, roundsling(1, "climbing kit", "RO"), InspectionKind.BEFORE_USE, 2 / 24)
    ui = drive()
    begin(ui, "climbing kit")
    assert ui.shows("To do · looked at 07:30, before this round")
    ui.tap("Next: RO-01")
    assert isinstance(ui.page, OnePage)
    ui.tap("Count the look of 07:30")
    assert ui.shows("Next: RO-02")
    assert ui.page.state.made.entry("ro-01").whereabouts is Whereabouts.INSPECTED


def test_an_item_that_was_met_is_inspected_or_stops_the_round(kit: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    ui.tap("Add an item that was met")
    ui.search("rs-01")
    ui.tap("RS-01")
    assert ui.shows("Next: RS-01")
    assert "RS-01" in [line.tag for line in ui.page.state.summary.stops]
    ui.tap("RS-01")
    ui.tap("It does not belong to this round")
    assert ui.page.state.made.met == ()


def test_the_walking_order_is_changed_with_buttons_and_kept(kit: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    ui.tap("Walking order")
    ui.tap("3. RO-03")
    ui.tap("Move up")
    ui.tap("Move up")
    assert isinstance(ui.page, OrderPage)
    ui.back()
    assert ui.shows("Next: RO-03")
    assert kit.walking_order("climbing kit")[:3] == ("ro-03", "ro-01", "ro-02")


def test_somebody_else_signs(kit: Register, drive: Callable[..., Driver]) -> None:
    kit.set_people([MATE, MATE.model_copy(update={"name": "climber 1"})])
    ui = drive()
    begin(ui, "climbing kit")
    ui.tap("Is it ready?")
    ui.tap("Somebody else signs")
    ui.tap("climber 1")
    ui.tap("Sign and log: NOT READY, as climber 1 · user")
    assert kit.rounds()[0].made.by.name == "climber 1"


def test_a_round_that_is_thrown_away_leaves_its_inspections(kit: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    inspect_next(ui)
    ui.tap("Throw this round away")
    ui.tap("Throw it away")
    assert kit.round_under_way() is None
    assert kit.standing("ro-01", NOW.date()).latest_on == NOW.date()
    assert ui.shows("Start a round") or ui.button("Start a round")


def test_a_signed_round_is_read_from_today_and_its_report_written(
    kit: Register, folder: Path, drive: Callable[..., Driver]
) -> None:
    ui = drive(device=NoSharing())
    begin(ui, "climbing kit")
    ui.tap("Is it ready?")
    ui.tap("Sign and log: NOT READY")
    assert isinstance(ui.page, SignedPage)
    ui.tap("Make the report (PDF)")
    (report,) = (folder / "reports").glob("round-*.pdf")
    assert any(f"The report lies in {report}" == one.replace("\n", "") for one in ui.texts())
    ui.tap("Hand on a copy of the report")
    assert ui.shows("Nobody to hand it to.")
    ui.tap("To the first page")
    assert ui.shows("Logged: the round of climbing kit, NOT READY.")
    ui.tap("Rounds")
    ui.tap("climbing kit")
    assert ui.shows("NOT READY: 6 of 6 stop it: RO-01, RO-02, RO-03, RO-04, RO-05, RO-06")


def test_an_item_that_changed_before_the_signature_is_shown_again(kit: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin(ui, "climbing kit")
    for number in range(1, KIT + 1):
        look(kit, roundsling(number, "climbing kit", "RO"), InspectionKind.BEFORE_USE, 0)
    ui.tap("Is it ready?")
    assert ui.shows("READY: 6 items")
    item = roundsling(4, "climbing kit", "RO")
    asked = [f.observation for f in sound(item, InspectionKind.BEFORE_USE, NOW).findings]
    look(kit, item, InspectionKind.BEFORE_USE, 0, asked[-1])
    ui.tap("Sign and log: READY")
    assert ui.shows("The round was not logged")
    assert kit.rounds() == []
    ui.tap("Go back")
    assert ui.shows("NOT READY: 1 of 6 stops it: RO-04")


class NoSharing:
    """A device that can hand nothing on."""

    def share(self, file: Path) -> Unavailable:
        return Unavailable("Nobody to hand it to.")


@pytest.mark.parametrize("answer", [Answer.WATCH])
def test_sign_of_a_ready_round_with_something_to_watch_is_watch(answer: Answer) -> None:
    from inspection_rules.rounds import RoundLine, RoundSummary

    line = RoundLine(item="a", tag="A", answer=answer, sentence="Use it.", stops=False)
    assert RoundSummary(ready=True, stops=(), lines=(line,)).sign is Answer.WATCH
