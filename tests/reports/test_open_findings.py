"""Every finding that is open stands in the report, with the pictures taken for it and the day each was taken."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from app.photos import Photo, intake
from app.photos.exif import chosen_exif
from app.register import Register
from inspection_rules.book import shipped
from inspection_rules.judge import judge
from inspection_rules.pictures import Marking, PictureNote
from inspection_rules.record import Inspection
from inspection_rules.words import InspectionKind, Seen, View

from .conftest import ON, words
from .harbour import at, bedded, line, photo, present, sound, unexamined

SLIP = ("A", "mark_offset")
HEADING = "Pictures of this inspection"


def dated(taken: str | None, colour: str = "#8f826a") -> Photo:
    data = BytesIO()
    Image.new("RGB", (400, 300), colour).save(data, "JPEG", exif=chosen_exif(taken, None))
    return intake(data.getvalue(), "eye.jpg")


def again(register: Register, look: Inspection, photos: tuple[Photo, ...] = (), **more: object) -> Inspection:
    """The same inspection once more, with something else said in it."""
    one = Inspection.model_validate({**dict(look), "id": "again", "at": at("2026-10-13"), **more})
    register.log_inspection(one, judge(register.case(one, on=one.on), shipped()), photos)
    return one


def slipped_twice(register: Register, first: str = "2026-10-12", second: str = "2026-10-13") -> None:
    """5 mm, and after it 32.5 mm, both open on end A; a picture with a marking was taken for the second."""
    item, picture = bedded(register, line("TP-01", duty="towing")), photo("throat")
    look = sound(register, item, first, InspectionKind.PERIODIC, values={SLIP: ("11 mm", "11 mm")})
    reading = look.reading(*SLIP)
    assert reading is not None
    more = {"values": ("32.5 mm", "32.5 mm"), "pictures": (picture.sha256,)}
    readings = tuple(
        type(one).model_validate({**dict(one), **more}) if one is reading else one for one in look.readings
    )
    text = Marking(kind="text", points=((2000, 2000),), text="measured here")
    note = PictureNote(picture=picture.sha256, part="A", markings=(text,))
    again(
        register, look, (picture,), readings=readings, noted_pictures=(note,),
        at=at(second).replace(hour=15),
    )  # fmt: skip


@pytest.mark.parametrize("second", ["2026-10-12", "2026-10-13"])
def test_two_open_findings_of_one_rule_on_one_part_are_both_told_the_newest_first(
    empty_register: Register, report: Callable[[], Path], second: str
) -> None:
    slipped_twice(empty_register, second=second)
    told = words(report())
    assert told.index("32.5 mm against a limit") < told.index("11 mm against a limit")


def test_findings_of_one_rule_on_one_part_are_counted(empty_register: Register, report: Callable[[], Path]) -> None:
    slipped_twice(empty_register)
    told = words(report())
    assert "Open finding 1 of 2 of this rule here" in told
    assert "Open finding 2 of 2 of this rule here" in told


def test_each_of_them_has_its_own_day(empty_register: Register, report: Callable[[], Path]) -> None:
    slipped_twice(empty_register)
    told = words(report())
    assert "Found 2026-10-12" in told
    assert "Found 2026-10-13" in told


def test_the_picture_of_the_later_one_has_its_marking(empty_register: Register, report: Callable[[], Path]) -> None:
    slipped_twice(empty_register)
    assert "measured here" in words(report())


def test_every_open_hold_has_its_sentence_in_the_report(harbour_register: Register, harbour_report: Path) -> None:
    told = words(harbour_report)
    held = {row.item for row in harbour_register.open_rulings()}
    sentences = {one.ruling.sentence for item in held for one in harbour_register.standing(item, ON).open}
    assert [one for one in sentences if one not in told] == []


def test_what_was_found_again_and_again_names_every_day(empty_register: Register, report: Callable[[], Path]) -> None:
    item = bedded(empty_register, line("ML-01"))
    for day in ("2026-08-12", "2026-09-12", "2026-10-12"):
        sound(empty_register, item, day, InspectionKind.BEFORE_USE, seen=present("A", "eye_bearing", "chafed"))
    assert "first found 2026-08-12; the same on 2026-09-12" in words(report())


def test_a_note_of_an_earlier_day_on_the_very_same_finding_is_told_with_its_day(
    empty_register: Register, report: Callable[[], Path]
) -> None:
    item = bedded(empty_register, line("ML-01"))
    for day, note in (("2026-09-12", "two yarns"), ("2026-10-12", "three yarns")):
        seen = present("A", "eye_bearing", "chafed", note=note)
        sound(empty_register, item, day, InspectionKind.BEFORE_USE, seen=seen)
    assert "three yarns; two yarns (2026-09-12)" in words(report())


def test_every_picture_of_a_finding_is_shown(empty_register: Register, report: Callable[[], Path]) -> None:
    item, pictures = bedded(empty_register, line("ML-01")), (photo("one"), photo("two"), photo("three"))
    look = sound(empty_register, item, "2026-10-12", InspectionKind.PERIODIC)
    found = present("body", "body_surface", "cut", pictures[0])["body", "body_surface"]
    found = found.model_copy(update={"pictures": tuple(one.sha256 for one in pictures)})
    findings = tuple(found if one.observation == "body_surface" else one for one in look.findings)
    again(empty_register, look, pictures, findings=findings)
    made = report().read_bytes()
    assert all((empty_register.picture(one.sha256) or b"-") in made for one in pictures)


def not_examined(register: Register, *notes: PictureNote, photos: tuple[Photo, ...], note: str = "") -> None:
    """Two things that could not be examined, and pictures of the whole inspection."""
    item = bedded(register, line("ML-01"))
    seen = unexamined("A", "eye_bearing", "frozen") | unexamined("A", "lock_stitching", "frozen")
    look = sound(register, item, "2026-10-12", InspectionKind.PERIODIC, seen=seen)
    again(
        register, look, photos, pictures=tuple(one.sha256 for one in photos), noted_pictures=notes, note=note
    )  # fmt: skip


def test_a_picture_of_the_whole_inspection_stands_once_under_its_own_heading(
    empty_register: Register, report: Callable[[], Path]
) -> None:
    picture = photo("tag")
    not_examined(empty_register, PictureNote(picture=picture.sha256, view=View.TAG), photos=(picture,))
    told = words(report())
    assert told.count(f"picture {picture.sha256[:16]}") == 1
    assert told.index(HEADING) < told.index(f"picture {picture.sha256[:16]} · tag")


def test_a_picture_of_a_part_in_the_view_of_a_finding_stands_with_that_finding(
    empty_register: Register, report: Callable[[], Path]
) -> None:
    picture = photo("eye")
    not_examined(
        empty_register, PictureNote(picture=picture.sha256, part="A", view=View.EYE_BACK), photos=(picture,)
    )  # fmt: skip
    told = words(report())
    assert f"picture {picture.sha256[:16]} · back of the eye" in told
    assert HEADING not in told


def test_the_note_of_an_inspection_is_said_once(empty_register: Register, report: Callable[[], Path]) -> None:
    not_examined(empty_register, photos=(), note="Taken out of the bag")
    told = words(report())
    assert told.count("Taken out of the bag") == 1
    assert "Note of this inspection" in told


@pytest.mark.parametrize(
    ("taken", "said"),
    [
        ("2026-10-13T08:00:00", "taken 2026-10-13"),
        ("2022-09-01T08:00:00", "taken 4 years before this inspection"),
        ("2026-10-10T08:00:00", "taken 3 days before this inspection"),
        ("2099-01-01T08:00:00", "dated after the inspection: the camera's clock, or not this picture"),
        (None, "no date in the file"),
    ],
)
def test_the_day_a_picture_was_taken_stands_below_it(
    empty_register: Register, report: Callable[[], Path], taken: str | None, said: str
) -> None:
    not_examined(empty_register, photos=(dated(taken),))
    assert said in words(report())


def test_the_day_before_is_nothing_to_be_told_of(empty_register: Register, report: Callable[[], Path]) -> None:
    not_examined(empty_register, photos=(dated("2026-10-12T08:00:00"),))
    assert "before this inspection" not in words(report())


def test_the_signatures_never_stand_alone_on_a_page(empty_register: Register, report: Callable[[], Path]) -> None:
    """Notes of many lengths: the last finding goes over to the next page with them."""
    alone = []
    for number in range(12):
        item = bedded(empty_register, line(f"ML-{number:02}"))
        look = sound(empty_register, item, "2026-10-12", InspectionKind.PERIODIC)
        findings = tuple(
            one.model_copy(update={"seen": Seen.NOT_EXAMINED, "reason": "frozen " * (3 + 2 * number)})
            for one in look.findings
        )
        again(empty_register, look, id=f"again-{number}", item=item.id, findings=findings)
    for page in PdfReader(report()).pages:
        told = page.extract_text()
        if "Examined by" in told and "Comes back by" not in told:
            alone.append(page.page_number)
    assert alone == []
