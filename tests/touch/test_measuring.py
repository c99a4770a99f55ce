"""Measuring in a photograph by touches, in drawn scenes whose truth is known; what then stands in the record."""

import math
from collections.abc import Callable
from pathlib import Path

import pytest
from driver import Driver
from harbour import EXAMINER
from table import Table, table, write

from app.register import Register
from app.touch.screens.picture.measure import MeasurePage
from inspection_rules.words import Method

TWO_LEGS = table((397.0,), (400.0,))  # the tail leg's mark lies 3 mm nearer to the throat, at the left
Point = tuple[float, float]


@pytest.fixture
def examining(drive: Callable[..., Driver]) -> Driver:
    ui = drive()
    ui.app.person = EXAMINER
    return ui


def to_picture(ui: Driver, folder: Path, made: Table, ask: str = "Offset between", dark: bool = False) -> None:
    """Go to a reading and take the picture of the scene in for it."""
    write(folder / "pictures", made, dark=dark)
    ui.app.pictures_folder = folder / "pictures"
    ui.quiet()  # drawing it took long enough for the page to be read anew
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Periodic examination")
    ui.good_until("Offset between")
    if ask != "Offset between":
        ui.tap("More to look at here")
        ui.tap(ask)
    ui.tap("Picture")
    ui.tap("Choose picture files")
    ui.tap("throat.jpg")
    ui.tap("Take in 1 picture")


def to_measure(ui: Driver) -> None:
    ui.tap("Look near, measure, mark up")
    ui.tap("Measure in it")


def put(ui: Driver, point: Point, confirm: str) -> None:
    """Tap a pixel of the picture and confirm it."""
    board = ui.page.board
    ui.touch(board.to_window(*board.on_screen(point)))
    ui.quiet()
    ui.tap(confirm)


def put_corners(ui: Driver, made: Table, off: float = 6.0) -> None:
    for number, (x, y) in enumerate(made.corners, 1):
        put(ui, (x + off, y - off), f"Corner {number} is here")
    ui.quiet()


def put_offset(ui: Driver, made: Table, tail: float, standing: float) -> None:
    board = ui.page.board
    for point in (made.on_rope(0, tail), made.on_rope(1, standing), made.between(340), made.between(460)):
        board.larger()
        board._look(point)
        put(ui, point, "It is here")
        board.whole()
    ui.tap("Measure")


def result(ui: Driver) -> tuple[float, float]:
    assert isinstance(ui.page, MeasurePage)
    assert ui.page.result is not None, ui.texts()
    found = ui.page.result.found
    return found.length_mm, found.u_mm


def test_an_offset_in_a_drawn_scene_comes_within_three_u_of_its_truth(examining: Driver, tmp_path: Path) -> None:
    to_picture(examining, tmp_path, TWO_LEGS)
    to_measure(examining)
    put_corners(examining, TWO_LEGS)
    put_offset(examining, TWO_LEGS, 397.0, 400.0)
    length, u = result(examining)
    assert length == pytest.approx(-3.0, abs=3 * u)
    assert u < 2


def test_a_length_along_the_rope_comes_within_three_u_of_its_truth(examining: Driver, tmp_path: Path) -> None:
    made = table((370.0, 418.0))
    to_picture(examining, tmp_path, made, "Throat to the tail leg's mark")
    to_measure(examining)
    put_corners(examining, made)
    for number, along in enumerate((370.0, 418.0), 1):
        put(examining, made.on_rope(0, along), f"Point {number} is here")
    examining.tap("Measure")
    length, u = result(examining)
    assert length == pytest.approx(48.0, abs=3 * u)


def test_marks_that_are_proposed_become_the_ends_of_the_path(examining: Driver, tmp_path: Path) -> None:
    made = table((370.0, 418.0))
    to_picture(examining, tmp_path, made, "Throat to the tail leg's mark")
    to_measure(examining)
    put_corners(examining, made)
    for number, along in enumerate((352.0, 440.0), 1):
        put(examining, made.on_rope(0, along), f"Point {number} is here")
    examining.tap("Propose the marks")
    assert examining.shows("Two marks stand out")
    examining.tap("Measure")
    length, u = result(examining)
    assert length == pytest.approx(48.0, abs=3 * u)


def test_a_mark_that_stands_alone_is_shown_and_leaves_the_path_as_tapped(examining: Driver, tmp_path: Path) -> None:
    made = table((400.0,))
    to_picture(examining, tmp_path, made, "Throat to the tail leg's mark")
    to_measure(examining)
    put_corners(examining, made)
    for number, along in enumerate((370.0, 440.0), 1):
        put(examining, made.on_rope(0, along), f"Point {number} is here")
    tapped = list(examining.page.path)
    examining.tap("Propose the marks")
    assert examining.shows("Only one mark stands out along this path")
    assert examining.page.path == tapped
    (shown,) = examining.page.proposed
    assert math.dist(shown, made.on_rope(0, 400.0)) < 6


def test_it_is_taken_as_a_reading_with_its_method_doubt_and_picture(
    examining: Driver, tmp_path: Path, register: Register
) -> None:
    to_picture(examining, tmp_path, TWO_LEGS)
    to_measure(examining)
    put_corners(examining, TWO_LEGS)
    put_offset(examining, TWO_LEGS, 397.0, 400.0)
    length, u = result(examining)
    examining.tap("Take this as the reading")
    examining.say_the_state()
    examining.tap("Record")
    examining.keep_what_looks_odd()
    reading = register.drafts()[0].inspection.reading("A", "mark_offset")
    assert reading.method is Method.PHOTOGRAPH
    assert float(reading.values[0].to("mm")) == pytest.approx(length, abs=0.051)
    assert u <= float(reading.u.to("mm")) <= u + 0.1
    assert reading.u_study == "photograph, Blank card, 85.60 × 53.98 mm, first-order propagation"
    assert len(reading.pictures) == 1


def test_how_it_was_measured_is_kept_with_the_picture(examining: Driver, tmp_path: Path, register: Register) -> None:
    to_picture(examining, tmp_path, TWO_LEGS)
    to_measure(examining)
    put_corners(examining, TWO_LEGS)
    put_offset(examining, TWO_LEGS, 397.0, 400.0)
    examining.tap("Keep it in the picture only")
    inspection = register.drafts()[0].inspection
    (note,) = inspection.noted_pictures
    (marking,) = note.markings
    assert note.picture in set(inspection.all_pictures())
    assert (len(marking.points), len(marking.measured.card), len(marking.measured.along)) == (2, 4, 2)
    assert marking.measured.of == "mark_offset"
    assert marking.measured.edges_found


def test_a_card_without_edges_says_so_and_may_be_used_as_tapped_with_more_doubt(
    examining: Driver, tmp_path: Path
) -> None:
    to_picture(examining, tmp_path, TWO_LEGS, dark=True)
    to_measure(examining)
    put_corners(examining, TWO_LEGS, off=0.0)
    assert examining.shows("no edge stands out")
    examining.tap("Use the corners as I tapped them")
    put_offset(examining, TWO_LEGS, 397.0, 400.0)
    length, u = result(examining)
    assert length == pytest.approx(-3.0, abs=3 * u)
    assert examining.shows("its corners are as tapped")


def test_a_card_that_is_tilted_too_far_is_refused_in_a_sentence(examining: Driver, tmp_path: Path) -> None:
    made = table((397.0,), (400.0,), tilt=50.0, above=190.0)
    to_picture(examining, tmp_path, made)
    to_measure(examining)
    put_corners(examining, made)
    put_offset(examining, made, 397.0, 400.0)
    assert examining.shows("hold the camera above it")
    assert examining.page.result is None


def test_another_card_than_the_one_that_lies_there_is_refused(examining: Driver, tmp_path: Path) -> None:
    to_picture(examining, tmp_path, TWO_LEGS)
    to_measure(examining)
    examining.tap("What lies there")
    examining.tap("Sheet A4")
    put_corners(examining, TWO_LEGS)
    put_offset(examining, TWO_LEGS, 397.0, 400.0)
    assert examining.shows("another size of card")


def test_arrows_move_the_point_by_a_pixel(examining: Driver, tmp_path: Path) -> None:
    to_picture(examining, tmp_path, TWO_LEGS)
    to_measure(examining)
    examining.tap("Put the point in the middle")
    x, y = examining.page.board.pending
    examining.tap("Right")
    examining.tap("Up")
    assert examining.page.board.pending == (x + 1, y - 1)


def test_a_reading_by_rule_is_not_replaced_by_a_photograph(examining: Driver, tmp_path: Path) -> None:
    to_picture(examining, tmp_path, TWO_LEGS)
    examining.back()
    examining.tap("Type ")
    examining.say_the_state()
    examining.number("2")
    examining.tap("Record")
    examining.back()
    examining.tap("Picture")
    to_measure(examining)
    put_corners(examining, TWO_LEGS)
    put_offset(examining, TWO_LEGS, 397.0, 400.0)
    assert examining.shows("that reading stands")
    assert not any(getattr(one, "text", "") == "Take this as the reading" for one in examining.widgets())


def test_a_photograph_gives_way_to_a_reading_by_hand_and_stays_in_the_record(
    examining: Driver, tmp_path: Path, register: Register
) -> None:
    to_picture(examining, tmp_path, TWO_LEGS)
    to_measure(examining)
    put_corners(examining, TWO_LEGS)
    put_offset(examining, TWO_LEGS, 397.0, 400.0)
    examining.tap("Take this as the reading")
    examining.say_the_state()
    examining.tap("Record")
    examining.keep_what_looks_odd()
    examining.back()
    examining.tap("Type ")
    examining.tap("Read it by hand instead")
    examining.number("2")
    examining.tap("Record")
    examining.keep_what_looks_odd()
    reading = register.drafts()[0].inspection.reading("A", "mark_offset")
    assert (reading.method, reading.u, len(reading.dropped)) == (Method.STEEL_RULE, None, 1)


def taken_as_reading(ui: Driver, folder: Path) -> None:
    """Measure the offset in a picture, and come to the keypad with it."""
    to_picture(ui, folder, TWO_LEGS)
    to_measure(ui)
    put_corners(ui, TWO_LEGS)
    put_offset(ui, TWO_LEGS, 397.0, 400.0)
    ui.tap("Take this as the reading")


def has(ui: Driver, text: str) -> bool:
    return any(getattr(one, "text", "") == text for one in ui.widgets())


def test_a_second_reading_beside_a_photograph_is_never_typed(examining: Driver, tmp_path: Path) -> None:
    taken_as_reading(examining, tmp_path)
    examining.say_the_state()
    examining.tap("Record")
    examining.keep_what_looks_odd()
    assert examining.shows("a number that is typed is not")
    assert not has(examining, "Record")
    assert has(examining, "Read it by hand instead")


def test_a_number_typed_over_what_a_picture_gave_is_not_recorded_as_a_photograph(
    examining: Driver, tmp_path: Path, register: Register
) -> None:
    taken_as_reading(examining, tmp_path)
    examining.say_the_state()
    examining.number("2")
    examining.tap("Record")
    assert examining.shows("The picture gave -")
    assert register.drafts()[0].inspection.reading("A", "mark_offset") is None


def test_what_a_picture_gave_is_not_left_on_the_keypad_as_if_typed(examining: Driver, tmp_path: Path) -> None:
    taken_as_reading(examining, tmp_path)
    examining.back()
    examining.tap("Type ")
    assert examining.page.pad.value.empty


def test_a_photograph_is_no_method_of_a_typed_reading(examining: Driver, tmp_path: Path) -> None:
    to_picture(examining, tmp_path, TWO_LEGS)
    examining.back()
    examining.tap("Type ")
    examining.say_the_state()
    examining.tap("steel rule")
    assert examining.shows("How is it read?")
    assert not examining.shows("photograph")


def test_a_length_that_is_too_uncertain_is_kept_in_the_picture_only(
    examining: Driver, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.touch.screens.picture.measure.height_of", lambda _item: None)
    monkeypatch.setattr("app.photos.exif.focal_35_of", lambda _exif: None)
    made = table((340.0, 440.0))
    to_picture(examining, tmp_path, made, "Throat to the tail leg's mark")
    to_measure(examining)
    put_corners(examining, made)
    for number, along in enumerate((340.0, 440.0), 1):
        put(examining, made.on_rope(0, along), f"Point {number} is here")
    examining.tap("Measure")
    length, u = result(examining)
    assert length == pytest.approx(100.0, abs=3 * u)
    assert examining.shows("too uncertain for a reading")
    assert not has(examining, "Take this as the reading")
    assert has(examining, "Keep it in the picture")
