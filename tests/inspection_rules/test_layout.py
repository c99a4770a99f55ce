"""The layout of a tuck-and-bury eye by the one method, and the lengths that are offered. Common practice, no source."""

import subprocess
import sys
from fractions import Fraction

import pytest

from inspection_rules.item import Item
from inspection_rules.layout import RULE_OF_THUMB, offered_bury, three_fid_layout
from inspection_rules.quantity import NotMeasured
from inspection_rules.words import Answer, Door

from .building import case, judged, ruling
from .splices import MADE, THREE_FID, answer, looked, spliced

SERVICEABLE, WATCH, HOLD, REMOVE = Answer
BY_METHOD = {"part": {"layout": THREE_FID}, "diameter": "1 1/8 in"}
LAYOUT_RULES = ("layout-length", "layout-passes", "layout-strands-least", "layout-strands-most", "layout-pairs",
                "layout-picks-least", "layout-picks-most")  # fmt: skip


def figures(**changed):
    found = three_fid_layout(Item.model_validate(spliced("tuck-and-bury eye", **changed)))
    assert not isinstance(found, NotMeasured)
    return {figure.name: figure for figure in found}


def made(item, **changed):
    """Judge its as-made record."""
    return as_recorded(item, looked(item, "as made", MADE, **changed))


def as_recorded(item, record):
    return judged(case(item, record, [], regimes=[]))


# --- laying out ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("size", [{"diameter": "1 1/8 in"}, {"diameter": None, "circumference": "3 1/2 in"}])
def test_a_rope_of_three_and_a_half_inches_has_a_fid_length_of_twenty_four_and_a_half(size):
    """3 1/2 in nominal circumference, 1 1/8 in nominal diameter: 7 × 3 1/2 = 24 1/2 in; three of them 73 1/2 in."""
    found = figures(**size)

    inch = Fraction("25.4")
    assert found["nominal circumference"].value == Fraction(7, 2) * inch
    assert found["fid length"].value == Fraction(49, 2) * inch
    assert found["laid out from the end"].value == Fraction(147, 2) * inch
    assert found["tapered, from the end"].value == Fraction(49, 2) * inch


def test_a_size_between_the_tables_has_three_times_its_diameter():
    assert figures(diameter="28 mm")["fid length"].value == 7 * 3 * 28


def test_the_layout_says_how_each_figure_comes_about():
    found = figures(diameter="1 1/8 in")

    assert found["fid length"].working == "7 × nominal circumference 3.5 in = 24.5 in"
    assert found["laid out from the end"].working == "3 × fid length 24.5 in = 73.5 in"


def test_the_taper_and_the_passes():
    found = figures()

    counts = {name: figure.value for name, figure in found.items() if not figure.unit}
    assert counts == {
        "pairs of strands from mark to mark": 2, "strands that end before the tail's end": 6,
        "passes through the rope": 2, "strand pairs on each side of the hole": 3, "picks between the passes": 4,
    }  # fmt: skip
    assert "skip 2 sets before mark 7" in found["pairs of strands from mark to mark"].working
    assert "left and right in turn: 6 of 12" in found["strands that end before the tail's end"].working


def test_the_cord_is_a_third_to_a_half_of_a_strand():
    cord = figures()["cord of the lock stitching"]

    assert (cord.value, cord.upto) == (Fraction(1, 3), Fraction(1, 2))
    assert "carries no load" in cord.working


def test_every_figure_is_labelled_as_common_practice():
    assert {figure.label for figure in figures().values()} == {"common practice, no source"}


@pytest.mark.parametrize("construction", ["hollow braid, eight-strand", "double braid", "laid, three-strand"])
def test_the_layout_is_one_for_twelve_strand_hollow_braid(construction):
    item = Item.model_validate(spliced("tuck-and-bury eye", construction=construction))

    assert isinstance(three_fid_layout(item), NotMeasured)


# --- lengths that are offered ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fibre", "times"),
    [("HMPE", 72), ("LCP", 72), ("aramid", 72), ("polyester", 63), ("nylon", 63), ("polypropylene", 63)],
)
def test_a_bury_is_offered_by_fibre_and_labelled_a_rule_of_thumb(fibre, times):
    """From memory, trade practice: about 72 diameters for HMPE, LCP and aramid; 63 seen for single braids."""
    offer = offered_bury(Item.model_validate(spliced("buried eye", fibre=fibre)))

    assert offer is not None
    assert offer.value == times * 24
    assert offer.working == f"{times} × nominal diameter 24 mm = {times * 24} mm"
    assert offer.label == RULE_OF_THUMB


@pytest.mark.parametrize("changed", [{"fibre": "manila"}, {"construction": "laid, three-strand"}])
def test_nothing_is_offered_where_the_trade_has_no_such_rule(changed):
    assert offered_bury(Item.model_validate(spliced("buried eye", **changed))) is None


@pytest.mark.criterion("bury-length")
@pytest.mark.parametrize("splice", ["buried eye", "tuck-and-bury eye", "locked eye"])
def test_an_offer_is_never_used_to_judge(splice):
    item = spliced(splice, fibre="HMPE")
    del item["parts"][0]["required_bury"], item["parts"][0]["required_by"]

    told = ruling(answer(item, looked(item), readings={("A", "bury"): ["5000 mm"]}), "remaining-bury")

    assert (told.answer, told.door, told.limit) == (HOLD, Door.REFER, None)


# --- a splice whose record says it was laid out so --------------------------------------------------------


def test_a_splice_made_exactly_by_the_layout_is_serviceable():
    item = spliced("tuck-and-bury eye", **BY_METHOD)

    judgement = made(item)

    assert judgement.answer is SERVICEABLE
    assert set(LAYOUT_RULES) <= {one.rule for one in judgement.rulings}


@pytest.mark.parametrize(
    ("rule", "observation", "value", "expected"),
    [
        ("layout-length", "laid_out", "1866.8 mm", HOLD),        # 3 × 24 1/2 in is 1866.9 mm
        ("layout-length", "laid_out", "1866.9 mm", SERVICEABLE),
        ("layout-length", "laid_out", "1867 mm", SERVICEABLE),
        ("layout-passes", "passes", "1", HOLD),
        ("layout-passes", "passes", "2", SERVICEABLE),
        ("layout-passes", "passes", "3", SERVICEABLE),
        ("layout-strands-least", "strands_ended", "5", WATCH),
        ("layout-strands-least", "strands_ended", "6", SERVICEABLE),
        ("layout-strands-most", "strands_ended", "6", SERVICEABLE),
        ("layout-strands-most", "strands_ended", "7", WATCH),
        ("layout-pairs", "pairs_beside", "2", WATCH),
        ("layout-pairs", "pairs_beside", "3", SERVICEABLE),
        ("layout-picks-least", "picks_between", "3", WATCH),
        ("layout-picks-least", "picks_between", "4", SERVICEABLE),
        ("layout-picks-most", "picks_between", "4", SERVICEABLE),
        ("layout-picks-most", "picks_between", "5", WATCH),
    ],
)  # fmt: skip
def test_a_departure_from_the_layout_is_a_watch_or_a_hold(rule, observation, value, expected):
    item = spliced("tuck-and-bury eye", **BY_METHOD)

    assert ruling(made(item, readings={("A", observation): [value]}), rule).answer is expected


@pytest.mark.criterion("lock-stitch")
@pytest.mark.parametrize("cord", ["other_size", "rope_fibre", "other_cord", "hmpe_or_aramid"])
def test_another_cord_in_the_lock_stitching_is_a_watch_at_most(cord):
    item = spliced("tuck-and-bury eye", **BY_METHOD)

    assert made(item, seen={("A", "lock_thread"): cord}).answer is WATCH


def test_everything_wrong_with_the_layout_together_removes_nothing():
    item = spliced("tuck-and-bury eye", **BY_METHOD)
    values = {"laid_out": "900 mm", "strands_ended": "0", "passes": "0", "pairs_beside": "0", "picks_between": "0"}
    wrong = {("A", name): [value] for name, value in values.items()}

    judgement = made(item, readings=wrong, seen={("A", "lock_thread"): "hmpe_or_aramid"})

    assert judgement.answer is HOLD


def test_a_short_layout_still_holds_at_a_later_look():
    item = spliced("tuck-and-bury eye", **BY_METHOD)

    later = answer(item, looked(item, "before use"), readings={("A", "laid_out"): ["1800 mm"]})

    assert ruling(later, "layout-length").answer is HOLD


def test_a_layout_that_was_not_recorded_is_held():
    item = spliced("tuck-and-bury eye", **BY_METHOD)

    judgement = made(item, without=(("A", "picks_between"),))

    assert {(one.part, one.observation) for one in judgement.missing} == {("A", "picks_between")}


def test_counts_of_the_layout_that_differ_are_doubt():
    item = spliced("tuck-and-bury eye", **BY_METHOD)

    told = ruling(made(item, readings={("A", "picks_between"): ["4", "5"]}), "layout-picks-most")

    assert (told.answer, told.door) == (HOLD, Door.LOOK_AGAIN)


@pytest.mark.parametrize("splice", ["tuck-and-bury eye", "buried eye", "locked eye", "double-braid eye"])
def test_the_layout_never_judges_a_splice_made_by_another_method(splice):
    item = spliced(splice)
    record = looked(item, "as made", MADE)
    asked = {entry["observation"] for entry in (*record["readings"], *record["findings"])}

    judgement = as_recorded(item, record)

    assert not {"laid_out", "strands_ended", "passes", "pairs_beside", "picks_between", "lock_thread"} & asked
    assert not {one.rule for one in judgement.rulings if one.rule.startswith("layout")}


def test_the_layout_at_one_end_leaves_the_other_alone():
    item = spliced("tuck-and-bury eye", diameter="1 1/8 in")
    item["parts"][0]["layout"] = THREE_FID

    judgement = made(item, readings={("A", "passes"): ["1"]})

    assert {one.part for one in judgement.rulings if one.rule.startswith("layout")} == {"A"}


def test_rules_of_the_layout_say_that_they_are_common_practice():
    item = spliced("tuck-and-bury eye", **BY_METHOD)

    told = [one for one in made(item).rulings if one.rule.startswith("layout")]

    assert {one.source.kind for one in told} == {"common practice"}


def test_the_judgement_does_not_even_load_the_offers():
    code = "import sys, inspection_rules.judge as _; sys.exit('inspection_rules.layout' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
