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
    assert tail(diameter, f"{limit_mm + 0.1:.1f} mm").answer is Answer.SERVICEABLE


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
