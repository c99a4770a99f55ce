"""ASME B30.9 (2010), chapter 9-4, removal criteria for rope slings: the numbers, each at, inside and outside its limit.

Not read: restated in a training text (secondary). The arithmetic of damage, what a share of diameter, area or strands
comes to, was computed anew (handbook table of damage arithmetic).
"""

from fractions import Fraction

import pytest

from inspection_rules.measures.section import area_loss_percent
from inspection_rules.words import Answer, Door

from ..inspection_rules.bodies import BODY, covered_sling, looked_at, read_on_body, said
from ..inspection_rules.building import buried_sling, laid_sling

SERVICEABLE, WATCH, HOLD, REMOVE = Answer
US = ["US lifting"]


@pytest.mark.criterion("effective-diameter")
@pytest.mark.parametrize(
    ("worst", "answer", "door"),
    [
        ("74 mm", SERVICEABLE, None),
        ("67.6 mm", HOLD, Door.LOOK_AGAIN),
        ("67.5 mm", HOLD, Door.LOOK_AGAIN),   # 10 % of 75 mm exactly: not more than 10 %, and not surely less
        ("67.4 mm", REMOVE, None),
    ],
)  # fmt: skip
def test_damage_takes_no_more_than_10_per_cent_of_the_effective_diameter(worst, answer, door):
    """Criterion c: reduced the effective diameter by more than 10 %."""
    values = {"girth_worst": [worst] * 3, "girth_sound": ["75 mm"] * 3}

    told = said(read_on_body(buried_sling(), values, regimes=US), "effective-diameter")

    assert (told.answer, told.door) == (answer, door)


@pytest.mark.criterion("fibre-inside")
@pytest.mark.parametrize(("reading", "rule"), [("fibre_strand", "us-fibre-strand"), ("fibre_rope", "us-fibre-rope")])
@pytest.mark.parametrize(
    ("lost", "answer"), [("0 %", SERVICEABLE), ("9.9 %", HOLD), ("10 %", REMOVE), ("10.1 %", REMOVE)]
)
def test_less_than_10_per_cent_of_the_fibre_is_broken_in_any_strand_and_in_the_rope(reading, rule, lost, answer):
    """Criterion e: broken, fused or melted fibre estimated at 10 % of the fibre in any strand or in the rope."""
    told = said(read_on_body(buried_sling(), {reading: [lost]}, regimes=US), rule)

    assert told.answer is answer


@pytest.mark.criterion("fibre-inside")
@pytest.mark.parametrize(("lost", "answer"), [(None, REMOVE), ("4 %", WATCH), ("10 %", REMOVE)])
def test_broken_fibre_inside_removes_until_it_was_estimated(lost, answer):
    """Criterion e has a number: where it was not estimated, what was seen counts as beyond it."""
    values = {"fibre_strand": [lost]} if lost else {}

    judgement = read_on_body(buried_sling(), values, regimes=US, seen={(BODY, "body_inside"): "broken"})

    assert judgement.answer is answer


@pytest.mark.criterion("fibre-inside")
def test_ten_per_cent_of_a_strand_and_of_the_rope_are_different_things():
    """10 % of one strand of twelve is 0.83 % of the rope: the strand's limit removes, the rope's does not."""
    judgement = read_on_body(buried_sling(), {"fibre_strand": ["10 %"], "fibre_rope": ["0.8 %"]}, regimes=US)

    assert said(judgement, "us-fibre-strand").answer is REMOVE
    assert said(judgement, "us-fibre-rope").answer is SERVICEABLE


@pytest.mark.criterion("cut-strand")
@pytest.mark.parametrize("make", [laid_sling, buried_sling, covered_sling])
@pytest.mark.parametrize(("cut", "answer"), [("0", SERVICEABLE), ("1", REMOVE)])
def test_one_fully_cut_strand_removes_a_sling_whatever_its_share_of_the_rope(make, cut, answer):
    """Derived from criteria b and e: a cut strand has lost 100 % of its own fibre."""
    told = said(read_on_body(make(), {"cut_strands": [cut]}, regimes=US), "us-cut-strand-counted")

    assert told.answer is answer


@pytest.mark.criterion("cut-strand")
@pytest.mark.parametrize(("cut", "of", "answer"), [("1", "11", SERVICEABLE), ("1", "10", REMOVE), ("1", "9", REMOVE)])
def test_cut_yarns_are_less_than_10_per_cent_of_their_strand(cut, of, answer):
    """Criteria b and e, counted: 1 of 11 is 9.1 %, 1 of 10 exactly 10 %."""
    values = {"cut_yarns": [cut], "strand_yarns": [of]}

    assert said(read_on_body(laid_sling(), values, regimes=US), "us-yarns-cut-strand").answer is answer


@pytest.mark.criterion("heat-damage")
@pytest.mark.parametrize(("condition", "answer"), [("melted", HOLD), ("melted_more", REMOVE)])
def test_melting_removes_by_its_extent(condition, answer):
    """Criterion j: more than 10 % of the rope's diameter, or several adjacent strands."""
    assert looked_at(buried_sling(), {(BODY, "body_fibre"): condition}).answer is answer


# --- the arithmetic of damage (computed anew) ------------------------------------------------------------


@pytest.mark.parametrize(("diameter", "area"), [("5", "9.75"), ("10", "19"), ("15", "27.75"), ("25", "43.75")])
def test_ten_per_cent_of_the_diameter_is_nineteen_of_the_area(diameter, area):
    assert area_loss_percent(Fraction(diameter)) == Fraction(area)


@pytest.mark.parametrize(("area", "diameter"), [("5", 2.53), ("10", 5.13), ("19", 10.0), ("25", 13.40), ("50", 29.29)])
def test_area_lost_as_diameter(area, diameter):
    """The same table read the other way round; it prints two decimals."""
    assert float(area_loss_percent(Fraction(str(diameter)))) == pytest.approx(float(area), abs=0.01)


@pytest.mark.criterion("cut-strand")
@pytest.mark.parametrize(
    ("construction", "strands", "per_cent", "first_beyond"),
    [
        ("laid, three-strand", 3, "33.33", 1),
        ("plaited, eight-strand", 8, "12.5", 1),
        ("hollow braid, twelve-strand", 12, "8.33", 2),
        ("parallel core", 16, "6.25", 2),
        ("parallel core", 24, "4.17", 3),
    ],
)
def test_what_one_cut_strand_takes_and_how_many_go_beyond_10_per_cent(construction, strands, per_cent, first_beyond):
    """Table: one strand of 3, 8, 12, 16, 24 in per cent; strands cut to reach more than 10 %."""
    line = laid_sling(
        kind="line", duty="mooring", construction=construction, strands=strands, cover_load="all",
    )  # fmt: skip

    def share(cut):
        return said(read_on_body(line, {"cut_strands": [str(cut)]}), "strands-cut-practice")

    assert float(share(1).value) == pytest.approx(float(per_cent), abs=0.005)
    assert [share(cut).answer for cut in (first_beyond - 1, first_beyond)] == [SERVICEABLE, HOLD]
