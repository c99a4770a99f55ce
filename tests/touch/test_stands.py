"""What an item's page and the lists say of what is not here, and of what was released; and the way to examine it."""

from collections.abc import Callable, Iterator
from datetime import timedelta

import pytest
from driver import Driver
from harbour import BURIED, EXAMINER, MATE, NOW, sound

from app.register import Register, new_id
from app.touch.application import ThroatmarkApp
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.item.item import ItemPage
from app.touch.screens.records.decide import ExaminePage
from app.touch.widgets.buttons import AnswerButton, RowButton, SignView
from app.touch.widgets.card import Card
from app.touch.wording import NOT_YET
from inspection_rules.book import shipped
from inspection_rules.events import Decision, Placed, Reference
from inspection_rules.judge import judge
from inspection_rules.quantity import parse
from inspection_rules.record import Finding, Person
from inspection_rules.words import DecisionKind, InspectionKind, Seen, Where

TODAY = NOW.date()
LOST = "sling loft, bin 3"
UNTIL = TODAY + timedelta(days=7)


def put(register: Register, where: Where, note: str = "", item: str = "rs-01") -> None:
    register.log_placed(Placed(id=new_id(), item=item, at=NOW - timedelta(hours=1), by=MATE, where=where, note=note))


def stop(register: Register) -> None:
    """Chafe in an eye of RS-01: a hold."""
    look = sound(BURIED, InspectionKind.BEFORE_USE, NOW - timedelta(hours=2), by=MATE)
    seen = Finding(part="A", observation="eye_bearing", seen=Seen.PRESENT, conditions=("chafed",))
    others = [one for one in look.findings if (one.part, one.observation) != ("A", "eye_bearing")]
    look = look.model_copy(update={"findings": (*others, seen)})
    register.log_inspection(look, judge(register.case(look, on=look.on), shipped()))


def slip(register: Register, hours: int = 2, offset: str = "20 mm") -> None:
    """The marks at end A of RS-01 are found that far apart, by the examiner: no look ends what that stops."""
    look = sound(BURIED, InspectionKind.PERIODIC, NOW - timedelta(hours=hours))
    readings = tuple(
        one.model_copy(update={"values": tuple(parse(offset) for _ in one.values)})
        if (one.part, one.observation) == ("A", "mark_offset")
        else one
        for one in look.readings
    )
    look = look.model_copy(update={"readings": readings})
    register.log_inspection(look, judge(register.case(look, on=look.on), shipped()))


def release(register: Register, item: str) -> None:
    may = register.may_be_released(item, TODAY)
    register.log_decision(
        Decision(
            id=new_id(), item=item, at=NOW - timedelta(hours=1), by=EXAMINER, kind=DecisionKind.RELEASE,
            examined=tuple(
                Reference(inspection=one.inspection, rule=one.ruling.rule, part=one.ruling.part) for one in may
            ),
            reason="opened, looked at along its length", until=UNTIL,
        )
    )  # fmt: skip


@pytest.fixture
def show() -> Iterator[Callable[..., Driver]]:
    """Open an item's page, with this person at work."""
    running: list[Driver] = []

    def start(register: Register, tag: str = "RS-01", person: Person = MATE) -> Driver:
        register.set_people([person, *(one for one in (EXAMINER, MATE) if one != person)])
        driver = Driver(ThroatmarkApp(register, now=lambda: NOW + timedelta(minutes=5)), (412, 892))
        running.append(driver)
        driver.__enter__()
        driver.app.show_item(register.find(tag, on=TODAY)[0].id)
        driver.quiet()
        driver.until(lambda: not driver.page._coming)
        driver.quiet()
        return driver

    yield start
    for driver in running:
        driver.__exit__()


def cards(ui: Driver) -> list[Card]:
    """The page's cards from the top down."""
    found = [one for one in ui.widgets() if isinstance(one, Card)]
    return sorted(found, key=lambda card: -card.to_window(*card.pos)[1])


# --- what is not here --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("where", "heading"),
    [
        (Where.NOT_FOUND, "Not found since 12 Oct 2050"),
        (Where.ASHORE, "Ashore since 12 Oct 2050"),
        (Where.ON_LOAN, "On loan since 12 Oct 2050"),
    ],
)
def test_the_page_of_what_is_not_here_is_headed_by_where_it_is_without_a_tick(
    where: Where, heading: str, register: Register, show: Callable[..., Driver]
) -> None:
    put(register, where)
    card = cards(show(register))[0]
    assert (card.title, card.answer) == (heading, NOT_YET)


def test_no_station_of_what_is_not_here_has_a_tick(register: Register, show: Callable[..., Driver]) -> None:
    put(register, Where.NOT_FOUND)
    ui = show(register)
    assert {ui.sign("A", "eye"), ui.sign("B", "eye"), ui.sign("body", "body")} == {""}


def test_no_station_of_what_must_not_be_used_has_a_tick(register: Register, show: Callable[..., Driver]) -> None:
    stop(register)
    ui = show(register)
    assert (ui.sign("A", "eye"), ui.sign("B", "eye"), ui.sign("body", "body")) == ("hold", "", "")


def test_the_last_answer_of_what_is_not_here_is_told_in_a_plain_line(
    register: Register, show: Callable[..., Driver]
) -> None:
    put(register, Where.NOT_FOUND)
    lines = cards(show(register))[0].lines
    assert any(line.startswith("Its last answer: serviceable, next examination by ") for line in lines)


def test_where_it_was_looked_for_is_not_told_as_where_it_lies(register: Register, show: Callable[..., Driver]) -> None:
    put(register, Where.NOT_FOUND, LOST)
    assert f"Not found; looked for in: {LOST}." in cards(show(register))[0].lines


def test_the_page_says_who_missed_it(register: Register, show: Callable[..., Driver]) -> None:
    put(register, Where.NOT_FOUND, LOST)
    assert "Missed by mate · user." in cards(show(register))[0].lines


def test_looking_at_it_is_the_way_to_find_it_and_is_no_main_button(
    register: Register, show: Callable[..., Driver]
) -> None:
    put(register, Where.NOT_FOUND)
    ui = show(register)
    assert ui.shows("Found? Say where it is, and look at it before use.")
    assert isinstance(ui.button("Before use"), AnswerButton)
    ui.tap("Before use")
    assert isinstance(ui.page, InspectPage)


def test_what_is_stopped_and_not_here_is_headed_do_not_use(register: Register, show: Callable[..., Driver]) -> None:
    stop(register)
    put(register, Where.NOT_FOUND, LOST)
    first, second = cards(show(register))[:2]
    assert (first.title, first.answer) == ("DO NOT USE", "hold")
    assert (second.title, second.answer) == ("Not found since 12 Oct 2050", "")


def test_today_shows_what_was_not_found_without_a_tick(register: Register, show: Callable[..., Driver]) -> None:
    put(register, Where.NOT_FOUND)
    ui = show(register)
    ui.app.stack.home()
    ui.quiet()
    row = next(one for one in ui.widgets() if isinstance(one, RowButton) and one.key == "rs-01")
    sign = next(one for one in row.walk() if isinstance(one, SignView))
    assert sign.figure.name == "not yet"
    assert row.line.startswith("Not found · its last answer: serviceable · examination by ")


def test_the_list_shows_what_was_not_found_without_a_tick(register: Register, show: Callable[..., Driver]) -> None:
    put(register, Where.NOT_FOUND)
    ui = show(register)
    ui.app.stack.home()
    ui.quiet()
    ui.tap("All items")
    row = ui.page.ids.list.data[0]
    assert (row["answer"], row["line"]) == (NOT_YET, "Not found · its last answer: serviceable")


def test_a_round_says_where_a_missing_item_was_looked_for(register: Register, show: Callable[..., Driver]) -> None:
    ui = show(register)
    ui.app.stack.home()
    ui.quiet()
    ui.tap("Start a round")
    ui.tap("quay yard")
    ui.tap("mate")
    ui.tap("Before a climb")
    ui.tap("RS-01")
    ui.tap("Not found")
    ui.tap(ui.page.field)
    ui.type(LOST)
    ui.tap("Keep: not found")
    row = next(one for one in ui.widgets() if isinstance(one, RowButton) and one.key == "rs-01")
    assert row.line.startswith(f"Not found; looked for in: {LOST}")


# --- what was released -------------------------------------------------------------------------------------------


def test_the_card_names_what_was_released_by_whom_and_when(register: Register, show: Callable[..., Driver]) -> None:
    slip(register)
    release(register, "rs-01")
    lines = cards(show(register))[0].lines
    assert (
        "Released: Slip of the tail at end A, until 19 Oct 2050, by yard examiner · competent person on 12 Oct 2050."
        in lines
    )


def test_the_chart_of_a_number_that_was_released_says_so(register: Register, show: Callable[..., Driver]) -> None:
    slip(register)
    release(register, "rs-01")
    ui = show(register)
    chart = next(one for one in cards(ui) if one.title.startswith("This number: "))
    assert chart.title == "This number: hold, released until 19 Oct 2050"
    assert chart.lines[0] == "Released by yard examiner · competent person on 12 Oct 2050, until 19 Oct 2050."


def test_the_part_that_was_released_says_so_beside_the_ruling(register: Register, show: Callable[..., Driver]) -> None:
    slip(register)
    release(register, "rs-01")
    ui = show(register)
    ui.tap(ui.station("A", "eye"))
    found = next(one for one in cards(ui) if one.title == "Slip of the tail · end A")
    assert found.lines[0].startswith("Released by yard examiner · competent person on 12 Oct 2050")


def test_a_number_found_beyond_its_limit_after_a_release_is_not_called_released(
    register: Register, show: Callable[..., Driver]
) -> None:
    slip(register)
    release(register, "rs-01")
    slip(register, hours=0)
    ui = show(register)
    chart = next(one for one in cards(ui) if one.title.startswith("This number: "))
    assert chart.title == "This number: hold: refer to a competent person"


# --- examining, and what is seen after it ------------------------------------------------------------------------


def test_who_may_examine_what_stops_it_finds_the_way_on_its_page(
    register: Register, show: Callable[..., Driver]
) -> None:
    stop(register)
    ui = show(register, person=EXAMINER)
    ui.tap("Examine what keeps it out of use")
    assert isinstance(ui.page, ExaminePage)


def test_who_may_not_examine_it_is_not_offered_to(register: Register, show: Callable[..., Driver]) -> None:
    stop(register)
    with pytest.raises(LookupError):
        show(register, person=MATE).button("Examine what keeps it out of use")


def test_what_is_not_stopped_is_not_to_be_examined(register: Register, show: Callable[..., Driver]) -> None:
    with pytest.raises(LookupError):
        show(register, person=EXAMINER).button("Examine what keeps it out of use")


def test_after_a_record_is_signed_the_top_of_the_item_is_seen(register: Register, show: Callable[..., Driver]) -> None:
    ui = show(register)
    ui.bring([one for one in ui.widgets() if isinstance(one, RowButton)][-1])  # the person has read its past
    ui.tap("What else happened to it?")
    ui.tap("Where is it?")
    ui.tap("Not found")
    ui.tap("Go on")
    ui.tap("Sign and log as mate · user")
    ui.until(lambda: not ui.page._coming)
    ui.quiet()
    assert isinstance(ui.page, ItemPage)
    head = cards(ui)[0]
    assert head.title == "Not found since 12 Oct 2050"
    assert head.to_window(head.x, head.top)[1] <= ui.page.ids.scroll.top
