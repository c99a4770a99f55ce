"""Photographs by touches: their view, what is laid over them, and an earlier one of the same view held against them."""

import hashlib
import io
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest
from driver import Driver
from harbour import BURIED, EXAMINER, NOW, sound
from PIL import Image, ImageStat
from table import Table, jpeg, table, write

from app.photos import intake
from app.photos.exif import chosen_exif, place_of
from app.register import Register, RegisterError
from app.touch.screens.item.photos import ShotButton
from app.touch.screens.picture.compare import ComparePage
from app.touch.widgets.thumbnail import Thumbnail
from inspection_rules.book import shipped
from inspection_rules.judge import judge
from inspection_rules.pictures import PictureNote
from inspection_rules.words import InspectionKind, MarkingKind, View

THEN = table((400.0,), (400.0,))
NOW_SEEN = table((397.0,), (400.0,), tilt=6.0, above=320.0)


@pytest.fixture
def past(register: Register) -> Register:
    """A picture of eye A's throat, taken a fortnight ago."""
    photo = intake(jpeg(THEN), "then.jpg")
    register.keep_photo(photo)
    look = sound(BURIED, InspectionKind.PERIODIC, NOW - timedelta(days=14))
    note = PictureNote(picture=photo.sha256, part="A", view=View.THROAT)
    look = look.model_copy(update={"pictures": (photo.sha256,), "noted_pictures": (note,)})
    register.log_inspection(look, judge(register.case(look, on=look.on), shipped()))
    return register


def to_photographs(ui: Driver, folder: Path, made: Table | None = NOW_SEEN) -> None:
    """Take a picture in for the marks of eye A; None takes the one that lies there."""
    if made is not None:
        write(folder / "pictures", made)
    ui.app.person = EXAMINER
    ui.app.pictures_folder = folder / "pictures"
    ui.quiet()  # drawing it took long enough for the page to be read anew
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Periodic examination")
    ui.good_until("Offset between")
    ui.tap("Picture")
    ui.tap("Choose picture files")
    ui.tap("throat.jpg")
    ui.tap("Take in 1 picture")


def to_picture(ui: Driver, folder: Path, made: Table = NOW_SEEN) -> None:
    to_photographs(ui, folder, made)
    ui.tap("Look near, measure, mark up")


def touch(ui: Driver, *points: tuple[float, float], board: object = None) -> None:
    on = board or ui.page.board
    ui.touch(*(on.to_window(*on.on_screen(point)) for point in points))
    ui.quiet()


def blue(ui: Driver, folder: Path) -> float:
    """How much blue, of 255, is in the middle of the picture on the screen."""
    ui.frames(3)
    board = ui.page.board
    x, y = board.to_window(*board.center)
    with Image.open(ui.screenshot(folder / "night.png")) as seen:
        middle = seen.convert("RGB").crop(
            (int(x) - 60, int(seen.height - y) - 60, int(x) + 60, int(seen.height - y) + 60)
        )
    return ImageStat.Stat(middle).mean[2]


def note(register: Register) -> PictureNote:
    return register.drafts()[0].inspection.noted_pictures[0]


def test_a_picture_of_the_marks_is_one_of_the_throat_unless_told_otherwise(
    ui: Driver, tmp_path: Path, register: Register
) -> None:
    to_photographs(ui, tmp_path)
    assert (note(register).part, note(register).view) == ("A", View.THROAT)


def test_another_view_can_be_said_of_a_picture(ui: Driver, tmp_path: Path, register: Register) -> None:
    to_picture(ui, tmp_path)
    ui.tap("View: ")
    ui.tap("Lock stitching")
    assert note(register).view is View.LOCK


def test_an_arrow_is_kept_as_data_and_not_in_the_picture(ui: Driver, tmp_path: Path, register: Register) -> None:
    to_picture(ui, tmp_path)
    before = register.picture(note(register).picture)
    ui.tap("Mark it up")
    ui.tap("Arrow")
    touch(ui, (500, 500))
    ui.tap("It is here")
    touch(ui, (900, 700))
    ui.tap("It is here")
    (marking,) = note(register).markings
    assert marking.kind is MarkingKind.ARROW
    assert [round(x / 10_000 * 2016, -1) for x, _ in marking.points] == [500, 900]
    assert register.picture(note(register).picture) == before


def test_a_line_by_hand_follows_the_finger(ui: Driver, tmp_path: Path, register: Register) -> None:
    to_picture(ui, tmp_path)
    ui.tap("Mark it up")
    ui.tap("Line by hand")
    touch(ui, (400, 400), (600, 500), (800, 450), (1000, 700))
    (marking,) = note(register).markings
    assert (marking.kind, len(marking.points)) == (MarkingKind.FREEHAND, 4)


HARBOUR = (57.123456, -3.5)  # north and west, invented


def taken_in(ui: Driver, folder: Path) -> Driver:
    """Take in a picture that says where it was taken."""
    made = write(folder / "pictures", NOW_SEEN)
    with Image.open(made) as picture:
        picture.save(made, "JPEG", exif=chosen_exif(None, HARBOUR))
    to_photographs(ui, folder, None)
    return ui


def place_in(register: Register) -> tuple[float, float] | None:
    with Image.open(io.BytesIO(register.picture(note(register).picture) or b"")) as picture:
        return place_of(picture.getexif())


def test_where_a_picture_was_taken_is_left_out(ui: Driver, tmp_path: Path, register: Register) -> None:
    taken_in(ui, tmp_path)
    assert place_in(register) is None


def test_where_a_picture_was_taken_is_kept_when_the_settings_say_so(
    ui: Driver, tmp_path: Path, register: Register
) -> None:
    ui.app.prefer(keep_place=True)
    taken_in(ui, tmp_path)
    assert place_in(register) == pytest.approx(HARBOUR, abs=1e-6)


def choose_several(ui: Driver, folder: Path) -> None:
    """Take in three files for the marks of eye A, the second of which is no picture."""
    write(folder / "pictures", NOW_SEEN, "1.jpg")
    (folder / "pictures" / "2.jpg").write_bytes(b"PK\x03\x04 a list, not a picture")
    write(folder / "pictures", THEN, "3.jpg")
    ui.app.person = EXAMINER
    ui.app.pictures_folder = folder / "pictures"
    ui.quiet()
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Periodic examination")
    ui.good_until("Offset between")
    ui.tap("Picture")
    ui.tap("Choose picture files")
    for name in ("1.jpg", "2.jpg", "3.jpg"):
        ui.tap(name)


def test_of_several_files_it_is_said_which_is_being_taken_in(ui: Driver, tmp_path: Path) -> None:
    choose_several(ui, tmp_path)
    shown: list[str] = []
    ui.app.services.take_in = lambda name, *_: shown.append(name)
    ui.tap("Take in 3 pictures")
    assert shown == ["1.jpg"]
    assert ui.shows("Taking in picture 1 of 3 …")


def test_of_several_files_the_refused_is_named_with_its_reason_and_the_rest_kept(
    ui: Driver, tmp_path: Path, register: Register
) -> None:
    choose_several(ui, tmp_path)
    ui.tap("Take in 3 pictures")
    assert ui.shows("2.jpg: it is not a photograph of a kind this program reads.")
    assert ui.shows("The other pictures are kept.")
    assert len(register.drafts()[0].inspection.noted_pictures) == 2


def test_the_rest_of_several_files_can_be_left_out(ui: Driver, tmp_path: Path, register: Register) -> None:
    choose_several(ui, tmp_path)
    waiting: list[tuple[object, ...]] = []
    really, ui.app.services.take_in = ui.app.services.take_in, lambda *how: waiting.append(how)
    ui.tap("Take in 3 pictures")
    ui.tap("Leave out the rest")
    really(*waiting[0])
    ui.quiet()
    assert len(waiting) == 1
    assert ui.shows("1 kept")


def test_files_chosen_while_one_is_taken_in_come_after_it(ui: Driver, tmp_path: Path) -> None:
    choose_several(ui, tmp_path)
    waiting: list[tuple[object, ...]] = []
    really, ui.app.services.take_in = ui.app.services.take_in, lambda *how: waiting.append(how)
    ui.tap("2.jpg")
    ui.tap("3.jpg")
    ui.tap("Take in 1 picture")
    ui.tap("Choose picture files")
    ui.tap("3.jpg")
    ui.tap("Take in 1 picture")
    assert ui.shows("Taking in picture 1 of 2 …")
    ui.app.services.take_in = really
    really(*waiting[0])
    ui.quiet()
    assert (len(waiting), ui.shows("2 kept")) == (1, True)


def test_a_picture_whose_entry_cannot_be_saved_is_named_and_the_next_goes_on(
    ui: Driver, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    choose_several(ui, tmp_path)
    failing = [False, True]

    def save(_visit: object, done: Callable[[], None], failed: Callable[[Exception], None]) -> None:
        failed(RegisterError("the disk is full.")) if failing.pop() else done()

    monkeypatch.setattr(ui.app.services, "save", save)
    ui.tap("Take in 3 pictures")
    ui.tap("Go back")
    assert ui.shows("1.jpg: It could not be put into the inspection.")
    assert ui.shows("1 kept")


def test_the_original_file_is_not_kept_unless_the_settings_say_so(
    ui: Driver, tmp_path: Path, register: Register
) -> None:
    to_picture(ui, tmp_path)
    assert register.kept_original(note(register).picture) is None
    assert not ui.shows("The original file is kept")


def test_an_original_is_kept_untouched_and_told_of_where_the_pictures_are(
    ui: Driver, tmp_path: Path, register: Register
) -> None:
    ui.app.prefer(keep_original=True)
    to_photographs(ui, tmp_path)
    ui.quiet()
    assert ui.shows("1 kept, original files: 1")
    assert register.original(note(register).picture) == (tmp_path / "pictures" / "throat.jpg").read_bytes()


def test_a_copy_of_an_original_is_handed_on_byte_for_byte(
    ui: Driver, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ui.app.prefer(keep_original=True)
    to_picture(ui, tmp_path)
    handed: list[tuple[str, bytes]] = []

    def share(_self: object, file: Path) -> str:
        handed.append((file.name, file.read_bytes()))
        return "Downloads"

    monkeypatch.setattr(type(ui.app.services.device), "share", share)
    assert ui.shows("The original file is kept: throat.jpg")
    ui.tap("Hand on the original")
    ui.quiet()
    original = (tmp_path / "pictures" / "throat.jpg").read_bytes()
    assert handed == [(f"throat {hashlib.sha256(original).hexdigest()[:8]}.jpg", original)]
    assert ui.shows("A copy was handed on: Downloads")


def test_an_original_that_finds_no_room_is_told_and_its_picture_kept(
    ui: Driver, tmp_path: Path, register: Register
) -> None:
    ui.app.prefer(keep_original=True)
    kept_by = ui.app.services.register
    with kept_by._pictures.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        spare = len(jpeg(NOW_SEEN)) // 16384 + 12  # one large file and its small picture
        connection.exec_driver_sql(f"PRAGMA max_page_count={pages + spare}")
    to_photographs(ui, tmp_path)
    ui.quiet()
    assert ui.shows("throat.jpg: the picture is kept, its original file could not be stored.")
    assert register.has_picture(note(register).picture)
    assert register.kept_original(note(register).picture) is None


def test_a_picture_that_finds_no_room_can_be_kept_once_there_is_some(
    ui: Driver, tmp_path: Path, register: Register
) -> None:
    with ui.app.services.register._pictures.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        connection.exec_driver_sql(f"PRAGMA max_page_count={pages + 1}")
    to_photographs(ui, tmp_path)
    assert ui.shows("throat.jpg: the picture was not kept.")
    with ui.app.services.register._pictures.connect() as connection:
        connection.exec_driver_sql("PRAGMA max_page_count=100000")
    ui.tap("Try again to keep them")
    ui.quiet()
    assert register.has_picture(note(register).picture)
    assert not ui.shows("was not kept")


def ring(ui: Driver, x: float) -> None:
    ui.tap("Ring")
    touch(ui, (x, 500))
    ui.tap("It is here")
    touch(ui, (x + 100, 500))
    ui.tap("It is here")


def test_the_last_marking_is_taken_back(ui: Driver, tmp_path: Path, register: Register) -> None:
    to_picture(ui, tmp_path)
    ui.tap("Mark it up")
    ring(ui, 500)
    ring(ui, 1000)
    ui.tap("Take the last one back")
    (left,) = note(register).markings
    assert left.points[0][0] < 3000


def test_one_marking_of_several_is_taken_back(ui: Driver, tmp_path: Path, register: Register) -> None:
    to_picture(ui, tmp_path)
    ui.tap("Mark it up")
    ring(ui, 500)
    ring(ui, 1000)
    ui.tap("Take one of them back")
    ui.tap("1: ring")
    (left,) = note(register).markings
    assert left.points[0][0] > 3000


def test_a_text_stands_in_the_picture_with_its_words(ui: Driver, tmp_path: Path, register: Register) -> None:
    to_picture(ui, tmp_path)
    ui.tap("Mark it up")
    ui.tap("Text")
    ui.tap("Put the point in the middle")
    ui.tap("It is here")
    ui.page.field.text = "frayed here"
    ui.tap("Keep the note")
    (marking,) = note(register).markings
    assert (marking.kind, marking.text) == (MarkingKind.TEXT, "frayed here")


def test_without_an_earlier_picture_of_the_view_it_says_so(ui: Driver, tmp_path: Path) -> None:
    to_picture(ui, tmp_path)
    ui.tap("Then and now")
    assert ui.shows("No earlier picture of this part and view.")


def align(ui: Driver, places: int = 4) -> None:
    """Find corners of the card in both pictures."""
    ui.tap("Lay one over the other")
    for then, now in list(zip(THEN.corners, NOW_SEEN.corners, strict=True))[:places]:
        touch(ui, then, board=ui.page.then)
        ui.tap("It is here")
        touch(ui, now)
        ui.tap("It is here")
    if places < 4:
        assert ui.shows("Tap place")
    ui.tap("Lay one over the other")


def test_an_earlier_picture_of_the_view_stands_beside_the_present_one(
    past: Register, ui: Driver, tmp_path: Path
) -> None:
    to_picture(ui, tmp_path)
    ui.tap("Then and now")
    assert ui.shows("28 Sep 2050, and now")
    assert ui.page.then.texture is not None


def test_an_earlier_picture_laid_over_by_four_places_is_shown_as_strongly_as_asked(
    past: Register, ui: Driver, tmp_path: Path
) -> None:
    to_picture(ui, tmp_path)
    ui.tap("Then and now")
    align(ui)
    assert isinstance(ui.page, ComparePage)
    assert ui.page.over
    ui.tap("Then")
    assert ui.page.board.strength == 1.0


def test_fewer_than_two_places_do_not_align(past: Register, ui: Driver, tmp_path: Path) -> None:
    to_picture(ui, tmp_path)
    ui.tap("Then and now")
    ui.tap("Lay one over the other")
    touch(ui, THEN.corners[0], board=ui.page.then)
    ui.tap("It is here")
    touch(ui, NOW_SEEN.corners[0])
    ui.tap("It is here")
    with pytest.raises(LookupError):
        ui.button("Lay one over the other")


def test_a_photograph_of_the_record_is_seen_near_with_its_view(past: Register, ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap(next(one for one in ui.widgets() if isinstance(one, ShotButton)))
    ui.tap("Look near, with its markings")
    assert ui.shows("View: throat with both marks")
    ui.tap("Then and now")
    assert ui.shows("No earlier picture of this part and view.")


def test_at_night_a_picture_is_dimmed_and_its_own_colours_are_a_tap_away(ui: Driver, tmp_path: Path) -> None:
    to_picture(ui, tmp_path)
    ui.app.prefer(theme="night")
    ui.tap("Measure in it")
    dimmed = blue(ui, tmp_path)
    ui.tap("Full light")
    assert blue(ui, tmp_path) > 2 * dimmed
    ui.tap("Dim it again")
    assert blue(ui, tmp_path) == pytest.approx(dimmed, abs=2)


def test_at_night_a_thumbnail_is_dimmed(ui: Driver, tmp_path: Path) -> None:
    to_photographs(ui, tmp_path)
    (small,) = (one for one in ui.widgets() if isinstance(one, Thumbnail))
    by_day = small.color[2]
    ui.app.prefer(theme="night")
    assert (by_day, small.color[2]) == (1.0, 0.3)


def test_by_day_there_is_no_button_for_light(ui: Driver, tmp_path: Path) -> None:
    to_picture(ui, tmp_path)
    with pytest.raises(LookupError):
        ui.button("Full light")
