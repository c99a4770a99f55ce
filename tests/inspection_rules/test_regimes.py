"""What a regime adds: who inspects, how often, what the tag says, what is kept; and what a duty adds without one."""

import pytest

from inspection_rules.book import shipped
from inspection_rules.words import Answer, Door, Mend

from .building import EXAMINER, LIFTING, MATE, inspection, judged, laid_sling
from .fittings import MADE, climbing, examined, fitting, hung, later, mooring, rules_of, said, web

REGIMES = ("US lifting", "US fall protection", "Canada Alberta", "UK", "EU", "Australia", "Mooring", "Tree work")
NAMED_BY_EMPLOYER = {"name": "yard hand", "competence": "competent person"}
DESIGNATED = {"name": "yard hand", "competence": "designated person"}


@pytest.mark.parametrize("regime", REGIMES)
def test_every_regime_has_a_pack(regime):
    assert shipped().chosen([regime]) != shipped().chosen([])


# --- who inspects ---


@pytest.mark.criterion("who-inspects")
@pytest.mark.parametrize("item", [laid_sling(), hung()], ids=["rope sling", "roundsling"])
@pytest.mark.parametrize(
    ("by", "answer"),
    [
        (MATE | {"competence": "user"}, Answer.HOLD),
        (DESIGNATED, Answer.HOLD),
        (NAMED_BY_EMPLOYER, None),
        (NAMED_BY_EMPLOYER | {"competence": "qualified person"}, None),
    ],
)
def test_under_the_us_law_a_competent_person_looks_at_a_sling_each_day_before_use(item, by, answer):
    """29 CFR 1926.251(a)(6), read; the standard's designated person does not do, since the law stands."""
    judgement = judged(examined(item, *LIFTING, kind="before use", by=by))
    told = [r.answer for r in judgement.rulings if r.rule == "us-sling-before-use-by"]
    assert told == ([answer] if answer else [])


@pytest.mark.criterion("who-inspects")
def test_a_look_by_the_wrong_person_is_closed_by_a_look_by_the_right_one():
    built = examined(laid_sling(), *LIFTING, kind="before use", by=MATE | {"competence": "user"})
    told = said(built, "us-sling-before-use-by")
    assert (told.mends, [kind.value for kind in told.closed_by]) == (Mend.EXAMINE, ["before use"])


def test_without_that_regime_any_user_looks_before_use():
    rules = rules_of(judged(examined(laid_sling(), kind="before use", by=MATE | {"competence": "user"})))
    assert "us-sling-before-use-by" not in rules


@pytest.mark.criterion("who-inspects")
def test_under_en_365_a_competent_person_makes_the_periodic_examination():
    """Secondary."""
    by = MATE | {"competence": "user"}
    assert said(examined(climbing(), "EU", by=by), "eu-examiner").answer is Answer.HOLD
    assert "eu-examiner" not in rules_of(judged(examined(climbing(), "EU")))


def test_a_competence_that_a_regime_asks_for_is_defined_there():
    asked = {
        (pack.regime, who) for pack in shipped().packs for rule in pack.rules if rule.needs for who in rule.needs.by
    }
    defined = {(pack.regime, one.competence) for pack in shipped().packs for one in pack.who}
    beyond = {(regime, who) for regime, who in asked - defined if regime and who.value != "qualified person"}
    assert not beyond


# --- how often ---


DUE = {
    "EN 365, secondary": (climbing("lanyard"), "eu-fall-periodic", "EU", "2026-02-28", "2027-02-28", "2027-03-01"),
    "EN 1492, from memory": (laid_sling(), "eu-sling-thorough", "EU", "2026-02-01", "2027-02-01", "2027-02-02"),
    "AS 4497, secondary": (hung(), "au-sling-quarterly", "Australia", "2026-11-30", "2027-02-28", "2027-03-01"),
    "AS 1353, secondary": (web(), "au-sling-quarterly", "Australia", "2026-02-01", "2026-05-01", "2026-05-02"),
    "AS/NZS 1891.4, secondary": (
        climbing(), "au-fall-half-yearly", "Australia", "2026-02-01", "2026-08-01", "2026-08-02"),
}  # fmt: skip


@pytest.mark.criterion("due-date")
@pytest.mark.parametrize(("item", "rule", "regime", "last", "last_day", "day_after"), DUE.values(), ids=DUE)
def test_an_interval_ends_on_its_last_day(item, rule, regime, last, last_day, day_after):
    assert later(item, rule, last, last_day, regime).answer is Answer.SERVICEABLE
    assert later(item, rule, last, day_after, regime).answer is Answer.HOLD


@pytest.mark.criterion("due-date")
def test_of_several_regimes_the_soonest_interval_counts():
    look = examined(climbing(), "UK", "EU", "Australia")
    assert judged(look).examination_due.isoformat() == "2026-08-01"


@pytest.mark.criterion("due-date")
def test_an_item_never_examined_is_held():
    built = examined(hung(), "Australia", kind="before use", case_past=[])
    told = said(built, "au-sling-quarterly")
    assert (told.answer, told.door) == (Answer.HOLD, Door.REFER)


# --- what the tag says ---


TAGS = {
    "1910.184(h)(1), read": (laid_sling(), "us-rope-tag-content", "US lifting", ("capacity", "angle", "fibre", "legs")),
    "1926.251(e), read": (web(), "us-web-tag-content", "US lifting", ("maker", "capacity", "material")),
    "B30.9 9-5.7.1, secondary": (
        web(), "us-web-tag-content-standard", "US lifting", ("maker", "stock number", "angle", "material", "legs")),
    "WAC 296-155-55825, read": (
        hung(), "us-round-tag-content", "US lifting", ("maker", "stock number", "angle", "core", "cover", "legs")),
    "EN 1492-2, secondary": (
        hung(), "eu-sling-tag-content", "EU", ("working load", "material", "grade", "length", "maker", "trace code")),
    "EN 365, secondary": (climbing(), "eu-fall-tag-content", "EU", ("maker", "serial", "standard", "instructions")),
    "LOLER 7, from memory": (laid_sling(), "uk-tag-content", "UK", ("safe working load", "persons")),
    "MSC.1/Circ.1620 3.3, read": (mooring(), "mooring-tag-content", "Mooring", ("certificate",)),
}  # fmt: skip


@pytest.mark.criterion("tag-content")
@pytest.mark.parametrize(("item", "rule", "regime", "words"), TAGS.values(), ids=TAGS)
def test_a_tag_that_does_not_say_what_the_regime_asks_for_is_held_and_told_what(item, rule, regime, words):
    lacking = said(examined(item, regime, seen={("", "tag_content"): "incomplete"}, case_past=[]), rule)
    assert lacking.answer is Answer.HOLD
    assert all(word in lacking.sentence for word in words)
    assert said(examined(item, regime, case_past=[]), rule).answer is Answer.SERVICEABLE


# --- hooks and hardware under a regime ---


HARDWARE = {
    "B30.10, from memory: opened": ("hook", "hook_throat", "31.6 mm", "30.5 mm", "us-hook-opened", "US lifting"),
    "B30.10, from memory: worn": ("hook", "fitting_thickness", "17.9 mm", "19 mm", "us-hook-worn", "US lifting"),
    "riggers' guide, secondary: opened": ("hook", "hook_throat", "31.6 mm", "30.5 mm", "au-hook-opened", "Australia"),
    "riggers' guide, secondary: worn": ("hook", "fitting_thickness", "17.9 mm", "19 mm", "au-hook-worn", "Australia"),
}  # fmt: skip


@pytest.mark.criterion("hook")
@pytest.mark.parametrize(("kind", "read", "beyond", "inside", "rule", "regime"), HARDWARE.values(), ids=HARDWARE)
def test_a_hook_beyond_5_and_10_percent_is_removed(kind, read, beyond, inside, rule, regime):
    def answer(value):
        look = examined(hung(fitting(kind)), regime, readings={("F", read): [value, value]}, case_past=[])
        return said(look, rule).answer

    assert (answer(beyond), answer(inside)) == (Answer.REMOVE, Answer.SERVICEABLE)


@pytest.mark.criterion("hook")
@pytest.mark.parametrize(("throat", "answer"), [("31.5 mm", Answer.HOLD), ("31.51 mm", Answer.REMOVE)])
def test_5_percent_itself_is_not_more_than_5_percent_but_too_near_to_pass(throat, answer):
    look = examined(hung(fitting("hook")), *LIFTING, readings={("F", "hook_throat"): [throat]}, case_past=[])
    assert said(look, "us-hook-opened").answer is answer


@pytest.mark.criterion("fitting")
@pytest.mark.parametrize("kind", ["shackle", "master link", "swivel"])
@pytest.mark.parametrize(("thick", "answer"), [("17.9 mm", Answer.REMOVE), ("19 mm", Answer.SERVICEABLE)])
def test_a_shackle_link_or_ring_worn_by_more_than_10_percent_is_removed(kind, thick, answer):
    """B30.26, from memory."""
    raw = examined(hung(fitting(kind)), *LIFTING, case_past=[])
    one = raw.model_dump(mode="json", exclude_unset=True)
    one["inspection"].setdefault("readings", []).append(
        {"observation": "fitting_thickness", "part": "F", "values": [thick], "method": "caliper"}
    )
    assert said(type(raw).model_validate(one), "us-hardware-worn").answer is answer


@pytest.mark.criterion("fitting")
@pytest.mark.parametrize(
    ("kind", "seen", "rule"),
    [
        ("shackle", "unreadable", "us-hardware-unidentified"),   # B30.26, from memory
        ("master link", "pitted", "us-fitting-damaged"),         # B30.9, secondary
        ("hook", "sharp", "us-fitting-damaged"),
        ("hook", "deformed", "us-fitting-damaged"),
    ],
)  # fmt: skip
def test_hardware_of_a_sling_that_is_damaged_or_unmarked_is_removed(kind, seen, rule):
    item = hung(fitting(kind))
    look = examined(item, *LIFTING, seen={("F", "fitting"): seen}, case_past=[])
    assert said(look, rule, "F").answer is Answer.REMOVE
    assert said(examined(item, *LIFTING, case_past=[]), rule, "F").answer is Answer.SERVICEABLE


@pytest.mark.criterion("fitting")
@pytest.mark.parametrize(
    ("seen", "rule"),
    [
        ("pitted", "us-rope-fitting-corroded"),   # B30.9 chapter 9-4, criterion k, secondary
        ("deformed", "us-rope-fitting-corroded"),
        ("deformed", "us-rope-fitting-damaged"),  # 29 CFR 1910.184(h)(5)(vi), secondary
    ],
)  # fmt: skip
def test_damaged_hardware_of_a_rope_sling_is_removed(seen, rule):
    sling = laid_sling()
    sling["parts"].append(fitting("hook"))
    told = examined(sling, *LIFTING, seen={("F", "fitting"): seen})
    assert said(told, rule, "F").answer is Answer.REMOVE
    assert said(examined(sling, *LIFTING), rule, "F").answer is Answer.SERVICEABLE


@pytest.mark.criterion("fitting")
def test_distorted_hardware_of_a_rope_sling_is_removed_before_use():
    """29 CFR 1910.184(h)(5)(vi), secondary."""
    sling = laid_sling()
    sling["parts"].append(fitting("hook"))
    look = examined(sling, *LIFTING, kind="before use", seen={("", "fittings"): "deformed"})
    assert said(look, "us-fittings-damaged").answer is Answer.REMOVE


# --- what a person hangs on, whatever the regime ---


@pytest.mark.criterion("maker-criteria")
@pytest.mark.parametrize(("kept", "answer"), [("", Answer.HOLD), ("instructions, first edition", Answer.SERVICEABLE)])
@pytest.mark.parametrize(
    ("rule", "regimes"), [("life-support-maker-criteria", ()), ("eu-fall-maker-procedure", ("EU",))]
)
def test_the_makers_criteria_come_first_for_what_a_person_hangs_on(rule, regimes, kept, answer):
    """EN 365, secondary; elsewhere common practice, no source."""
    assert said(examined(climbing(maker_criteria=kept), *regimes), rule).answer is answer


def test_before_use_the_makers_criteria_are_not_asked_for():
    look = examined(climbing(maker_criteria=""), kind="before use")
    assert "life-support-maker-criteria" not in rules_of(judged(look))


AGES = {
    "made ten years ago": ({"made": "2016-02-29"}, "life-support-made", "2026-02-28", "2026-03-01"),
    "used for five years": (
        {"made": "2021-03-01", "first_used": "2021-03-31"},
        "life-support-first-used",
        "2026-03-31",
        "2026-04-01",
    ),
}


@pytest.mark.criterion("age")
@pytest.mark.parametrize(("dates", "rule", "last_day", "day_after"), AGES.values(), ids=AGES)
@pytest.mark.parametrize("kind", ["line", "lanyard", "hitch cord"])
def test_an_old_rope_that_a_person_hangs_on_goes_to_a_competent_person(kind, dates, rule, last_day, day_after):
    """A trade article that names no standard, secondary: never a law, and shown as common practice."""
    item = climbing(kind, **dates)
    in_time, late = (said(examined(item, kind="before use", on=on), rule) for on in (last_day, day_after))
    assert (in_time.answer, late.answer, late.door) == (Answer.SERVICEABLE, Answer.HOLD, Door.REFER)
    assert late.source.verified == "none"
    assert "no law says so" in late.sentence


@pytest.mark.criterion("age")
@pytest.mark.parametrize(("field", "rule"), [("made", "life-support-made"), ("first_used", "life-support-first-used")])
def test_a_rope_of_unknown_age_that_a_person_hangs_on_is_held(field, rule):
    assert said(examined(climbing(**{field: None}), kind="before use"), rule).answer is Answer.HOLD


@pytest.mark.criterion("age")
def test_a_competent_person_may_accept_the_age_until_a_day():
    item = climbing(made="2016-01-01")
    held = inspection(item, "before use", "2026-02-01", regimes=())
    accepted = {
        "id": "acceptance", "item": item["id"], "at": "2026-02-02T08:00:00Z", "by": EXAMINER,
        "examined": [{"inspection": held["id"], "rule": "life-support-made"}],
        "extent": "ten years, as new inside", "reason": "examined by the maker's instructions", "until": "2026-06-30",
    }  # fmt: skip

    def on(day):
        look = examined(item, kind="before use", on=day, case_earlier=[held], case_accepted=[accepted])
        return said(look, "life-support-made").answer

    assert [on(day) for day in ("2026-06-30", "2026-07-01")] == [Answer.WATCH, Answer.HOLD]


@pytest.mark.parametrize("item", [mooring(), laid_sling(made=MADE)], ids=["mooring line", "lifting sling"])
def test_what_lifts_no_person_has_no_age_limit(item):
    rules = rules_of(judged(examined(item)))
    assert not {"life-support-made", "life-support-first-used", "life-support-maker-criteria"} & rules


# --- mooring on deck: what its examination sees, whatever the regime ---


@pytest.mark.parametrize(
    ("where", "seen", "answer"),
    [
        (("body", "drum_layers"), "sunk", Answer.WATCH),
        (("body", "drum_layers"), "crushed", Answer.HOLD),
        (("body", "contamination"), "stained", Answer.WATCH),
        (("body", "contamination"), "soaked", Answer.HOLD),
        (("", "tail_joint"), "other_tail", Answer.HOLD),
        (("", "tail_joint"), "joint_chafed", Answer.HOLD),
        (("", "tail_joint"), "joint_loose", Answer.HOLD),
        (("", "bore_on"), "grooved", Answer.WATCH),
        (("", "bore_on"), "burr", Answer.WATCH),
    ],
)
def test_what_is_seen_on_deck_is_watched_or_held(where, seen, answer):
    """Common practice, no source."""
    judgement = judged(examined(mooring(), "Mooring", seen={where: seen}))
    assert {r.answer for r in judgement.rulings if r.observation == where[1] and r.action} == {answer}
    assert judgement.answer is answer


def test_a_sound_mooring_line_with_its_papers_is_serviceable():
    assert judged(examined(mooring(), "Mooring")).answer is Answer.SERVICEABLE


# --- what is kept ---


@pytest.mark.parametrize(
    ("item", "regime", "words"),
    [
        (laid_sling(), "US lifting", "the most recent periodic inspection: until the next one"),   # B30.9-2010, read
        (climbing(), "EU", "for the life of the item"),                                            # EN 365, secondary
        (mooring(), "Mooring", "at least until the next annual survey is complete"),               # Circ.1620 6.1, read
    ],
)  # fmt: skip
def test_an_examination_says_how_long_its_record_is_kept(item, regime, words):
    assert any(words in line for line in judged(examined(item, regime)).advisories)
