"""Tours of every page, an area each, as a person comes to them."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from io import BytesIO
from pathlib import Path

from driver import Driver
from harbour import BURIED, EXAMINER, MATE, NOW, SITE, sound
from kivy.uix.textinput import TextInput
from PIL import Image
from table import table, write
from tour import tour
from tour_people import people, with_a_pin

from app.item_list import template
from app.photos import intake
from app.register import Register
from app.touch.screens.item.photos import ShotButton
from app.touch.widgets.buttons import RowButton
from inspection_rules.book import shipped
from inspection_rules.judge import judge
from inspection_rules.pictures import PictureNote
from inspection_rules.record import Finding
from inspection_rules.words import InspectionKind, Seen, View

Pages = Callable[[Driver, Path], Iterator[str]]


@dataclass(frozen=True)
class Tour:
    """How a register is made ready, and the way through its pages; the pages' names are yielded."""

    prepare: Callable[[Register], None]
    pages: Pages


def nothing(_register: Register) -> None:
    """The harbour as it is."""


def say_it(ui: Driver, text: str) -> None:
    """Type words where they are asked for and go on."""
    ui.tap(next(w for w in ui.widgets() if isinstance(w, TextInput)))
    ui.type(text)
    ui.tap("Go on")


def number(ui: Driver, keys: str) -> None:
    ui.number(keys)
    ui.tap("Take this number")


# --- what happens to an item between inspections ------------------------------------------------------------


def with_two_holds(register: Register) -> None:
    """Sling RS-01 with a tail that shows at end A and a chafed eye at end B."""
    for part, observation, condition, hours in (
        ("A", "bury_feel", "tail_showing", 4),
        ("B", "eye_bearing", "chafed", 3),
    ):
        one = sound(BURIED, InspectionKind.BEFORE_USE, NOW - timedelta(hours=hours))
        bad = Finding(part=part, observation=observation, seen=Seen.PRESENT, conditions=(condition,))
        kept = tuple(f for f in one.findings if (f.part, f.observation) != (part, observation))
        one = one.model_copy(update={"findings": (*kept, bad)})
        register.log_inspection(one, judge(register.case(one, on=one.on), shipped()))


def records(ui: Driver, _pictures: Path) -> Iterator[str]:
    ui.tap("All items")
    ui.tap("RS-01")
    yield "item with reasons"
    ui.tap("What else happened to it?")
    yield "menu of a user"
    ui.tap("Acting: mate")
    ui.tap("yard examiner")
    yield "menu"
    ui.tap("Examine what keeps it out of use")
    ui.tap("I have examined this")
    yield "examine"
    ui.tap("Release the one I ticked")
    yield "why released"
    say_it(ui, "chafe is on the cover only")
    yield "until when released"
    ui.tap("No sooner than it is due anyway")
    yield "release"
    for _ in range(4):
        ui.back()
    ui.tap("Condemn it")
    say_it(ui, "worn through")
    yield "condemn"
    ui.back()
    ui.back()
    ui.tap("Accept damage for a time")
    ui.tap(next(one for one in ui.widgets() if isinstance(one, RowButton)))
    say_it(ui, "two yarns")
    say_it(ui, "sound inside")
    yield "until when"
    ui.tap("12 Jan 2051")
    yield "accept"
    for _ in range(5):
        ui.back()
    ui.tap("There was an incident")
    yield "what happened"
    ui.tap("Shock")
    ui.tap("Go on")
    ui.search("RS-02")
    ui.tap("RS-02")
    yield "what shared the load"
    ui.tap("Go on with 1 ticked")
    ui.tap("Go on")
    ui.tap("DO NOT USE tag hung")
    yield "incident"
    for _ in range(6):
        ui.back()
    ui.tap("Where is it?")
    yield "where"
    ui.back()
    ui.tap("A record was wrong")
    yield "wrong records"
    ui.tap("12 Oct 2050 · before use")
    yield "wrong record"
    ui.back()
    ui.back()
    ui.tap("Work was done on it")
    yield "work"
    ui.tap("Re-spliced")
    yield "part worked on"
    ui.tap("End A")
    ui.tap("Go on")
    yield "cut off"
    ui.tap("Nothing was cut off")
    yield "sign work"
    ui.tap("Add a picture")
    yield "pictures of work"
    ui.back()
    ui.tap("Sign and log as yard examiner")
    yield "new splice"
    ui.tap("It is made otherwise: say how")
    yield "kind of splice"


# --- rounds -------------------------------------------------------------------------------------------------


def rounds(ui: Driver, _pictures: Path) -> Iterator[str]:
    ui.tap("Start a round")
    yield "places"
    ui.tap("quay yard")
    yield "who makes the round"
    ui.tap("mate")
    yield "what the round is for"
    ui.tap("Before a lift")
    yield "round"
    ui.tap("Walking order")
    yield "walking order"
    ui.back()
    ui.tap("Add an item")
    yield "add an item"
    ui.search("RS-02")
    ui.tap("RS-02")
    ui.tap("RS-02")
    yield "one item of the round"
    ui.tap("Not found")
    yield "note on what was not found"
    ui.tap("Keep: not found")
    ui.tap("Is it ready?")
    yield "not ready"
    ui.tap("Sign and log: NOT READY")
    yield "signed round"
    ui.app.stack.home()
    ui.quiet()
    yield "today with a round"
    ui.tap("Rounds")
    yield "earlier rounds"
    ui.back()
    ui.tap("Reports")
    yield "reports"
    ui.tap("Released and condemned")
    yield "released and condemned"


# --- entering -----------------------------------------------------------------------------------------------


def entering(ui: Driver, pictures: Path) -> Iterator[str]:
    ui.app.pictures_folder = pictures
    ui.tap("All items")
    ui.tap("New item")
    yield "new item"
    ui.tap("From a list")
    yield "from a list"
    ui.tap("items.csv")
    yield "what a list holds"
    ui.back()
    ui.tap("Like an item")
    yield "which item is it like"
    ui.back()
    ui.tap("From a blank")
    yield "kind"
    for word in ("Rope sling", "Lifting", "HMPE", "Hollow braid, twelve-strand"):
        ui.tap(word)
    yield "which size"
    ui.tap("Nominal diameter")
    yield "size"
    number(ui, "2 4")
    number(ui, "6")
    number(ui, "6 0")
    yield "splice"
    for word in ("Buried eye", "None"):
        ui.tap(word)
    yield "yes or no"
    for word in ("Yes", "No"):
        ui.tap(word)
    yield "required bury"
    number(ui, "1 7 2 8")
    say_it(ui, "the splice's own instruction, sheet 2")
    number(ui, "4 8")
    yield "other end"
    ui.tap("The same as end A")
    yield "fitting"
    ui.tap("Nothing hangs on it")
    yield "made"
    ui.tap("−")
    yield "made, set"
    ui.tap("It was on ")
    ui.tap("Not used yet, or not known")
    yield "tag of the new item"
    say_it(ui, "RS-14")
    say_it(ui, "quay lifting sling")
    yield "place"
    ui.tap("quay yard")
    ui.tap("Normal")
    yield "what will be entered"
    ui.tap("More about it")
    yield "more about it"
    ui.back()
    ui.tap("Throw it away")
    yield "throw it away"
    ui.tap("Keep it")
    ui.tap("Enter it as ")
    yield "entered"
    ui.tap("The layout it should have")
    yield "layout"
    ui.back()


# --- photographs and items ----------------------------------------------------------------------------------

THEN = table((400.0,), (400.0,))
NOW_SEEN = table((397.0,), (400.0,), tilt=6.0, above=320.0)


def with_an_earlier_picture(register: Register) -> None:
    """Eye A's throat, photographed a fortnight ago, and more pictures of that end than a page shows at first."""
    from table import jpeg

    plain = [Image.new("RGB", (64, 48), (shade, shade, shade)) for shade in range(60, 180, 20)]
    photos = [intake(jpeg(THEN), "then.jpg"), *(intake(_jpeg(one), "plain.jpg") for one in plain)]
    for photo in photos:
        register.keep_photo(photo)
    look = sound(BURIED, InspectionKind.PERIODIC, NOW - timedelta(days=14))
    notes = tuple(
        PictureNote(picture=photo.sha256, part="A", view=None if number else View.THROAT)
        for number, photo in enumerate(photos)
    )
    look = look.model_copy(update={"pictures": tuple(one.sha256 for one in photos), "noted_pictures": notes})
    register.log_inspection(look, judge(register.case(look, on=look.on), shipped()))


def _jpeg(picture: Image.Image) -> bytes:
    file = BytesIO()
    picture.save(file, "JPEG")
    return file.getvalue()


def photographs(ui: Driver, pictures: Path) -> Iterator[str]:
    write(pictures / "taken", NOW_SEEN)
    ui.app.person, ui.app.pictures_folder = EXAMINER, pictures / "taken"
    ui.app.prefer(keep_original=True)
    ui.quiet()
    ui.tap("All items")
    ui.tap("Filter")
    yield "filter"
    ui.back()
    ui.tap("Scan a label")
    yield "scan a label"
    ui.back()
    ui.tap("RS-01")
    ui.tap("About this item")
    yield "about this item"
    ui.back()
    ui.tap("12 Sep 2050 · periodic")
    yield "one record"
    ui.back()
    ui.tap(ui.station("A", "eye"))
    yield "a part"
    ui.tap("Readings as they were taken")
    yield "charts"
    ui.back()
    ui.tap(next(one for one in ui.widgets() if isinstance(one, ShotButton)))
    yield "photograph of a day"
    ui.tap("Look near, with its markings")
    yield "photograph looked at near"
    ui.back()
    ui.back()
    ui.tap("All 7 photographs")
    yield "all photographs"
    ui.back()
    ui.back()
    ui.tap("Periodic examination")
    ui.good_until("Offset between")
    ui.tap("Picture")
    ui.tap("Choose picture files")
    ui.tap("throat.jpg")
    ui.tap("Take in 1 picture")
    yield "picture of a reading"
    ui.tap("Look near, measure, mark up")
    yield "picture"
    ui.tap("View: ")
    yield "views"
    ui.back()
    ui.tap("Mark it up")
    yield "marking up"
    ui.back()
    ui.tap("Then and now")
    yield "then and now"
    ui.back()
    ui.tap("Measure in it")
    yield "measure"
    board = ui.page.board
    for corner, (x, y) in enumerate(NOW_SEEN.corners, 1):
        ui.touch(board.to_window(*board.on_screen((x + 4, y - 4))))
        ui.quiet()
        ui.tap(f"Corner {corner} is here")
    ui.quiet()
    yield "path of a measure"
    for point in (NOW_SEEN.on_rope(0, 397.0), NOW_SEEN.on_rope(1, 400.0), NOW_SEEN.between(340), NOW_SEEN.between(460)):
        ui.touch(board.to_window(*board.on_screen(point)))
        ui.quiet()
        ui.tap("It is here")
    ui.tap("Measure")
    yield "measured"
    ui.back()


# --- what it will carry -------------------------------------------------------------------------------------


def using(ui: Driver, _pictures: Path) -> Iterator[str]:
    ui.tap("All items")
    ui.tap("RS-02")
    ui.tap("Before use")
    ui.good_to_the_end()
    ui.tap("Say what it will carry")
    yield "what it will carry"
    ui.tap("Whole load")
    ui.number("1 2")
    yield "load"
    ui.tap("Take this number")
    ui.tap("Hitch")
    yield "hitch"
    ui.tap("Choker")
    ui.tap("Angle of the legs")
    yield "from where an angle is measured"
    ui.tap("From the vertical")
    ui.number("3 0")
    yield "angle"
    ui.tap("Take this number")
    ui.tap("Chemicals")
    ui.tap("Caustic")
    yield "chemicals"
    ui.tap("Take what I ticked")
    yield "what was told"
    ui.tap("That is all I can tell")
    yield "not for this use"
    ui.tap("Change what it will carry")
    ui.tap("Take all of it back")
    ui.tap("Greatest heat")
    ui.number("4 0")
    ui.tap("Take this number")
    ui.tap("That is all I can tell")
    yield "nothing speaks against the use"
    ui.tap("Sign and log")
    ui.tap("Start a round")
    ui.tap("Sandpiper")
    ui.tap("mate")
    ui.tap("Before a lift")
    ui.tap("Say what it will carry")
    yield "what a round will carry"
    ui.tap("Whole load")
    ui.number("1 2")
    ui.tap("Take this number")
    ui.tap("That is all I can tell")
    yield "round with an item not for its use"
    ui.tap("All answered: is it ready?")
    yield "not ready by the use"


TOURS = {
    "inspecting": Tour(nothing, tour),
    "records": Tour(with_two_holds, records),
    "rounds": Tour(nothing, rounds),
    "entering": Tour(nothing, entering),
    "photographs": Tour(with_an_earlier_picture, photographs),
    "people": Tour(with_a_pin, people),
    "using": Tour(nothing, using),
}


def files(folder: Path) -> Path:
    """Files to choose from: a picture, a list of items, and a pack."""
    Image.new("RGB", (640, 480), "grey").save(folder / "stitch.jpg")
    (folder / "items.csv").write_text(template(), encoding="utf-8")
    (folder / "harbour.toml").write_text(SITE, encoding="utf-8")
    return folder


PEOPLE = (MATE, EXAMINER)
