"""29 CFR 1910.184(h)(3), same text in 1926.251(d): the law's numbers for splices of laid lifting slings.

Read in: up.codes 1926.251(d) and WAC 296-78-755, which repeats it. Each limit is tried at the limit, just
inside and just outside.
"""

import pytest

from inspection_rules.words import Answer, Door

from ..inspection_rules.building import case, inspection, judged, laid_sling, ruling


def tail(diameter: str, length: str, rule: str = "tail-projection"):
    """The law's ruling on a tail of this length, with a study so good that only the number decides."""
    item = laid_sling(diameter=diameter)
    readings = {("A", "tail"): [length], ("B", "tail"): ["200 mm"]}
    look = inspection(item, "periodic", "2026-07-01", readings=readings)
    for entry in look["readings"]:
        if entry["observation"] == "tail":
            entry |= {"u": "0.001 mm", "u_study": "test of the bare number"}
    return ruling(judged(case(item, look)), rule)


def tucks(count: str, fibre: str):
    item = laid_sling(fibre=fibre)
    rule = "tucks-manila" if fibre == "manila" else "tucks-synthetic"
    look = inspection(item, "periodic", "2026-07-01", readings={("A", "tucks"): [count]})
    return ruling(judged(case(item, look)), rule)


@pytest.mark.criterion("tuck-count")
@pytest.mark.parametrize("fibre", ["nylon", "polyester", "polypropylene"])
def test_an_eye_splice_in_synthetic_rope_has_at_least_four_full_tucks(fibre):
    assert [tucks(n, fibre).answer for n in ("3", "4", "5")] == [Answer.REMOVE, Answer.SERVICEABLE, Answer.SERVICEABLE]


@pytest.mark.criterion("tuck-count")
def test_an_eye_splice_in_manila_has_at_least_three_full_tucks():
    assert [tucks(n, "manila").answer for n in ("2", "3", "4")] == [
        Answer.REMOVE,
        Answer.SERVICEABLE,
        Answer.SERVICEABLE,
    ]


@pytest.mark.criterion("tail-projection")
@pytest.mark.parametrize(
    ("diameter", "limit_mm"),
    [
        ("16 mm", 96.0),     # 6 × 16, handbook arithmetic
        ("1/4 in", 38.1),    # 1.5 in
        ("1/2 in", 76.2),    # 3.0 in
        ("3/4 in", 114.3),   # 4.5 in
        ("1 in", 152.4),     # 6 in, where both readings of the law meet
        ("32 mm", 152.4),    # 6 in, not 6 diameters
        ("2 in", 152.4),
    ],
)  # fmt: skip
def test_a_tail_projects_six_diameters_and_from_one_inch_on_six_inches(diameter, limit_mm):
    assert float(tail(diameter, "200 mm").limit) == pytest.approx(limit_mm, abs=1e-9)
    assert tail(diameter, f"{limit_mm - 0.1:.1f} mm").answer is Answer.REMOVE
    assert tail(diameter, f"{limit_mm + 0.3:.1f} mm").answer is Answer.SERVICEABLE


@pytest.mark.criterion("tail-projection")
def test_88_mm_on_a_16_mm_rope_fails():
    """Worked example: 88 ± 2 mm (k = 2) on d = 16 mm fails the 96 mm."""
    assert tail("16 mm", "88 mm").answer is Answer.REMOVE


@pytest.mark.criterion("tail-projection")
def test_a_tail_barely_inside_is_doubt_with_a_field_rule():
    item = laid_sling()
    look = inspection(item, "periodic", "2026-07-01", readings={("A", "tail"): ["97 mm"]})

    told = ruling(judged(case(item, look)), "tail-projection")

    assert (told.answer, told.door) == (Answer.HOLD, Door.LOOK_AGAIN)


@pytest.mark.criterion("throat-angle")
@pytest.mark.parametrize(("eye", "allowed"), [("190 mm", False), ("193 mm", False), ("220 mm", True)])
def test_an_eye_makes_no_more_than_60_degrees_at_its_throat(eye, allowed):
    """(h)(3)(vii). On a pin of 100 mm, 60° is an eye of 191.3 mm laid flat; near it the tape decides nothing."""
    item = laid_sling()
    look = inspection(item, "before use", "2026-07-01")

    judgement = judged(case(item, look, use={"pin_diameter": "100 mm", "eye_length": eye}))

    assert bool(judgement.not_for_this_use) is not allowed
    assert judgement.answer is Answer.SERVICEABLE


def test_the_law_speaks_of_three_strand_lifting_slings_and_of_nothing_else():
    """1910.184 covers conventional three-strand construction (scope as read)."""
    for changed in ({"kind": "line", "duty": "mooring"}, {"construction": "laid, four-strand"}):
        item = laid_sling(**changed)
        judgement = judged(case(item, inspection(item, "periodic", "2026-07-01")))
        assert not {"tucks-synthetic", "tail-projection"} & {r.rule for r in judgement.rulings}


# --- short splices, tapered tails, clear rope, knots -----------------------------------------------------


def law(item, rule, part, observation, value, kind="periodic"):
    """The law's ruling on one reading, with a study so good that only the number decides."""
    look = inspection(item, kind, "2026-07-01", readings={(part, observation): [value]})
    for entry in look["readings"]:
        if (entry["part"], entry["observation"]) == (part, observation) and observation.endswith(("tail", "length")):
            entry |= {"u": "0.001 mm", "u_study": "test of the bare number"}
    return ruling(judged(case(item, look)), rule, part)


def joined(**changed):
    """A grommet of three-strand polyester, 16 mm, joined by a short splice."""
    joint = {"id": "J", "kind": "joint", "splice": "tucked short splice"} | changed.pop("joint", {})
    return laid_sling(kind="grommet", parts=[joint, {"id": "body", "kind": "body"}], **changed)


def tapered():
    """The three-strand sling, its strand tails tapered and buried."""
    item = laid_sling()
    for part in item["parts"]:
        part |= {"tails_buried": True} if part["kind"] == "termination" else {}
    return item


@pytest.mark.criterion("tuck-count")
@pytest.mark.parametrize("side", ["tucks_one_side", "tucks_other_side"])
@pytest.mark.parametrize("fibre", ["nylon", "polyester", "polypropylene"])
def test_a_short_splice_in_synthetic_rope_has_eight_tucks_four_each_side(fibre, side):
    """(h)(3)(ii), read as above."""
    found = [law(joined(fibre=fibre), "tucks-synthetic", "J", side, n).answer for n in ("3", "4", "5")]
    assert found == [Answer.REMOVE, Answer.SERVICEABLE, Answer.SERVICEABLE]


@pytest.mark.criterion("tuck-count")
@pytest.mark.parametrize("side", ["tucks_one_side", "tucks_other_side"])
def test_a_short_splice_in_manila_has_six_tucks_three_each_side(side):
    """(h)(3)(i), read as above."""
    found = [law(joined(fibre="manila"), "tucks-manila", "J", side, n).answer for n in ("2", "3", "4")]
    assert found == [Answer.REMOVE, Answer.SERVICEABLE, Answer.SERVICEABLE]


@pytest.mark.criterion("tail-projection")
def test_the_tails_of_a_short_splice_project_six_diameters_too():
    """(h)(3)(iii), read as above: 6 × 16 mm is 96 mm."""
    assert law(joined(), "tail-projection", "J", "tail", "95.9 mm").answer is Answer.REMOVE
    assert law(joined(), "tail-projection", "J", "tail", "96.3 mm").answer is Answer.SERVICEABLE


@pytest.mark.criterion("buried-tail")
def test_tapered_and_buried_tails_have_at_least_two_more_tucks():
    """(h)(3)(iii), read as above."""
    found = [law(tapered(), "tails-tapered", "A", "extra_tucks", n).answer for n in ("1", "2", "3")]
    assert found == [Answer.REMOVE, Answer.SERVICEABLE, Answer.SERVICEABLE]


@pytest.mark.criterion("buried-tail")
def test_tails_that_are_tapered_and_buried_need_not_project():
    item = tapered()
    judgement = judged(case(item, inspection(item, "periodic", "2026-07-01")))

    assert judgement.answer is Answer.SERVICEABLE
    assert "tail-projection" not in {told.rule for told in judgement.rulings}


@pytest.mark.criterion("clear-length")
@pytest.mark.parametrize(
    ("length", "expected"),
    [("159.9 mm", Answer.REMOVE), ("160 mm", Answer.HOLD), ("160.3 mm", Answer.SERVICEABLE)],
)
def test_ten_diameters_of_clear_rope_lie_between_the_eye_splices(length, expected):
    """(h)(3)(iv), secondary (a training text): 10 × 16 mm. At the limit itself any doubt at all is a hold."""
    assert law(laid_sling(), "clear-length", "body", "clear_length", length, "as found").answer is expected


@pytest.mark.criterion("clear-length")
def test_clear_rope_seen_to_be_less_than_ten_diameters_removes():
    """(h)(3)(iv), secondary (a training text)."""
    item = laid_sling()
    look = inspection(item, "periodic", "2026-07-01", seen={("body", "clear_rope"): "less"})

    assert ruling(judged(case(item, look)), "clear-rope-short", "body").answer is Answer.REMOVE


@pytest.mark.criterion("knot")
def test_no_knot_stands_in_for_a_splice():
    """(h)(3)(v), knots read in 1926.251(d)."""
    item = laid_sling()
    for part in item["parts"]:
        part |= {"splice": "plain end"} if part["kind"] == "termination" else {}
    seen = inspection(item, "before use", "2026-07-01", seen={("A", "end_sound"): "knot_for_splice"})
    sound = inspection(item, "before use", "2026-07-01")

    assert ruling(judged(case(item, seen)), "knot-for-splice").answer is Answer.REMOVE
    assert ruling(judged(case(item, sound)), "knot-for-splice").answer is Answer.SERVICEABLE


def test_the_law_on_splices_says_nothing_of_a_mooring_line_or_of_braids():
    law_rules = {"tails-tapered", "clear-length", "clear-rope-short", "knot-for-splice"}
    for changed in ({"kind": "line", "duty": "mooring"}, {"construction": "plaited, eight-strand"}):
        item = tapered() | changed
        judgement = judged(case(item, inspection(item, "periodic", "2026-07-01")))
        assert not law_rules & {told.rule for told in judgement.rulings}
