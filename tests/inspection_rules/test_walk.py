import pytest

from inspection_rules.book import shipped
from inspection_rules.record import Inspection, Item
from inspection_rules.walk import first_open, optional_steps, walk
from inspection_rules.words import InspectionKind

from .building import buried_sling, inspection, laid_sling


def steps(item, kind=InspectionKind.BEFORE_USE):
    return walk(Item.model_validate(item), kind, ("US lifting",), shipped())


def test_the_walk_follows_the_rope_from_tag_to_memory():
    assert [(s.part, s.observation.station) for s in steps(buried_sling())] == [
        ("", "tag"),
        ("A", "eye"), ("A", "marks"), ("A", "stitch"), ("A", "bury"),
        ("body", "body"),
        ("B", "bury"), ("B", "stitch"), ("B", "marks"), ("B", "eye"),
        ("", "since last time"),
    ]  # fmt: skip


@pytest.mark.parametrize("make", [buried_sling, laid_sling])
def test_a_two_eye_item_is_asked_no_more_than_twelve_questions_before_use(make):
    assert len(steps(make())) <= 12


def test_no_stitching_is_asked_about_where_there_is_none():
    item = buried_sling()
    item["parts"][0]["lock_stitched"] = False

    asked = {s.key for s in steps(item)}

    assert ("A", "lock_stitching") not in asked
    assert ("B", "lock_stitching") in asked


def test_an_examination_asks_everything_a_look_before_use_asks():
    for item in (buried_sling(), laid_sling()):
        assert {s.key for s in steps(item)} < {s.key for s in steps(item, InspectionKind.PERIODIC)}


def test_what_is_not_needed_may_be_added():
    item = Item.model_validate(buried_sling())
    may = {s.observation.id for s in optional_steps(item, InspectionKind.BEFORE_USE, (), shipped())}

    assert {"mark_offset", "throat_entry", "girth_worst"} <= may


def test_what_is_read_only_when_a_splice_is_made_is_not_offered_before_use():
    item = Item.model_validate(buried_sling())
    before, made = (
        {s.observation.id for s in optional_steps(item, kind, (), shipped())}
        for kind in (InspectionKind.BEFORE_USE, InspectionKind.AS_MADE)
    )

    assert {"laid_out", "passes", "picks_between"} & before == set()
    assert {"hook_throat", "fitting_thickness", "edge_cut"} & made == set()  # it has neither a fitting nor a web


def test_the_first_open_step_is_the_first_without_an_answer():
    raw = inspection(buried_sling(), "before use", "2026-03-02", without=(("A", "lock_stitching"), ("B", "marks")))
    todo = steps(buried_sling())

    assert first_open(todo, Inspection.model_validate(raw)).key == ("A", "lock_stitching")
