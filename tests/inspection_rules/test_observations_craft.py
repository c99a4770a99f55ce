"""The rigger's craft, told where the hand needs it. Common practice, no published source."""

from typing import Any

import pytest

from inspection_rules.book import shipped
from inspection_rules.item import Item
from inspection_rules.typical import typical_items
from inspection_rules.words import Construction, ItemKind, SpliceKind

BURIED = ("buried eye", "tuck-and-bury eye", "double-braid eye")


def rope(splice: str = "buried eye", construction: str = "hollow braid, twelve-strand", **part: Any) -> Item:
    ends = [{"id": end, "kind": "termination", "end": end, "splice": splice, **part} for end in "AB"]
    return Item.model_validate(
        {
            "id": "x", "tag": "x", "kind": "rope sling", "duty": "lifting", "fibre": "polyester", "diameter": "24 mm",
            "construction": construction, "parts": [*ends, {"id": "body", "kind": "body"}],
        }
    )  # fmt: skip


def look(name: str, item: Item, part: str = "A") -> str:
    return shipped().observations[name].worded_for(item, part).look.lower()


def typical(kind: ItemKind, construction: Construction | None = None) -> Item:
    return next(one for one in typical_items() if one.kind is kind and construction in (None, one.construction))


@pytest.mark.parametrize("splice", BURIED)
def test_a_buried_splice_is_looked_at_and_photographed_untouched_before_its_legs_are_laid_together(splice: str) -> None:
    words = look("throat_marks", rope(splice))
    assert words.startswith("look and photograph it untouched")
    assert words.index("untouched") < words.index("legs together")


@pytest.mark.parametrize(
    ("name", "splice"), [("lock_seated", "locked eye"), ("sliding_part", "adjustable eye"), ("bury_feel", "buried eye")]
)
def test_every_other_buried_splice_begins_with_the_look_untouched(name: str, splice: str) -> None:
    words = look(name, rope(splice))
    assert "untouched" in words.split(":")[0].split(".")[0]


def test_the_bunched_braid_is_named_as_the_sign() -> None:
    for name, splice in (
        ("throat_marks", "buried eye"),
        ("bury_feel", "buried eye"),
        ("sliding_part", "adjustable eye"),
    ):
        assert "a bunched braid is the sign" in look(name, rope(splice))


def test_the_bury_is_looked_at_then_felt_then_smoothed_away_from_the_eye() -> None:
    words = look("bury_feel", rope())
    order = [words.index(one) for one in ("untouched", "bare hand or thin glove", "smooth away from the eye")]
    assert order == sorted(order)
    assert "hollow" in words
    assert "the tail's step" in words
    assert "never toward it" in words


@pytest.mark.parametrize("splice", [*BURIED, "locked eye"])
def test_a_lock_stitched_splice_is_never_smoothed(splice: str) -> None:
    words = look("bury_feel", rope(splice, lock_stitched=True))
    assert "never smooth it" in words
    assert "smooth away" not in words
    if splice != "locked eye":
        assert "do not smooth it" in look("mark_offset", rope(splice, lock_stitched=True))


@pytest.mark.parametrize("name", ["mark_offset", "mark_tail", "mark_standing", "tip_step"])
def test_what_could_slip_is_read_in_last_times_tension_and_moisture(name: str) -> None:
    assert "tension and wet or dry as last time" in look(name, rope())


def test_stitches_that_lean_are_looked_for_as_well_as_broken_ones() -> None:
    words = look("lock_stitching", rope(lock_stitched=True))
    assert "lean (the parts have moved against each other) as well as for broken ones" in words
    for kind in (ItemKind.WEB_SLING, ItemKind.LANYARD):
        assert "stitches that lean" in look("stitching", typical(kind, Construction.WEBBING))


def test_the_throat_is_opened_and_the_inside_of_the_eye_where_it_bears() -> None:
    assert "open the throat" in look("throat_entry", rope())
    assert "open the throat" in look("throat_lay", rope("tucked eye", "laid, three-strand"))
    for words in (look("eye_bearing", rope()), look("sewn_eye", rope("sewn eye"))):
        assert "inside" in words
        assert "where it bears" in words


def test_a_thimble_is_turned_and_a_loose_one_sends_to_the_marks() -> None:
    words = look("thimble", rope(thimble="removable"))
    assert words.startswith("turn it")
    for word in ("grown eye", "bedded rope", "closed thimble", "check the marks"):
        assert word in words


def test_herniated_pulled_glazed_and_stiff_strands_are_looked_for_against_the_light() -> None:
    words = look("body_surface", rope(), "body")
    for word in ("gloved hand", "against the light", "herniated", "pulled", "glazed", "stiff"):
        assert word in words


@pytest.mark.parametrize("construction", ["laid, three-strand", "hollow braid, twelve-strand", "double braid"])
def test_rope_is_opened_for_powder_and_grit(construction: str) -> None:
    words = look("body_inside", rope("sewn eye", construction), "body")
    assert "powder, grit" in words


def test_a_sheath_that_cannot_be_opened_is_not_asked_to_be() -> None:
    said = shipped().observations["body_inside"].worded_for(rope("sewn eye", "kernmantle"), "body")
    assert said.ask == "At an open end: is the core clean and whole?"
    assert "hidden by design" in said.look


@pytest.mark.parametrize("name", ["web_face_a", "web_face_b"])
def test_a_web_sling_passes_a_gloved_hand_against_the_light_under_sleeve_and_label(name: str) -> None:
    words = look(name, typical(ItemKind.WEB_SLING), "body")
    for word in ("gloved hand", "against the light", "under sleeve and label"):
        assert word in words


def test_a_roundsling_and_a_webbing_lanyard_are_looked_at_the_same_way() -> None:
    for name, item in (
        ("round_cover", typical(ItemKind.ROUNDSLING)),
        ("webbing", typical(ItemKind.LANYARD, Construction.WEBBING)),
    ):
        words = look(name, item, "body")
        for word in ("gloved hand", "both faces", "against the light", "under sleeve and label"):
            assert word in words


def test_the_fibre_is_compared_with_a_kept_piece_of_the_new_rope() -> None:
    assert "compare colour, hand and girth with a kept piece of the new rope" in look("body_fibre", rope(), "body")


HANDLED = (
    "eye_bearing", "eye_under_gear", "chafe_gear", "thimble", "throat_entry", "throat_lay", "splice_middle",
    "sliding_part", "tail_left", "free_tail", "end_sound", "body_surface", "cover", "core_feel", "body_inside",
    "shackle_eye", "sewn_eye", "bore_on", "drum_layers", "contamination", "tail_joint", "other_end",
)  # fmt: skip


@pytest.mark.parametrize("name", HANDLED)
def test_where_a_hand_goes_into_the_gear_its_load_is_off_first(name: str) -> None:
    """A rope that comes tight takes the hand with it."""
    one = shipped().observations[name]
    kernmantle_end = "look into it"  # no hand goes in
    for words in (one.look, *(wording.look for wording in one.worded if wording.look)):
        said = words.lower()
        off = ("unload", "slack", "rope off", "drum stopped", kernmantle_end)
        assert any(word in said for word in off), words


def test_no_bare_hand_is_sent_over_metal_that_may_be_burred_or_onto_a_chemical() -> None:
    for name in ("fitting", "bore_on", "web_hurt", "round_hurt", "contamination"):
        one = shipped().observations[name]
        for words in (one.look, *(wording.look for wording in one.worded)):
            assert "bare" not in words
    for name in ("web_hurt", "round_hurt", "contamination"):
        assert "gloves on" in shipped().observations[name].look.lower()


def test_every_splice_that_may_be_smoothed_says_from_where() -> None:
    for splice in SpliceKind:
        item = rope(splice.value) if splice.value not in ("tucked short splice", "end-to-end splice") else None
        if item is None:
            continue
        if shipped().observations["bury_feel"].parts(item):
            assert "smooth away from the eye" in look("bury_feel", item)
