"""The layout a splice should have, for every kind of splice: figures, working, and where each comes from."""

from fractions import Fraction

import pytest

from inspection_rules.item import Item
from inspection_rules.layout import RULE_OF_THUMB, splice_layout

from .splices import THREE_FID, spliced


def layout(splice, part=None, **changed):
    item = Item.model_validate(spliced(splice, **({"part": part} if part else {}), **changed))
    return {one.name: one for one in splice_layout(item, item.terminations[0])}


BURY = {"required_bury": "1700 mm", "required_by": "the splice's own instruction", "lock_stitched": True}


def test_the_recorded_bury_and_the_rule_of_thumb_stand_beside_each_other():
    """72 × 24 mm = 1728 mm, from memory and labelled so."""
    found = layout("buried eye", BURY, diameter="24 mm", fibre="HMPE")

    assert found["required bury"].value == 1700
    assert found["required bury"].label == "by the splice's own instruction"
    assert found["bury by the rule of thumb"].value == 1728
    assert found["bury by the rule of thumb"].label == RULE_OF_THUMB


def test_the_taper_is_of_the_recorded_bury():
    """A quarter to a third of 1700 mm: common practice, no source."""
    found = layout("buried eye", BURY, diameter="24 mm", fibre="HMPE")["tapered end of the tail"]

    assert (found.value, found.upto) == (425, Fraction(1700, 3))
    assert found.label == "common practice, no source"


def test_the_lock_stitching_is_six_to_eight_diameters_long():
    found = layout("buried eye", BURY, diameter="24 mm", fibre="HMPE")["length of the lock stitching"]

    assert (found.value, found.upto) == (144, 192)


def test_an_eye_made_by_the_three_fid_layout_has_its_figures():
    found = layout("tuck-and-bury eye", {"layout": THREE_FID}, diameter="1 1/8 in")

    assert found["laid out from the end"].value == Fraction(147, 2) * Fraction("25.4")


@pytest.mark.parametrize(("fibre", "tucks", "clause"), [("polyester", 4, "(ii)"), ("manila", 3, "(i)")])
def test_tucks_of_laid_rope_are_those_of_the_law(fibre, tucks, clause):
    """29 CFR 1910.184 (h)(3): at least four full tucks in synthetic rope, three in manila."""
    found = layout("tucked eye", fibre=fibre, construction="laid, three-strand")["full tucks, at least"]

    assert found.value == tucks
    assert f"(h)(3){clause}" in found.label


@pytest.mark.parametrize(("size", "tail"), [("16 mm", "96"), ("32 mm", "152.4")])
def test_strand_tails_are_six_diameters_and_six_inches_from_an_inch(size, tail):
    """29 CFR 1910.184 (h)(3)(iii): 6 × 16 mm = 96 mm below one inch, 6 in = 152.4 mm from there."""
    found = layout("tucked eye", construction="laid, three-strand", fibre="polyester", diameter=size)

    assert found["strand tails beyond the last tuck, at least"].value == Fraction(tail)


def test_no_number_of_tucks_is_made_up_for_a_rope_that_the_law_does_not_speak_of():
    assert not [one for one in layout("tucked eye", construction="plaited, eight-strand") if "tuck" in one]


def test_a_plain_end_has_no_layout():
    assert not layout("plain end")
