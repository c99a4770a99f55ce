"""What is asked of the item as a whole: its tag, what has happened to it. Common practice where no source is named."""

import pytest

from inspection_rules.book import CaseError
from inspection_rules.words import Answer, InspectionKind, Mend

from .bodies import climbing_line, covered_sling, looked_at, natural_sling, said
from .building import buried_sling, laid_sling


def happened(item, what, **changed):
    return looked_at(item, {("", "shock"): what}, kind="before use", regimes=[], **changed)


@pytest.mark.criterion("fall-arrest")
def test_after_arresting_a_fall_it_is_out_of_service_until_a_competent_person_clears_it():
    judgement = happened(climbing_line(), "fall")

    assert judgement.answer is Answer.REMOVE
    assert said(judgement, "fall").mends is Mend.LOOK


def test_a_fall_is_no_answer_on_what_holds_nobody():
    with pytest.raises(CaseError, match="'fall' is not known"):
        happened(buried_sling(), "fall")


@pytest.mark.criterion("overload")
@pytest.mark.parametrize("make", [buried_sling, climbing_line])
def test_a_shock_or_an_overload_is_referred(make):
    assert happened(make(), "shock").answer is Answer.HOLD


@pytest.mark.criterion("exposure")
@pytest.mark.parametrize("what", ["heat", "chemical"])
def test_heat_and_chemicals_are_referred_each_by_its_own_rule(what):
    judgement = happened(laid_sling(), what)

    assert judgement.answer is Answer.HOLD
    assert [one.rule for one in judgement.rulings if one.answer is Answer.HOLD] == [what]


@pytest.mark.criterion("natural-fibre-chemical")
@pytest.mark.parametrize("fibre", ["manila", "sisal", "hemp"])
def test_natural_fibre_that_met_a_chemical_is_condemned(fibre):
    """ILO dock work code 11.4.3, as hosted: rope in contact with acid or alkali, or suspected of it, is destroyed."""
    judgement = happened(natural_sling(fibre=fibre), "chemical")

    assert judgement.answer is Answer.REMOVE
    assert said(judgement, "chemical-natural-fibre").mends is Mend.NOTHING


@pytest.mark.criterion("fibre-known")
@pytest.mark.parametrize("kind", InspectionKind)
def test_an_item_whose_fibre_is_not_known_never_passes(kind):
    judgement = looked_at(buried_sling(fibre="not known"), kind=kind, regimes=[])

    assert judgement.answer is Answer.HOLD
    assert said(judgement, "fibre-on-record").mends is Mend.EXAMINE


@pytest.mark.criterion("fibre-known")
def test_an_item_whose_fibre_is_known_is_not_asked_for_it():
    judgement = looked_at(buried_sling(), kind="before use", regimes=[])

    assert "fibre-on-record" not in {one.rule for one in judgement.rulings}


def test_a_lanyard_whose_fibre_is_not_known_is_not_taken_for_synthetic():
    judgement = looked_at(climbing_line(fibre="not known"), kind="periodic", regimes=["US fall protection"])

    assert [one.answer for one in judgement.rulings if one.measure == "natural_fibres"] in ([], [Answer.HOLD])


@pytest.mark.criterion("natural-fibre-chemical")
def test_natural_fibre_that_met_heat_is_referred_like_any_other():
    assert happened(natural_sling(), "heat").answer is Answer.HOLD


@pytest.mark.criterion("tag-illegible")
@pytest.mark.parametrize("what", ["unreadable", "other_item"])
def test_without_its_identity_it_is_out_of_service_until_it_is_re_identified(what):
    judgement = looked_at(covered_sling(), {("", "tag"): what}, kind="before use", regimes=[])

    assert judgement.answer is Answer.REMOVE
    assert said(judgement, "tag-not-this-item").mends is Mend.RE_IDENTIFY


@pytest.mark.parametrize("kind", ["periodic", "as found"])
def test_a_tag_that_does_not_say_all_is_watched_where_no_regime_asks_more(kind):
    judgement = looked_at(buried_sling(), {("", "tag_content"): "incomplete"}, kind=kind, regimes=[])

    assert said(judgement, "tag-incomplete").answer is Answer.WATCH
    assert judgement.answer is Answer.WATCH


def test_what_the_tag_says_is_asked_at_an_examination_and_not_before_use():
    sling = buried_sling()

    assert looked_at(sling, kind="before use", regimes=[]).answer is Answer.SERVICEABLE
    assert looked_at(sling, regimes=[], without=(("", "tag_content"),)).answer is Answer.HOLD
