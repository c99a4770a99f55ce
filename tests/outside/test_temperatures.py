"""Temperatures and chemicals to come, by fibre and regime, against the clauses that were read.

Each limit beyond it, inside it within its doubt (3.3 °C by default), and well inside it.
"""

import pytest

from inspection_rules.quantity import parse

from ..inspection_rules.uses import braided_sling, judged, outcome, rope_sling, roundsling, rulings, stops, web_sling

LAID = rope_sling
PP_WEB = web_sling(fibre="polypropylene")


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [("-20 °F", -28.89), ("140 °F", 60.0), ("180 °F", 82.22), ("194 °F", 90.0), ("200 °F", 93.33), ("212 °F", 100.0)],
)
def test_conversions_of_the_limits(fahrenheit, celsius):
    assert float(parse(fahrenheit).to("°C")) == pytest.approx(celsius, abs=5e-3)


CASES = [
    # 29 CFR 1910.184(h)(2), read: laid rope slings from -20 to 180 °F
    *[(LAID(fibre=fibre), "US lifting", "us-heat-laid", "hottest", ("181 °F", "179 °F", "170 °F"))
      for fibre in ("polyester", "nylon", "polypropylene", "manila", "sisal", "hemp")],
    (LAID(), "US lifting", "us-cold-laid", "coldest", ("-21 °F", "-19 °F", "-10 °F")),
    # EM 385-1-1 section 15.D.05 after ASME B30.9, secondary: -40 to 194 °F
    (braided_sling(fibre="polyester"), "US lifting", "us-heat-rope", "hottest", ("195 °F", "193 °F", "185 °F")),
    (braided_sling(fibre="polyester"), "US lifting", "us-cold-rope", "coldest", ("-41 °F", "-39 °F", "-30 °F")),
    (web_sling(), "US lifting", "us-cold-web", "coldest", ("-41 °F", "-39 °F", "-30 °F")),
    # 29 CFR 1910.184(i)(7), read: web slings, polyester and nylon 180 °F, polypropylene 200 °F
    (web_sling(), "US lifting", "us-heat-web", "hottest", ("181 °F", "179 °F", "170 °F")),
    (web_sling(fibre="nylon"), "US lifting", "us-heat-web", "hottest", ("181 °F", "179 °F", "170 °F")),
    (PP_WEB, "US lifting", "us-heat-web-polypropylene", "hottest", ("201 °F", "199 °F", "190 °F")),
    # ASME B30.9 chapter 9-6, from memory
    (roundsling(), "US lifting", "us-heat-roundsling", "hottest", ("195 °F", "193 °F", "185 °F")),
    (roundsling(), "US lifting", "us-cold-roundsling", "coldest", ("-41 °F", "-39 °F", "-30 °F")),
    # EN 1492-1 and -2, scope, read: polyester and polyamide -40 to 100 °C, polypropylene to 80 °C
    *[(make, regime, f"{regime.lower()}-heat", "hottest", ("100.1 °C", "99 °C", "96 °C"))
      for make in (web_sling(), roundsling(fibre="nylon")) for regime in ("EU", "UK")],
    *[(PP_WEB, regime, f"{regime.lower()}-heat-polypropylene", "hottest", ("80.1 °C", "79 °C", "76 °C"))
      for regime in ("EU", "UK")],
    *[(web_sling(), regime, f"{regime.lower()}-cold", "coldest", ("-40.1 °C", "-39 °C", "-36 °C"))
      for regime in ("EU", "UK")],
    # Alberta OHS Code explanation guide, s.305, read: above 90 °C damages nylon and polyester
    (web_sling(fibre="nylon"), "Canada Alberta", "alberta-heat-web", "hottest", ("90.1 °C", "89 °C", "86 °C")),
]  # fmt: skip


@pytest.mark.criterion("temperature")
@pytest.mark.parametrize(
    ("item", "regime", "rule", "field", "temperatures"),
    CASES,
    ids=[f"{case[2]}-{case[0]['kind']}-{case[0]['fibre']}" for case in CASES],
)
def test_a_sling_is_not_used_beyond_its_regimes_temperatures(item, regime, rule, field, temperatures):
    told = [rulings(item, {field: one}, regime)[rule] for one in temperatures]
    assert [outcome(one) for one in told] == ["not for it", "too near", "for it"]


# --- polypropylene: sources differ ---


@pytest.mark.criterion("temperature")
def test_polypropylene_between_two_sources_is_not_for_this_use_and_both_are_shown():
    """EN 1492-1 stops at 80 °C, 29 CFR 1910.184(i)(7) at 200 °F (93.3 °C): at 85 °C the stricter counts."""
    judgement = judged(PP_WEB, {"hottest": "85 °C"}, "US lifting", "EU")
    assert {one.rule for one in judgement.not_for_this_use} >= {"eu-heat-polypropylene"}
    assert {one.rule for one in judgement.for_this_use} == {"us-heat-web-polypropylene"}
    assert [note for note in judgement.advisories if "80 °C" in note and "93.3 °C" in note]


def test_polypropylene_is_taken_by_the_stricter_figure_where_the_milder_regime_is_chosen_alone():
    assert stops(PP_WEB, {"hottest": "85 °C"}, "US lifting") == {"heat-polypropylene"}


def test_a_long_stay_above_60_degrees_is_advised_against():
    """EM 385-1-1 section 15.D.05, secondary: 140 °F."""

    def noted(hottest):
        return [one for one in judged(web_sling(), {"hottest": hottest}).advisories if "140 °F" in one]

    assert [len(noted(one)) for one in ("139 °F", "140 °F", "141 °F")] == [0, 0, 1]


@pytest.mark.criterion("frozen")
@pytest.mark.parametrize(("item", "rule"), [(rope_sling(), "us-frozen"), (web_sling(), "frozen")])
def test_frozen_slings_are_not_used(item, rule):
    """29 CFR 1910.184(h)(2), read, for wet frozen rope slings; common practice, no source, for all others."""
    assert rule in stops(item, {"moisture": "frozen"}, "US lifting")
    assert stops(item, {"moisture": "wet"}, "US lifting") == set()


# --- chemicals ---


@pytest.mark.criterion("chemical-to-come")
@pytest.mark.parametrize(
    ("fibre", "chemical", "rule"),
    [
        ("nylon", "acid", "us-web-nylon-acid"),
        ("nylon", "phenolic", "us-web-nylon-acid"),
        ("polyester", "caustic", "us-web-polyester-caustic"),
        ("polypropylene", "caustic", "us-web-polypropylene-caustic"),
    ],
)
def test_web_slings_are_kept_from_the_chemical_of_their_fibre(fibre, chemical, rule):
    """29 CFR 1910.184(i)(6), text read in 1926.251(e)."""
    assert rule in stops(web_sling(fibre=fibre), {"chemicals": [chemical]}, "US lifting")
    assert rule not in stops(web_sling(fibre=fibre), {"chemicals": ["solvent"]}, "US lifting")


@pytest.mark.criterion("chemical-to-come")
def test_polypropylene_and_caustics_follow_the_law_and_say_why():
    told = rulings(PP_WEB, {"chemicals": ["caustic"]}, "US lifting")["us-web-polypropylene-caustic"]
    assert "groups it with polyester" in told.sentence


@pytest.mark.criterion("chemical-to-come")
def test_caustics_are_kept_from_fittings_that_may_be_aluminium():
    """29 CFR 1910.184(i)(6), read."""
    bare = web_sling(fibre="nylon")
    shackled = web_sling(fibre="nylon", parts=[*bare["parts"], {"id": "F", "kind": "fitting", "fitting": "shackle"}])
    assert "us-web-fitting-caustic" in stops(shackled, {"chemicals": ["caustic"]}, "US lifting")
    assert "us-web-fitting-caustic" not in stops(bare, {"chemicals": ["caustic"]}, "US lifting")


@pytest.mark.criterion("chemical-to-come")
@pytest.mark.parametrize("fibre", ["manila", "sisal", "hemp"])
@pytest.mark.parametrize("chemical", ["acid", "caustic"])
def test_natural_fibre_is_kept_from_acid_and_alkali(fibre, chemical):
    """ILO dock work code 11.4.3 and WAC 296-24-29405, read."""
    assert "natural-fibre-acid-caustic" in stops(rope_sling(fibre=fibre), {"chemicals": [chemical]})
