"""Combined damage: shares of their limits, close together, that add up to one. Every sum here was worked out by hand.

The web is 50 mm wide and 5 mm thick. By the limits of Alberta's section 305(1) an edge cut of 5 mm is one limit
(numbers read, citation from memory), and so is warp damaged through over 6.25 mm, and both faces worn by 15 %. That
damages add up to a limit was read in the section's guide; that 1 m is close together is common practice, no source.
"""

from fractions import Fraction

import pytest

from inspection_rules.words import Answer, Door, Mend

from .building import judged, ruling
from .webs import FINE, look, web_sling, webbing_lanyard

ALBERTA = ("Canada Alberta",)


def at(values, places=(), **changed):
    """One reading of several damages, with their places along the web."""
    return {"values": list(values), "places": list(places)} | changed


def damaged(cuts=None, warp=None, *, depth="100 %", item=None, regimes=ALBERTA, **other):
    """A judgement of a web with these edge cuts and these widths of warp damaged through."""
    readings = {("body", name): value for name, value in other.items()}
    if cuts is not None:
        readings["body", "edge_cut"] = cuts
    if warp is not None:
        n = len(warp["values"])
        readings["body", "warp_width"] = warp
        readings["body", "warp_depth"] = {"values": [depth] * n}
        readings["body", "warp_edge"] = {"values": ["22 mm"] * n}
    return judged(look(item or web_sling(), regimes=regimes, readings=readings))


def combined(*args, rule="alberta-combined", **kwargs):
    """The ruling on damages together."""
    return ruling(damaged(*args, **kwargs), rule, "body")


def rules_of(judgement):
    """The ids of all rules that spoke."""
    return {r.rule for r in judgement.rulings}


@pytest.mark.criterion("combined-damage")
def test_damages_each_inside_their_limit_that_add_up_to_more_than_one_remove():
    """3 of 5 mm is 60 %, 3 of 6.25 mm is 48 %: together 108 %."""
    judgement = damaged(at(["3 mm"]), at(["3 mm"]))
    told = ruling(judgement, "alberta-combined", "body")

    assert told.answer is Answer.REMOVE
    assert (float(told.value), float(told.margin)) == (108, -8)
    assert ruling(judgement, "alberta-edge-cut", "body").answer is Answer.SERVICEABLE
    assert ruling(judgement, "alberta-warp-deep", "body").answer is Answer.SERVICEABLE


@pytest.mark.criterion("combined-damage")
def test_damages_that_equal_one_limit_together_remove():
    """2.5 of 5 mm and 3.125 of 6.25 mm: 50 % and 50 %."""
    told = combined(at(["2.5 mm"]), at(["3.125 mm"]))

    assert told.answer is Answer.REMOVE
    assert (told.margin, told.probability) == (0, 0)


@pytest.mark.criterion("combined-damage")
def test_common_practice_removes_a_web_for_combined_damage_where_a_limit_gives_the_shares():
    assert combined(at(["3 mm"]), at(["3 mm"]), rule="web-combined").answer is Answer.REMOVE


@pytest.mark.criterion("combined-damage")
def test_a_sum_just_below_one_is_too_near_to_tell_and_is_read_again():
    """2.5 of 5 mm ± 0.5 and 2.5 of 6.25 mm ± 1: 50 % ± 10 and 40 % ± 16, together 90 % ± 18.9 (one u)."""
    told = combined(at(["2.5 mm"]), at(["2.5 mm"]))

    assert (told.answer, told.door, told.mends) == (Answer.HOLD, Door.LOOK_AGAIN, Mend.LOOK)
    assert float(told.u) == pytest.approx(18.868, abs=0.001)
    assert float(told.probability) == pytest.approx(0.702, abs=0.001)  # Φ(10 / 18.868)


@pytest.mark.criterion("combined-damage")
@pytest.mark.parametrize(
    ("warp", "answer"),
    [
        ("1.1 mm", Answer.SERVICEABLE),  # 50 % + 17.6 % = 67.6 %; 32.4 points inside, 1.645 × 18.868 is 31.04
        ("1.2 mm", Answer.HOLD),         # 50 % + 19.2 % = 69.2 %; 30.8 points inside
    ],
)  # fmt: skip
def test_a_sum_passes_from_where_its_doubt_leaves_room(warp, answer):
    assert combined(at(["2.5 mm"]), at([warp])).answer is answer


def test_readings_of_a_fine_study_leave_little_doubt():
    told = combined(at(["2.4 mm"], **FINE), at(["2.2 mm"], **FINE))  # 48 % + 35.2 %

    assert told.answer is Answer.SERVICEABLE


@pytest.mark.criterion("combined-damage")
def test_one_damage_alone_is_no_matter_of_adding_up():
    assert "alberta-combined" not in rules_of(damaged(at(["4 mm"])))


@pytest.mark.criterion("combined-damage")
@pytest.mark.parametrize(("second", "answer"), [("2 m", Answer.REMOVE), ("2001 mm", Answer.SERVICEABLE)])
def test_damages_known_to_lie_farther_apart_than_a_metre_do_not_add_up(second, answer):
    told = combined(at(["3 mm"], ["1 m"]), at(["3 mm"], [second]))

    assert told.answer is answer


@pytest.mark.criterion("combined-damage")
def test_a_damage_just_inside_its_own_limit_does_not_add_up_with_one_far_away():
    """4.9 of 5 mm alone would be 98 %, and 2 m farther on there is another."""
    told = combined(at(["4.9 mm"], ["1 m"]), at(["1 mm"], ["3 m"]))

    assert told.answer is Answer.SERVICEABLE
    assert told.sentence == "No two damages lie within 1 m of each other."


def test_a_damage_of_unknown_place_counts_with_every_other_but_does_not_bring_those_together():
    """40 % at 0.5 m, 40 % at 3 m and 64 % somewhere: the worst that can lie together is 104 %, not 144 %."""
    told = combined(at(["2 mm", "2 mm"], ["0.5 m", "3 m"]), at(["4 mm"]))

    assert told.answer is Answer.REMOVE
    assert told.value == 104


def test_places_that_are_not_given_for_each_damage_are_not_known():
    together = combined(at(["3 mm", "3 mm"], ["0.5 m"]))

    assert (together.answer, together.value) == (Answer.REMOVE, 120)


def test_the_stretch_with_the_largest_sum_is_judged_wherever_it_lies():
    """0.2, 1.1 and 1.9 m: the last two make 100 %, the first two 80 %."""
    told = combined(at(["1.5 mm", "2.5 mm", "2.5 mm"], ["0.2 m", "1.1 m", "1.9 m"]))

    assert (told.answer, told.value) == (Answer.REMOVE, 100)


def test_three_damages_within_a_metre_add_up_though_no_two_do():
    """35 % + 35 % + 35 %."""
    told = combined(at(["1.75 mm"] * 3, ["1 m", "1.5 m", "2 m"]))

    assert (told.answer, told.value) == (Answer.REMOVE, 105)


def test_a_damage_counts_once_as_the_largest_share_any_limit_makes_of_it():
    """Two cuts of 0.3 mm in life-support webbing are 30 % each of its 1 mm; of 5 mm they would be 6 % more each."""
    item = web_sling(duty="life support")

    told = combined(at(["0.3 mm", "0.3 mm"]), item=item)

    assert told.value == 60


def test_warp_damaged_shallow_and_deep_is_added_each_place_by_its_own_limit_and_once():
    """5 of 12.5 mm to a fifth of the depth is 40 %, 2 of 6.25 mm right through 32 %."""
    judgement = damaged(
        warp_width=at(["5 mm", "2 mm"]), warp_depth=at(["20 %", "100 %"]), warp_edge=at(["20 mm", "20 mm"])
    )

    assert ruling(judgement, "alberta-combined", "body").value == 72


def test_wear_adds_up_with_other_damage_and_both_faces_once():
    """3 % and 3 % of 15 % are 20 % each; 3.25 of 5 mm is 65 %: 105 %."""
    told = combined(at(["3.25 mm"]), web_abrasion_a=at(["3 %"]), web_abrasion_b=at(["3 %"]))

    assert (told.answer, told.value) == (Answer.REMOVE, 105)


def test_damages_of_no_size_add_no_doubt():
    judgement = damaged(at(["2.5 mm"]), web_abrasion_a=at(["0 %"]), web_abrasion_b=at(["0 %"]))

    assert "alberta-combined" not in rules_of(judgement)


def test_weft_adds_up_by_the_lesser_of_its_two_limits():
    """Parted 6 mm of 12.5 is 48 %, long 300 mm of 100 is more: 48 %. With 3 of 5 mm, 60 %: 108 %."""
    told = combined(at(["3 mm"]), weft_width=at(["6 mm"]), weft_length=at(["300 mm"]))

    assert (told.answer, told.value) == (Answer.REMOVE, 108)


def test_order_of_entry_changes_nothing():
    forward = combined(at(["1 mm", "3 mm"], ["0.2 m", "1 m"]), at(["1 mm", "2 mm"], ["1.5 m", "0.4 m"]))
    backward = combined(at(["3 mm", "1 mm"], ["1 m", "0.2 m"]), at(["2 mm", "1 mm"], ["0.4 m", "1.5 m"]))

    assert forward == backward


@pytest.mark.parametrize("more", ["0.5 mm", "1 mm", "2 mm", "4 mm", "6 mm"])
def test_one_more_damage_never_yields_a_better_answer(more):
    def severity(cuts):
        told = [r for r in damaged(at(cuts)).rulings if r.rule == "alberta-combined"]
        return told[0].answer.severity if told else 0

    for first in ("0.5 mm", "1.5 mm", "2.5 mm", "4 mm"):
        assert severity([first, "1 mm", more]) >= severity([first, "1 mm"])


@pytest.mark.parametrize("size", [Fraction(n, 4) for n in range(1, 24)])
def test_a_larger_stated_doubt_never_yields_a_better_answer(size):
    cut = f"{float(size)} mm"
    fine, coarse = (
        combined(at(["1 mm", cut], u=u, u_study="yard study")).answer.severity for u in ("0.1 mm", "0.9 mm")
    )
    assert coarse >= fine


def test_a_limit_that_cannot_be_reckoned_leaves_the_sum_to_its_own_hold():
    item = web_sling()
    del item["thickness"]

    judgement = damaged(at(["3 mm", "3 mm"]), item=item)

    assert judgement.answer is Answer.HOLD
    assert "alberta-combined" not in rules_of(judgement)


def test_nothing_adds_up_where_no_limit_that_combines_is_loaded():
    assert "web-combined" not in rules_of(damaged(at(["3 mm", "3 mm"]), regimes=()))


@pytest.mark.criterion("combined-damage")
def test_two_cuts_in_a_life_support_lanyard_add_up_to_its_millimetre():
    told = combined(at(["0.6 mm", "0.4 mm"]), item=webbing_lanyard(), regimes=(), rule="web-combined")

    assert (told.answer, told.value) == (Answer.REMOVE, 100)


def test_the_ruling_names_each_damage_its_share_and_its_place():
    told = combined(at(["3 mm"], ["1 m"]), at(["3 mm"]))

    assert "60 % of edge cut against the web's thickness at 1 m" in told.sentence
    assert "48 % of warp damaged deeper than half" in told.sentence
    assert "together 108 % of one limit" in told.sentence.lower()
