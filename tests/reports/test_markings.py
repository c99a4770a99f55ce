"""What the inspector laid over a picture stands over it in the report; the picture's own bytes are untouched."""

from collections.abc import Callable
from pathlib import Path

from app.register import Register
from inspection_rules.book import shipped
from inspection_rules.judge import judge
from inspection_rules.pictures import Marking, PictureNote
from inspection_rules.words import InspectionKind

from .conftest import words
from .harbour import at, bedded, line, photo, present, sound


def test_a_text_over_a_picture_is_printed_over_it(empty_register: Register, report: Callable[[], Path]) -> None:
    item, picture = bedded(empty_register, line("ML-01")), photo()
    look = sound(empty_register, item, "2026-10-11", InspectionKind.PERIODIC)
    found = present("body", "body_surface", "cut", picture)
    findings = tuple(found.get((one.part, one.observation), one) for one in look.findings)
    ring = Marking(kind="ring", points=((5000, 3000), (6000, 3000)))
    text = Marking(kind="text", points=((2000, 2000),), text="two yarns through")
    note = PictureNote(picture=picture.sha256, part="body", markings=(ring, text))
    marked = look.model_copy(
        update={"id": "marked", "at": at("2026-10-12"), "findings": findings, "noted_pictures": (note,)}
    )
    empty_register.log_inspection(
        marked, judge(empty_register.case(marked, on=marked.on), shipped()), photos=(picture,)
    )
    made = report()
    assert "two yarns through" in words(made)
    assert empty_register.picture(picture.sha256) in made.read_bytes()
