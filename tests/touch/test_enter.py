"""Entering items by touches: from a blank, like one that is there, from a list."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from driver import Driver
from harbour import EXAMINER, MATE, NOW

from app.item_list import template
from app.register import Register
from app.touch.screens.enter import keeping
from app.touch.screens.enter.confirm import ConfirmPage, EnteredPage
from app.touch.screens.enter.enter import EnterPage
from app.touch.screens.enter.layout import LayoutPage, inches
from app.touch.screens.enter.questions import without
from app.touch.screens.inspect.inspect import InspectPage
from inspection_rules.item import Item
from inspection_rules.quantity import parse
from inspection_rules.words import Answer, Construction, Fibre, FittingKind, InspectionKind, SpliceKind


@pytest.fixture
def start(register: Register, drive: Callable[..., Driver]) -> Callable[..., Driver]:
    """Start the app with the page for new items open."""
    register.set_people([EXAMINER, MATE])

    def begin(size: tuple[int, int] = (412, 892)) -> Driver:
        ui = drive(size)
        ui.app.stack.push(EnterPage(ui.app.services, ui.app))
        ui.quiet()
        return ui

    return begin


def say_it(ui: Driver, text: str) -> None:
    """Type words and go on."""
    ui.tap(ui.page.field)
    ui.type(text)
    ui.tap("Go on")


def number(ui: Driver, keys: str) -> None:
    """Type a number and take it."""
    ui.number(keys)
    ui.tap("Take this number")


def sling_to_its_length(ui: Driver, named_by: str = "Nominal diameter", keys: str = "2 4", unit: str = "") -> None:
    """Say what a two-eye HMPE sling is, as far as its length."""
    ui.tap("From a blank")
    for word in ("Rope sling", "Lifting", "HMPE", "Hollow braid, twelve-strand", named_by):
        ui.tap(word)
    if unit:
        ui.tap(unit)
    number(ui, keys)
    number(ui, "6")


def end_a(ui: Driver) -> None:
    """Say how its end A is made."""
    for word in ("Buried eye", "None", "Yes", "No"):
        ui.tap(word)
    number(ui, "1 7 2 8")
    say_it(ui, "the splice's own instruction, sheet 2")
    number(ui, "4 8")


def made_on(ui: Driver, day: str) -> None:
    """Type a date and take it."""
    ui.tap(ui.page.field)
    ui.type(day)
    ui.tap("Take what I typed")


def two_eye_sling(ui: Driver, tag: str = "RS-14", **size: str) -> None:
    """Say everything of a two-eye HMPE sling, to the page that shows it."""
    sling_to_its_length(ui, **size)
    number(ui, "6 0")
    end_a(ui)
    ui.tap("The same as end A")
    ui.tap("Nothing hangs on it")
    made_on(ui, "2050-01-10")
    ui.tap("Not used yet, or not known")
    say_it(ui, tag)
    say_it(ui, "quay lifting sling")
    ui.tap("quay yard")
    ui.tap("Normal")
    assert isinstance(ui.page, ConfirmPage)


def entered(register: Register, tag: str) -> Item:
    """The item with this tag."""
    (row,) = [row for row in register.find(tag) if row.tag == tag]
    return register.item(row.id)


# --- from a blank ----------------------------------------------------------------------------------------------


def test_a_two_eye_sling_from_a_blank_to_its_record_as_made(start: Callable[..., Driver], register: Register) -> None:
    ui = start()
    two_eye_sling(ui)
    ui.tap("Enter it as yard examiner · competent person")
    assert isinstance(ui.page, EnteredPage)
    item = entered(register, "RS-14")
    assert (item.place, item.length, item.working_load_limit) == ("quay yard", parse("6 m"), parse("60 kN"))
    assert [(one.end, one.splice, one.lock_stitched, one.required_bury) for one in item.terminations] == [
        (end, SpliceKind.BURIED_EYE, True, parse("1728 mm")) for end in "AB"
    ]
    ui.tap("Made here, by its splicer: record it as made")
    assert isinstance(ui.page, InspectPage)
    assert ui.page.visit.inspection.kind is InspectionKind.AS_MADE


def test_a_web_sling_is_asked_nothing_of_a_rope(start: Callable[..., Driver], register: Register) -> None:
    ui = start()
    ui.tap("From a blank")
    asked = []

    def tap(text: str) -> None:
        asked.append(ui.page.heading)
        ui.tap(text)

    for word in ("Web sling", "Lifting", "Polyester"):
        tap(word)
    for keys in ("6 0", "7", "4", "2 0"):
        asked.append(ui.page.heading)
        number(ui, keys)
    tap("Sewn eye")
    tap("No")
    tap("The same as end A")
    tap("Hook")
    number(ui, "2 4")
    tap("Not known")
    tap("Nothing else hangs on it")
    tap("Not known")
    tap("Not used yet, or not known")
    say_it(ui, "WS-09")
    tap("No name of its own")
    tap("No place of its own")
    tap("Normal")
    ui.tap("Enter it as ")
    item = entered(register, "WS-09")
    assert item.construction is Construction.WEBBING
    assert [part.fitting for part in item.parts if part.fitting] == [FittingKind.HOOK]
    assert not {"How is the rope made?", "Nominal diameter", "Which thimble has it?"} & set(asked)


def test_only_the_splices_of_a_construction_are_offered(start: Callable[..., Driver]) -> None:
    ui = start()
    ui.tap("From a blank")
    for word in ("Line", "Towing", "Polyester", "Laid, three-strand", "Nominal diameter"):
        ui.tap(word)
    number(ui, "2 4")
    number(ui, "1 2")
    assert ui.shows("Tucked eye")
    assert not ui.shows("Buried eye")


def test_an_unlikely_bury_is_asked_about_and_may_be_kept(start: Callable[..., Driver]) -> None:
    ui = start()
    sling_to_its_length(ui)
    number(ui, "6 0")
    for word in ("Buried eye", "None", "Yes", "No"):
        ui.tap(word)
    number(ui, "1 7 2")
    assert ui.shows("172 mm is 7.2 times the nominal diameter; an instruction seldom asks for less than 20.")
    ui.tap("It is right: keep it")
    assert ui.page.heading == "By which instruction?"


def test_what_was_typed_wrong_is_typed_again(start: Callable[..., Driver]) -> None:
    ui = start()
    ui.tap("From a blank")
    for word in ("Rope sling", "Lifting", "HMPE", "Hollow braid, twelve-strand", "Nominal diameter"):
        ui.tap(word)
    number(ui, "2 4")
    number(ui, "0")
    assert ui.shows("0 m is nothing at all.")
    ui.tap("No: say it again")
    ui.tap("erase")
    number(ui, "6")
    assert ui.page.heading == "What may one leg carry straight?"


def test_a_tag_that_is_there_already_is_asked_about(start: Callable[..., Driver]) -> None:
    ui = start()
    sling_to_its_length(ui)
    number(ui, "6 0")
    end_a(ui)
    ui.tap("The same as end A")
    ui.tap("Nothing hangs on it")
    ui.tap("Not known")
    ui.tap("Not used yet, or not known")
    say_it(ui, "RS-01")
    ui.tap("No name of its own")
    ui.tap("quay yard")
    assert ui.shows("The tag RS-01 is in the register already at the same place")


def test_an_answer_is_changed_from_the_page_that_shows_all(start: Callable[..., Driver], register: Register) -> None:
    ui = start()
    two_eye_sling(ui)
    ui.tap("Length")
    number(ui, "8")
    assert isinstance(ui.page, ConfirmPage)
    ui.tap("Enter it as ")
    assert entered(register, "RS-14").length == parse("8 m")


def test_another_construction_asks_the_splices_anew(start: Callable[..., Driver]) -> None:
    ui = start()
    two_eye_sling(ui)
    ui.tap("Construction")
    ui.tap("Laid, three-strand")
    assert (ui.page.heading, ui.page.under) == ("How is it made?", "End A")


def test_what_was_left_out_of_an_end_is_asked_of_its_new_splice(start: Callable[..., Driver]) -> None:
    ui = start()
    sling_to_its_length(ui)
    number(ui, "6 0")
    for word in ("Buried eye", "None", "Yes", "No", "Its instruction gives none", "It has no marks"):
        ui.tap(word)
    ui.tap("The same as end A")
    while (ui.page.heading, ui.page.under) != ("How is it made?", "End A"):
        ui.back()
    ui.tap("Tuck-and-bury eye")
    assert ui.page.heading == "Which bury must it have?"


def test_what_was_said_survives_the_program(start: Callable[..., Driver]) -> None:
    ui = start()
    sling_to_its_length(ui)
    ui.app.stack.home()
    ui.app.stack.push(EnterPage(ui.app.services, ui.app))
    ui.quiet()
    ui.tap("Go on with the one that was begun")
    assert ui.page.heading == "What may one leg carry straight?"


def test_what_was_thrown_away_is_not_offered_again(start: Callable[..., Driver], register: Register) -> None:
    ui = start()
    two_eye_sling(ui)
    ui.tap("Throw it away")
    ui.tap("Throw it away")
    assert isinstance(ui.page, EnterPage)
    assert not ui.shows("Go on with")
    assert not register.find("RS-14")


def test_the_layout_it_should_have_is_shown_before_it_is_entered(start: Callable[..., Driver]) -> None:
    ui = start()
    two_eye_sling(ui)
    ui.tap("The layout it should have · End A")
    assert isinstance(ui.page, LayoutPage)
    assert ui.shows("1728 mm (68 1/16 in)")


@pytest.mark.parametrize(
    ("mm", "written"), [("25.4", "1 in"), ("1728", "68 1/16 in"), ("12.7", "1/2 in"), ("0.1", "0 in")]
)
def test_a_length_in_inches_is_written_to_the_sixteenth(mm: str, written: str) -> None:
    """1728 / 25.4 = 68.0315, above 68.03125, so nearer to 68 1/16 than to 68."""
    assert inches(Fraction(mm)) == written


def to_the_date(start: Callable[..., Driver]) -> Driver:
    """Begin an item like another one, as far as the day it was made."""
    ui = start()
    ui.tap("Like an item that is there")
    ui.tap("RS-01 · quay lifting sling")
    ui.tap("The same: 6 m")
    return ui


def test_no_date_is_offered_that_nobody_has_set(start: Callable[..., Driver]) -> None:
    ui = to_the_date(start)
    assert ui.page.heading == "When was it made?"
    with pytest.raises(LookupError):
        ui.button("It was on ")
    ui.tap("Set the date first")
    assert ui.page.heading == "When was it made?"
    assert ui.shows("Step to the year, the month and the day, or type the date.")


def test_a_date_that_was_stepped_to_is_offered(start: Callable[..., Driver]) -> None:
    ui = to_the_date(start)
    ui.tap("−")
    assert ui.button("It was on 12 Oct 2049")


def test_a_date_being_typed_is_offered_and_no_more_once_it_is_wiped_out(start: Callable[..., Driver]) -> None:
    ui = to_the_date(start)
    ui.tap(ui.page.field)
    ui.type("2049-03-02")
    assert ui.button("Take what I typed")
    ui.page.field.text = ""
    ui.quiet()
    with pytest.raises(LookupError):
        ui.button("Take what I typed")


# --- like one that is there ------------------------------------------------------------------------------------


def test_an_item_of_a_fibre_that_is_not_known_is_entered_and_not_passed(
    start: Callable[..., Driver], register: Register
) -> None:
    ui = start()
    ui.tap("From a blank")
    for word in ("Roundsling", "Lifting", "Not known"):
        ui.tap(word)
    for _ in range(12):
        if isinstance(ui.page, ConfirmPage):
            break
        if ui.page.heading == "What stands on its tag?":
            say_it(ui, "RO-1")
        elif ui.page.heading == "How hard is its service?":
            ui.tap("Normal")
        else:
            ui.tap(without(ui.page.name_asked))
    ui.tap("Enter it as ")
    assert entered(register, "RO-1").fibre is Fibre.NOT_KNOWN
    assert register.standing(entered(register, "RO-1").id, NOW.date()).answer is Answer.HOLD


def test_a_copy_asks_only_what_differs(start: Callable[..., Driver], register: Register) -> None:
    ui = start()
    ui.tap("Like an item that is there")
    ui.tap("RS-01 · quay lifting sling")
    ui.tap("The same: 6 m")
    made_on(ui, "2050-01-10")
    ui.tap("Not used yet, or not known")
    say_it(ui, "RS-15")
    ui.tap("quay yard")
    assert isinstance(ui.page, ConfirmPage)
    ui.tap("Enter it as ")
    old, new = register.item("rs-01"), entered(register, "RS-15")
    assert new.parts == old.parts
    assert (new.diameter, new.description, new.place) == (old.diameter, old.description, old.place)
    assert new.id != old.id


# --- from a list -----------------------------------------------------------------------------------------------


@pytest.fixture
def lists(tmp_path: Path) -> Path:
    """A folder with a list of two good rows and a bad one, and with one that is no text."""
    head, row = template().splitlines()
    folder = tmp_path / "lists"
    folder.mkdir()
    rows = (row, row.replace("RS-14", "RS-15"), row.replace("RS-14", "RS-16").replace("24 mm", "24"))
    (folder / "slings.csv").write_text("\n".join((head, *rows)), encoding="utf-8")
    (folder / "photo.csv").write_bytes(b"\x89PNG\0\0")
    return folder


def test_a_list_is_read_first_and_its_good_rows_are_entered(
    start: Callable[..., Driver], register: Register, lists: Path
) -> None:
    ui = start()
    ui.app.pictures_folder = lists
    ui.tap("From a list (CSV)")
    ui.tap("slings.csv")
    assert ui.shows("2 of 3 rows can be entered")
    assert ui.shows("diameter: '24' has no unit")
    assert not register.find("RS-14")
    ui.tap("I leave out the 1 row that cannot")
    ui.tap("Enter the 2 good ones as yard examiner · competent person")
    assert ui.shows("2 items were entered.")
    assert [row.tag for row in register.find()] == ["RS-01", "RS-02", "RS-14", "RS-15"]


def test_a_file_that_is_no_list_says_so(start: Callable[..., Driver], lists: Path) -> None:
    ui = start()
    ui.app.pictures_folder = lists
    ui.tap("From a list (CSV)")
    ui.tap("photo.csv")
    assert ui.shows("save the list as CSV in UTF-8, not as a workbook.")


# --- what is kept meanwhile ------------------------------------------------------------------------------------


def test_every_answer_is_on_the_disk_before_the_next_question(start: Callable[..., Driver], folder: Path) -> None:
    ui = start()
    ui.tap("From a blank")
    ui.tap("Rope sling")
    begun = keeping.read(folder)
    assert begun is not None
    assert begun.said == {"kind": "rope sling"}


@pytest.mark.parametrize("kept", ["", "[]", "{", '{"said": 4}', '{"said": {"colour": "blue"}}', '{"said": {"tag": 4}}'])
def test_a_draft_that_cannot_be_used_is_none(tmp_path: Path, kept: str) -> None:
    (tmp_path / keeping.FILE).write_text(kept, encoding="utf-8")
    assert keeping.read(tmp_path) is None


def test_what_was_entered_is_forgotten(start: Callable[..., Driver], folder: Path) -> None:
    ui = start()
    two_eye_sling(ui)
    ui.tap("Enter it as ")
    assert keeping.read(folder) is None


def test_a_circumference_is_told_by_the_trade_table(start: Callable[..., Driver]) -> None:
    """3 in nominal circumference is 1 in nominal diameter in the trade table."""
    ui = start()
    two_eye_sling(ui, named_by="Nominal circumference", keys="3", unit="mm | in")
    assert ui.shows("a nominal diameter of 25.4 mm (1 in)")
