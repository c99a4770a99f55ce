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
from inspection_rules.judge import judge
from inspection_rules.record import Item
from inspection_rules.words import Answer, InspectionKind

TAGGED = TUCKED.model_copy(
    update={"id": "rs-03", "tag": "RS-03", "description": "", "place": "slip"}
)
RATED = Item.model_validate({**TAGGED.model_dump(mode="json"), "working_load_limit": "20 kN", "breaking_force": "160 kN",
                             "breaking_spliced": True})  # fmt: skip


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


def last_judgement(register: Register, item: str = "rs-03"):
    return register.judged(item)[-1].judgement


# --- asking ---------------------------------------------------------------------------------------------------------


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


def test_a_use_that_nothing_speaks_against_says_what_was_not_told(rated: Register, drive: Callable[..., Driver]) -> None:
    ui = drive()
    to_the_use(ui)
    tell_a_lift(ui, "5")
    ui.tap("That is all I can tell")
    assert not ui.shows("NOT FOR THIS USE")
    assert ui.shows("The use told: nothing in the rules speaks against it")
    assert ui.shows("Not told, so not judged: What the eye bears on, ")
