"""Telling a use: asked of who inspects, judged beside the item's own answer, kept, logged and shown."""

from collections.abc import Callable
from datetime import timedelta

import pytest
from driver import Driver
from harbour import EXAMINER, NOW, TUCKED, sound

from app.register import Register
from app.touch.screens.answer.answer import AnswerPage
from app.touch.screens.use.use import UsePage
from app.touch.widgets.buttons import RowButton
from app.use_words import NAMES
from inspection_rules.book import shipped
from inspection_rules.case import Use
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement
from inspection_rules.words import Answer, InspectionKind

TAGGED = TUCKED.model_copy(update={"id": "rs-03", "tag": "RS-03", "description": "", "place": "slip"})
FORCES = {"working_load_limit": "20 kN", "breaking_force": "160 kN", "breaking_spliced": True}
RATED = Item.model_validate({**TAGGED.model_dump(mode="json"), **FORCES})


def enter(register: Register, item: Item) -> None:
    register.add_item(item, EXAMINER, NOW - timedelta(days=200))
    for kind, days in ((InspectionKind.AS_MADE, 190), (InspectionKind.PERIODIC, 30)):
        one = sound(item, kind, NOW - timedelta(days=days))
        register.log_inspection(one, judge(register.case(one, on=one.on), shipped()))


@pytest.fixture
def rated(folder: object, register: Register) -> Register:
    """Sling RS-03, whose tag says 20 kN, is in the register."""
    enter(register, RATED)
    return register


def to_the_answer(ui: Driver, tag: str = "RS-03") -> None:
    ui.tap("All items")
    ui.tap(tag)
    ui.tap("Before use")
    ui.good_to_the_end()
    assert isinstance(ui.page, AnswerPage)


def to_the_use(ui: Driver, tag: str = "RS-03") -> None:
    to_the_answer(ui, tag)
    ui.tap("Say what it will carry")
    assert isinstance(ui.page, UsePage)


def tell_number(ui: Driver, row: str, keys: str) -> None:
    ui.tap(row)
    ui.number(keys)
    ui.tap("Take this number")


def tell(ui: Driver, row: str, word: str) -> None:
    ui.tap(row)
    ui.tap(word)


def tell_a_lift(ui: Driver, kilonewtons: str) -> None:
    """A straight lift on one leg."""
    tell_number(ui, "Whole load", kilonewtons)
    tell(ui, "Hitch", "Straight")


def rows(ui: Driver) -> list[str]:
    return [one.key for one in ui.widgets() if isinstance(one, RowButton)]


def last_judgement(register: Register, item: str = "rs-03") -> Judgement:
    return register.judged(item)[-1].judgement


# --- asking ---------------------------------------------------------------------------------------------------


def test_a_use_that_is_too_heavy_is_not_for_this_use_and_the_item_keeps_its_answer(
    rated: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    to_the_use(ui)
    tell_a_lift(ui, "5 0")
    ui.tap("That is all I can tell")
    assert ui.shows("NOT FOR THIS USE")
    assert ui.shows("50 kN, limit at most 20 kN")
    ui.tap("Sign and log as mate")
    logged = last_judgement(rated)
    assert logged.answer is Answer.SERVICEABLE
    assert logged.use == Use(load="50 kN", hitch="straight")
    assert [one.rule for one in logged.not_for_this_use] == ["leg-tension"]


def test_a_use_that_nothing_speaks_against_says_what_was_not_told(
    rated: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    to_the_use(ui)
    tell_a_lift(ui, "5")
    ui.tap("That is all I can tell")
    assert not ui.shows("NOT FOR THIS USE")
    assert ui.shows("The use told: nothing in the rules speaks against it")
    assert ui.shows("Not told, so not judged: What the eye bears on, ")


def test_no_use_told_is_said_and_nothing_is_judged_of_one(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    to_the_answer(ui)
    assert ui.shows("(no use is judged yet)")
    ui.tap("Sign and log as mate")
    logged = last_judgement(rated)
    assert (logged.use, logged.not_for_this_use, logged.for_this_use) == (None, (), ())


def test_only_what_a_rule_can_use_is_asked(ui: Driver, register: Register) -> None:
    lanyard = {
        "id": "ll-01", "tag": "LL-01", "kind": "lanyard", "duty": "life support", "fibre": "polyester",
        "construction": "double braid", "cover_load": "shared", "diameter": "14 mm", "made": "2050-02-01",
        "parts": [*({"id": end, "kind": "termination", "end": end, "splice": "sewn eye"} for end in "AB"),
                  {"id": "body", "kind": "body"}],
    }  # fmt: skip
    register.add_item(Item.model_validate(lanyard), EXAMINER, NOW - timedelta(days=200))
    ui.tap("All items")
    ui.tap("LL-01")
    ui.tap("Before use")
    ui.tap("Stop here and see the answer")
    ui.tap("Say what it will carry")
    assert rows(ui) == ["load", "persons", "hottest", "coldest", "chemicals", "moisture"]
    assert ui.shows("No rule that counts here speaks of: What the eye bears on, ")


def test_every_thing_may_be_told_and_taken_back(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    to_the_use(ui)
    assert rows(ui) == list(NAMES)
    tell_number(ui, "What the eye bears on", "6 0")
    tell_number(ui, "Inside length of the eye", "4 0 0")
    tell_a_lift(ui, "1 0")
    tell(ui, "Legs that carry it", "2")
    ui.tap("Angle of the legs")
    ui.tap("From the vertical")
    ui.number("3 0")
    ui.tap("Take this number")
    tell(ui, "Persons", "A person is raised, lowered or held by it")
    tell_number(ui, "Greatest heat", "4 0")
    ui.tap("Greatest cold")
    ui.number("2 0 ±")
    ui.tap("Take this number")
    ui.tap("Chemicals")
    ui.tap("Acid")
    ui.tap("Solvent")
    ui.tap("Take what I ticked")
    tell(ui, "Wet or dry", "Wet")
    told = ui.page.use
    assert {name: str(getattr(told, name)) for name in told.told if name != "chemicals"} == {
        "pin_diameter": "60 mm", "eye_length": "400 mm", "load": "10 kN", "legs": "2", "leg_angle": "30° from vertical",
        "hitch": "straight", "persons": "True", "hottest": "40 °C", "coldest": "-20 °C", "moisture": "wet",
    }  # fmt: skip
    assert told.chemicals == ("acid", "solvent")
    tell(ui, "Persons", "No, or not known: not judged")
    assert "persons" not in ui.page.use.told
    ui.tap("Take all of it back")
    assert ui.page.use is None


def test_all_that_is_still_needed_for_what_was_told_is_named_on_the_page(
    rated: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    to_the_use(ui)
    tell(ui, "Legs that carry it", "2")
    assert ui.shows("Still needed to judge this use: Whole load, Angle of the legs, Hitch.")


def test_nothing_is_still_needed_once_a_whole_lift_was_told(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    to_the_use(ui)
    tell_a_lift(ui, "5")
    assert not ui.shows("Still needed")


def test_what_a_use_of_a_round_still_needs_is_named_for_its_items(
    rated: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    begin_a_round(ui)
    ui.tap("Say what it will carry")
    tell_number(ui, "Whole load", "5")
    assert ui.shows("Still needed to judge this use: Hitch.")


def test_an_angle_beyond_a_right_one_is_refused_and_says_so(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    to_the_use(ui)
    ui.tap("Angle of the legs")
    ui.tap("From the horizontal")
    ui.number("1 2 0")
    ui.tap("Take this number")
    assert ui.shows("is more than 90°")


def test_an_angle_says_from_where_it_is_measured(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    to_the_use(ui)
    ui.tap("Angle of the legs")
    ui.tap("From the horizontal")
    ui.number("6 0")
    assert ui.shows("From the horizontal: 90° hangs straight down")
    ui.tap("Take this number")
    assert str(ui.page.use.leg_angle) == "60° from horizontal"


def test_a_number_that_was_told_stands_beside_the_keypad(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    to_the_use(ui)
    tell_number(ui, "Whole load", "5 0")
    ui.tap("Whole load")
    assert ui.shows("Said before: 50 kN")


# --- judged beside the item's own answer ----------------------------------------------------------------------


def test_an_item_that_is_stopped_stays_stopped_whatever_use_is_told(
    rated: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    ui.tap("All items")
    ui.tap("RS-03")
    ui.tap("Before use")
    ui.good()
    ui.tap("Stop here and see the answer")
    ui.tap("Say what it will carry")
    tell_a_lift(ui, "1")
    ui.tap("That is all I can tell")
    assert ui.shows("DO NOT USE")
    ui.tap("Sign and log as mate")
    ui.tap("DO NOT USE tag hung")
    assert last_judgement(rated).answer is Answer.HOLD


def test_a_use_it_is_not_for_still_takes_a_signature_and_says_so_when_logged(
    rated: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    to_the_use(ui)
    tell_a_lift(ui, "5 0")
    ui.tap("That is all I can tell")
    assert ui.shows("Use it, but not for what was told: see below.")
    ui.tap("Sign and log as mate")
    assert ui.shows("Logged: RS-03, serviceable. Not for the use that was told.")


def test_telling_a_use_takes_no_tap_of_a_walk_that_tells_none(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    to_the_answer(ui)
    before = ui.taps
    ui.tap("Sign and log as mate")
    assert ui.taps == before + 1
    assert ui.shows("Logged: RS-03, serviceable.")


# --- kept and shown -------------------------------------------------------------------------------------------


def test_what_was_told_outlives_a_killed_app(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    to_the_use(ui)
    tell_number(ui, "Whole load", "5 0")
    ui.__exit__()
    again = drive()
    again.tap("All items")
    again.tap("RS-03")
    again.tap("Go on: before use")
    again.tap("See the answer")
    assert again.shows("NOT FOR THIS USE")
    assert str(again.page.judgement.use.load) == "50 kN"


def test_a_record_shows_the_use_and_what_spoke_against_it(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    to_the_use(ui)
    tell_a_lift(ui, "5 0")
    ui.tap("That is all I can tell")
    ui.tap("Sign and log as mate")
    ui.tap("All items")
    ui.tap("RS-03")
    assert ui.shows("The use told: Whole load: 50 kN; Hitch: straight.")
    ui.tap("12 Oct 2050 · before use")
    assert ui.shows("The use told: Whole load: 50 kN; Hitch: straight.")
    assert ui.shows("50 kN, limit at most 20 kN")


# --- in a round -----------------------------------------------------------------------------------------------


@pytest.fixture
def two(rated: Register) -> Register:
    """A second sling at the same place, RS-04, whose record does not say what it may carry."""
    enter(rated, RATED.model_copy(update={"id": "rs-04", "tag": "RS-04", "working_load_limit": None}))
    return rated


def begin_a_round(ui: Driver) -> None:
    ui.tap("Start a round")
    ui.tap("slip")
    ui.tap("mate")
    ui.tap("Before a lift")


def inspect_next(ui: Driver) -> None:
    ui.tap(ui.page.foot.children[0])
    ui.good_to_the_end()
    ui.tap("Sign and log as mate")


def test_a_use_told_for_a_round_is_judged_for_each_item_inspected_in_it(
    two: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    begin_a_round(ui)
    ui.tap("Say what it will carry")
    assert "eye_length" not in rows(ui)
    tell_a_lift(ui, "1 0")
    ui.tap("That is all I can tell")
    inspect_next(ui)
    inspect_next(ui)
    ui.tap("All answered: is it ready?")
    assert ui.shows("NOT READY: 1 of 2 stops it: RS-04")
    assert ui.shows("Not for this use. ")
    ui.tap("Sign and log: NOT READY, as mate")
    (signed,) = two.rounds()
    assert signed.made.use == last_judgement(two).use == Use(load="10 kN", hitch="straight")
    assert [line.tag for line in signed.summary.stops] == ["RS-04"]
    assert ui.shows("The use told: Whole load: 10 kN; Hitch: straight.")


def test_a_use_told_after_an_item_was_inspected_is_judged_for_it_as_well(
    rated: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    begin_a_round(ui)
    inspect_next(ui)
    ui.tap("Is it ready?" if ui.shows("Next: ") else "All answered: is it ready?")
    assert ui.shows("READY: 1 item")
    ui.back()
    ui.tap("Say what it will carry")
    tell_a_lift(ui, "5 0")
    ui.tap("That is all I can tell")
    assert ui.shows("Stopped by: RS-03")
    ui.tap("All answered: is it ready?")
    assert ui.shows("NOT READY: 1 of 1 stops it: RS-03")
    assert last_judgement(rated).answer is Answer.SERVICEABLE


def test_a_lighter_load_told_later_lets_the_round_be_ready(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin_a_round(ui)
    ui.tap("Say what it will carry")
    tell_a_lift(ui, "5 0")
    ui.tap("That is all I can tell")
    inspect_next(ui)
    assert ui.shows("Stopped by: RS-03")
    ui.tap("Change what it will carry")
    tell_number(ui, "Whole load", "5")
    ui.tap("That is all I can tell")
    ui.tap("All answered: is it ready?")
    assert ui.shows("READY: 1 item")


def test_the_use_of_a_round_outlives_a_killed_app(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin_a_round(ui)
    ui.tap("Say what it will carry")
    tell_number(ui, "Whole load", "5 0")
    ui.__exit__()
    again = drive()
    again.tap("Go on with the round")
    assert again.shows("The use told: Whole load: 50 kN.")


def test_a_round_without_a_use_says_that_none_is_judged(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    begin_a_round(ui)
    inspect_next(ui)
    ui.tap("All answered: is it ready?")
    assert ui.shows("No use is told, so none is judged.")


def test_a_use_told_of_one_item_of_a_round_counts_beside_a_lighter_one_told_for_all(
    rated: Register, drive: Callable[..., Driver]
) -> None:
    ui = drive()
    begin_a_round(ui)
    ui.tap("Say what it will carry")
    tell_a_lift(ui, "5")
    ui.tap("That is all I can tell")
    ui.tap(ui.page.foot.children[0])
    ui.good_to_the_end()
    ui.tap("Change what it will carry")
    tell_number(ui, "Whole load", "5 0")
    ui.tap("That is all I can tell")
    ui.tap("Sign and log as mate")
    assert ui.shows("Stopped by: RS-03")
    ui.tap("All answered: is it ready?")
    assert ui.shows("NOT READY: 1 of 1 stops it: RS-03")
