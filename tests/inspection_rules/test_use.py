"""What is said of a use: nothing is passed over, and nothing of it changes the item's own answer."""

import pytest

from inspection_rules.words import Answer, Chemical, Door, Fibre

from .building import case, inspection, laid_sling
from .building import judged as judged_case
from .uses import braided_sling, climbing_line, judged, outcome, rope_sling, roundsling, rulings, stops, web_sling

REGIMES = ("US lifting", "EU", "UK", "Canada Alberta", "Australia")
LIFT = {"load": "10 kN", "hitch": "straight"}


def titles(item, use, *regimes):
    return {one.title for one in judged(item, use, *regimes).not_for_this_use if one.rule == "no-rule"}


# --- the item's own answer ---

RUINOUS = {
    "pin_diameter": "500 mm", "eye_length": "100 mm", "load": "900 kN", "legs": 2, "leg_angle": "10° from horizontal",
    "hitch": "choker", "persons": True, "hottest": "300 °C", "coldest": "-90 °C", "chemicals": ["acid", "caustic"],
    "moisture": "frozen",
}  # fmt: skip


@pytest.mark.parametrize("regime", [(), *((one,) for one in REGIMES), REGIMES])
def test_no_use_changes_what_is_said_of_the_item(regime):
    item = laid_sling(working_load_limit="20 kN")
    look = inspection(item, "before use", "2026-07-01")

    alone = judged_case(case(item, look, regimes=list(regime)))
    used = judged_case(case(item, look, regimes=list(regime), use=RUINOUS))

    assert used.not_for_this_use
    assert (used.answer, used.door, used.rulings, used.missing, used.next_due) == (
        alone.answer, alone.door, alone.rulings, alone.missing, alone.next_due,
    )  # fmt: skip


def test_no_word_of_a_use_is_no_ruling_on_it():
    judgement = judged(rope_sling(), None, *REGIMES)
    assert (judgement.not_for_this_use, judgement.for_this_use) == ((), ())


def test_a_use_that_passes_is_shown_with_its_value_limit_and_source():
    (told,) = judged(rope_sling(), LIFT).for_this_use
    assert (told.rule, told.value, told.limit, told.unit) == ("leg-tension", 10, 20, "kN")
    assert "no published source" in str(told.source)


# --- nothing said is passed over ---


@pytest.mark.parametrize("regimes", [(), *((one,) for one in REGIMES), REGIMES])
@pytest.mark.parametrize("field", RUINOUS)
@pytest.mark.parametrize("make", [rope_sling, braided_sling, web_sling, roundsling, climbing_line])
def test_each_thing_said_alone_is_spoken_of(make, field, regimes):
    judgement = judged(make(), {field: RUINOUS[field]}, *regimes)
    assert judgement.not_for_this_use


@pytest.mark.parametrize(
    ("item", "use", "regimes", "title"),
    [
        (roundsling(), {"pin_diameter": "50 mm"}, (), "Pin"),
        (web_sling(), {"pin_diameter": "50 mm", "eye_length": "400 mm"}, ("EU",), "Pin"),  # no figure for sewn eyes
        (roundsling(), {"eye_length": "400 mm"}, (), "Pin"),
        (rope_sling(), {"load": "1 kN", "hitch": "choker"}, (), "Lift"),
        (web_sling(), {"load": "1 kN", "hitch": "choker"}, ("US lifting",), "Lift"),
        (rope_sling(), {"load": "1 kN", "hitch": "choker"}, ("Australia",), "Lift"),
        (rope_sling(fibre="aramid"), {"hottest": "20 °C"}, ("US lifting", "EU"), "Heat"),
        (rope_sling(fibre="HMPE"), {"coldest": "0 °C"}, ("US lifting",), "Cold"),
        (rope_sling(fibre="manila"), {"hottest": "30 °C"}, ("EU",), "Heat"),
        (rope_sling(), {"persons": True}, ("US lifting",), "Persons"),
        (rope_sling(duty="tree rigging"), {"persons": True}, (), "Persons"),
    ],
)
def test_what_no_rule_judges_is_named_and_not_for_this_use(item, use, regimes, title):
    assert titles(item, use, *regimes) == {title}


def test_a_choker_stays_unjudged_where_only_a_part_of_the_breaking_strength_was_judged():
    item = rope_sling(breaking_force="400 kN", breaking_spliced=True)
    judgement = judged(item, {"load": "1 kN", "hitch": "choker"}, "Canada Alberta")
    assert [one.sentence for one in judgement.not_for_this_use] == ["No loaded rule judges a choker hitch."]


def test_one_eye_that_is_judged_does_not_pass_the_other():
    ends = [
        {"id": "A", "kind": "termination", "end": "A", "splice": "tucked eye"},
        {"id": "B", "kind": "termination", "end": "B", "splice": "sewn eye"},
    ]
    item = rope_sling(parts=[*ends, {"id": "body", "kind": "body"}])
    judgement = judged(item, {"pin_diameter": "20 mm", "eye_length": "400 mm"})
    assert [(one.rule, one.part) for one in judgement.not_for_this_use] == [("no-rule", "B")]


def test_a_plain_end_bears_on_no_pin():
    ends = [
        {"id": "A", "kind": "termination", "end": "A", "splice": "tucked eye"},
        {"id": "B", "kind": "termination", "end": "B", "splice": "plain end"},
    ]
    item = rope_sling(parts=[*ends, {"id": "body", "kind": "body"}])
    assert stops(item, {"pin_diameter": "20 mm", "eye_length": "400 mm"}, "US lifting") == set()


@pytest.mark.parametrize("fibre", Fibre)
@pytest.mark.parametrize("chemical", Chemical)
@pytest.mark.parametrize("regimes", [(), ("US lifting",), REGIMES])
def test_every_fibre_in_every_chemical_is_stopped_by_a_rule_or_for_want_of_one(fibre, chemical, regimes):
    judgement = judged(rope_sling(fibre=fibre), {"chemicals": [chemical]}, *regimes)
    assert judgement.not_for_this_use
    assert {one.title for one in judgement.not_for_this_use} == {"Chemical"}


def test_of_two_chemicals_the_one_without_a_rule_is_named():
    judgement = judged(web_sling(), {"chemicals": ["caustic", "solvent"]}, "US lifting")
    assert {one.rule for one in judgement.not_for_this_use} == {
        "polyester-caustic", "us-web-polyester-caustic", "no-rule",
    }  # fmt: skip


@pytest.mark.criterion("chemical-to-come")
@pytest.mark.parametrize(
    ("fibre", "chemicals", "rule"),
    [
        ("nylon", ("acid", "phenolic", "bleach or another oxidiser"), "nylon-acid"),
        ("polyester", ("caustic",), "polyester-caustic"),
        ("polypropylene", ("solvent",), "polypropylene-solvent"),
        ("HMPE", ("bleach or another oxidiser",), "hmpe-oxidiser"),
        ("aramid", ("acid", "bleach or another oxidiser"), "aramid-acid"),
        ("LCP", ("caustic",), "lcp-caustic"),
    ],
)
def test_what_a_fibre_is_known_not_to_stand_is_named(fibre, chemicals, rule):
    """Common practice, no source. All other pairs are stopped for want of a rule."""
    by = {one.value: stops(rope_sling(fibre=fibre), {"chemicals": [one.value]}) for one in Chemical}
    assert {name for name, rules in by.items() if rules == {rule}} == set(chemicals)
    assert {name for name, rules in by.items() if rules == {"no-rule"}} == set(by) - set(chemicals)


# --- worse never better ---


@pytest.mark.parametrize("regime", REGIMES)
@pytest.mark.parametrize("hitch", ["straight", "choker", "basket"])
def test_flatter_legs_never_become_fit_for_a_lift(regime, hitch):
    item = web_sling(breaking_force="400 kN", breaking_spliced=True)
    use = {"load": "14 kN", "hitch": hitch, "legs": 1 if hitch == "basket" else 2}
    stopped = [
        bool(stops(item, use | {"leg_angle": f"{angle}° from horizontal"}, regime)) for angle in (*range(90, 0, -6), 3)
    ]
    assert stopped == sorted(stopped)
    assert stopped[-1]


@pytest.mark.parametrize("regime", REGIMES)
def test_a_heavier_load_never_becomes_fit(regime):
    item = roundsling(breaking_force="400 kN")
    stopped = [
        bool(stops(item, {"load": f"{load} kN", "hitch": "straight"}, regime)) for load in (1, 5, 15, 19, 20, 21, 60)
    ]
    assert (stopped[0], stopped[-1]) == (False, True)
    assert stopped == sorted(stopped)


@pytest.mark.parametrize("regime", REGIMES)
@pytest.mark.parametrize("fibre", ["polyester", "polypropylene"])
def test_more_heat_never_becomes_fit(regime, fibre):
    stopped = [bool(stops(web_sling(fibre=fibre), {"hottest": f"{one} °C"}, regime)) for one in range(20, 130, 10)]
    assert (stopped[0], stopped[-1]) == (False, True)
    assert stopped == sorted(stopped)


# --- a lift that lacks something ---


@pytest.mark.parametrize("regimes", [(), *((one,) for one in REGIMES)])
@pytest.mark.parametrize(
    ("item", "use", "says"),
    [
        (rope_sling(working_load_limit=None), LIFT, "working load limit is not on record"),
        (web_sling(working_load_limit=None), LIFT, "working load limit is not on record"),
        (rope_sling(), {"load": "10 kN", "hitch": "straight", "legs": 2}, "angle of the legs"),
        (rope_sling(), {"load": "10 kN"}, "straight, choker or basket"),
        (rope_sling(), {"leg_angle": "60° from horizontal"}, "whole load"),
    ],
)
def test_a_lift_is_refused_until_all_of_it_is_known(item, use, says, regimes):
    judgement = judged({key: value for key, value in item.items() if value is not None}, use, *regimes)
    told = [one for one in judgement.not_for_this_use if says in one.sentence]
    assert told
    assert all(one.action == "Not for this use until that is known." for one in told)


def test_a_tag_that_gives_no_load_is_for_a_competent_person_and_not_for_another_reading():
    item = {key: value for key, value in rope_sling().items() if key != "working_load_limit"}
    told = [one for one in judged(item, LIFT).not_for_this_use if "limit is not on record" in one.sentence]
    assert {one.door for one in told} == {Door.REFER}


@pytest.mark.criterion("working-load")
@pytest.mark.parametrize(("load", "told"), [("20.1 kN", "not for it"), ("19.9 kN", "too near"), ("19 kN", "for it")])
def test_a_leg_carries_no_more_than_its_working_load_limit(load, told):
    """Common practice, no source: T = W / (n sin θ) against the tag."""
    assert outcome(rulings(rope_sling(), {"load": load, "hitch": "straight"})["leg-tension"]) == told


@pytest.mark.criterion("throat-angle")
@pytest.mark.parametrize(("eye", "told"), [("190 mm", "not for it"), ("193 mm", "too near"), ("220 mm", "for it")])
def test_a_line_too_makes_no_more_than_60_degrees_at_its_throat(eye, told):
    """Common practice, no source: the law's 60° speaks of slings. On a pin of 100 mm that is an eye of 191.3 mm."""
    item = rope_sling(kind="line", duty="mooring")
    use = {"pin_diameter": "100 mm", "eye_length": eye}
    assert outcome(rulings(item, use)["throat-angle-practice"]) == told


def test_what_is_too_near_says_what_to_do_about_the_use():
    told = rulings(rope_sling(), {"load": "19.9 kN", "hitch": "straight"})["leg-tension"]
    assert told.action == "Too near to be sure. Not for this use: a lighter load, steeper legs, or a larger sling."


# --- several regimes ---


@pytest.mark.parametrize(
    ("item", "use"),
    [
        (rope_sling(), LIFT),
        (rope_sling(), {"load": "19 kN", "hitch": "choker"}),
        (web_sling(), {"load": "30 kN", "hitch": "straight", "legs": 4, "leg_angle": "40° from vertical"}),
        (web_sling(fibre="polypropylene"), {"hottest": "85 °C", "coldest": "-35 °C"}),
        (web_sling(), {"persons": True, "load": "1 kN", "hitch": "straight"}),
    ],
)
def test_one_more_regime_takes_away_no_rule_that_stops_a_use(item, use):
    together = stops(item, use, *REGIMES) - {"no-rule"}
    assert together == set().union(*(stops(item, use, one) - {"no-rule"} for one in REGIMES))


# --- advice ---


@pytest.mark.parametrize(
    ("fibre", "moisture", "noted"), [("nylon", "wet", 1), ("nylon", "dry", 0), ("polyester", "wet", 0)]
)
def test_wet_nylon_is_told_to_be_weaker(fibre, moisture, noted):
    """Common practice, no source; shown with its range and deciding nothing."""
    judgement = judged(rope_sling(fibre=fibre), {"moisture": moisture})
    assert len([one for one in judgement.advisories if "10 to 20 %" in one]) == noted
    assert judgement.not_for_this_use == ()


@pytest.mark.parametrize(("legs", "noted"), [(3, 0), (4, 1)])
def test_four_legs_are_told_to_share_badly_under_a_stiff_load(legs, noted):
    use = {"load": "1 kN", "hitch": "straight", "legs": legs, "leg_angle": "60° from horizontal"}
    assert len([one for one in judged(web_sling(), use, "EU").advisories if "stiff load" in one]) == noted


def test_a_tag_without_a_certificate_is_told_to_be_taken_on_its_makers_word():
    noted = [one for one in judged(rope_sling(), LIFT).advisories if "maker's word" in one]
    assert len(noted) == 1


def test_a_use_that_names_no_load_is_told_nothing_of_a_load():
    assert judged(rope_sling(legs=4), {"moisture": "dry"}).advisories == ()


def test_the_worst_of_a_use_never_reads_serviceable():
    assert all(one.answer is Answer.HOLD for one in judged(rope_sling(), RUINOUS, *REGIMES).not_for_this_use)
