"""What speaks against an answer in the same inspection."""

from datetime import UTC, datetime

from inspection_rules.book import shipped
from inspection_rules.contradiction import against_damage, against_sound, damages_in_words, disputed, grading
from inspection_rules.item import Item
from inspection_rules.record import Finding, Inspection, Reading
from inspection_rules.words import Seen

from .building import LIFTING, MATE, buried_sling

ITEM = Item.model_validate(buried_sling())
SURFACE, STRANDS = ("body", "body_surface"), ("body", "cut_strands")
GRADED = grading(ITEM, LIFTING, shipped())
DISPUTED = disputed(ITEM, GRADED, shipped())


def strands(*values: str, places: tuple[str, ...] = ()) -> Reading:
    return Reading.model_validate(
        {"part": "body", "observation": "cut_strands", "values": values, "places": places, "method": "counted"}
    )


def visit(*readings: Reading, findings: tuple[Finding, ...] = ()) -> Inspection:
    at = datetime(2050, 10, 12, tzinfo=UTC)
    return Inspection.model_validate(
        {"id": "one", "item": "sling", "at": at, "by": MATE, "kind": "periodic", "readings": readings,
         "findings": findings}
    )  # fmt: skip


def test_a_cut_is_graded_by_the_count_of_cut_strands() -> None:
    assert STRANDS in GRADED[SURFACE]["cut"]


def test_wear_is_graded_by_what_its_rule_names_first() -> None:
    assert GRADED[SURFACE]["abraded"][0] == ("body", "fibre_strand")


def test_what_no_reading_tells_the_size_of_is_not_graded() -> None:
    assert "distorted" not in GRADED[SURFACE]


def test_a_place_called_sound_is_disputed_by_cut_strands_read_there() -> None:
    assert against_sound(visit(strands("2")), DISPUTED[SURFACE]) == (strands("2"),)


def test_the_inside_is_not_disputed_by_strands_cut_outside() -> None:
    assert STRANDS not in DISPUTED[("body", "body_inside")]


def test_a_reading_of_no_damage_disputes_nothing() -> None:
    assert against_sound(visit(strands("0")), DISPUTED[SURFACE]) == ()


def test_damage_read_after_the_place_was_called_sound_names_that_question() -> None:
    sound = Finding(part="body", observation="body_surface", seen=Seen.ABSENT)
    assert against_damage(visit(findings=(sound,)), strands("2"), DISPUTED) == (SURFACE,)


def test_damage_read_where_damage_was_seen_agrees() -> None:
    seen = Finding(part="body", observation="body_surface", seen=Seen.PRESENT, conditions=("cut",))
    assert against_damage(visit(findings=(seen,)), strands("2"), DISPUTED) == ()


def test_damages_are_told_with_their_places() -> None:
    assert damages_in_words(strands("1", "2", places=("1 m", "3 m"))) == "1 at 1 m, 2 at 3 m"
