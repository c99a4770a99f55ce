"""The report's sentences: each way back is told by its own words, each source by how well it was verified."""

from decimal import Decimal

import pytest

from app.reports.wording import comes_back, doubt_line, heading, part_name, reading_line, source_line
from inspection_rules.judgement import Ruling, Source
from inspection_rules.words import Answer, Door, Mend

from .harbour import line, sling

LAW = Source(document="Act on slings", edition="2020", clause="§ 7", kind="regulation", verified="read")


def ruling(**more: object) -> Ruling:
    head = {"rule": "tail", "pack": "law", "title": "Tail", "answer": "remove", "source": LAW, "sentence": "Short."}
    return Ruling.model_validate({**head, **more})


@pytest.mark.parametrize(
    ("mend", "told"),
    [
        (Mend.NOTHING, "nothing: it stays out of service"),
        (Mend.LOOK, "a competent person's release that names this finding"),
        (Mend.RE_SPLICE, "re-splice as a new part, on record, and then a competent person's release"),
        (Mend.REPAIR_AND_PROOF, "repair and proof load, on record, and then a competent person's release"),
        (Mend.EXAMINE, "the examination that is due, by a competent person"),
    ],
)
def test_what_brings_a_removed_item_back(mend: Mend, told: str) -> None:
    assert comes_back(ruling(mends=mend)).startswith(told)


def test_a_hold_to_look_again_is_left_by_looking() -> None:
    assert comes_back(ruling(answer="hold", door="look again")) == "the observation, made and in order"


def test_a_hold_to_refer_is_left_by_a_release_and_by_no_work_alone() -> None:
    told = comes_back(ruling(answer="hold", door="refer", mends=Mend.RE_SPLICE))
    assert told == "re-splice as a new part, on record, and then a competent person's release that names this finding"


@pytest.mark.parametrize(
    ("verified", "kind", "told"),
    [
        ("read", "regulation", "read"),
        ("secondary", "standard", "secondary source"),
        ("memory", "handbook", "source not verified"),
        ("none", "common practice", "common practice, no published source"),
        ("none", "site", "rule of this site, no published source"),
    ],
)
def test_a_source_is_told_with_how_well_it_was_verified(verified: str, kind: str, told: str) -> None:
    source = LAW.model_copy(update={"verified": verified, "kind": kind})
    assert source_line(source) == f"Act on slings, 2020, § 7 – {told}"


def test_common_practice_is_not_said_twice() -> None:
    source = Source(document="Common practice", kind="common practice", verified="none")
    assert source_line(source) == "common practice, no published source"


def numbers(value: str, limit: str, margin: str, unit: str, **more: object) -> Ruling:
    return ruling(value=Decimal(value), limit=Decimal(limit), margin=Decimal(margin), unit=unit, **more)


def test_a_reading_is_told_against_its_limit_with_its_margin() -> None:
    assert reading_line(numbers("104", "120", "-16", "mm")) == "104 mm against a limit of 120 mm: misses it by 16 mm"
    assert reading_line(numbers("4", "4", "0", "")) == "4 against a limit of 4: exactly at the limit"


def test_the_margin_of_a_percentage_is_in_points() -> None:
    assert reading_line(numbers("4", "10", "6", "%")) == "4 % against a limit of 10 %: keeps it by 6 points"


def test_slip_is_told_against_an_action_value_since_no_limit_is_published() -> None:
    told = reading_line(numbers("11.5", "12", "0.5", "mm", measure="slip"))
    assert told == "11.5 mm against a limit of 12 mm: keeps it by 0.5 mm"


def test_a_ruling_without_numbers_has_no_reading() -> None:
    assert reading_line(ruling()) == ""
    assert doubt_line(ruling()) == ""


def test_a_probability_is_told_only_where_a_study_carries_it() -> None:
    known = {"u": Decimal("1.5"), "u_source": "study 2", "probability": Decimal("0.81")}
    assert doubt_line(numbers("8", "10", "2", "mm", **known)) == "standard uncertainty 1.5 mm (study 2)"
    studied = doubt_line(numbers("8", "10", "2", "mm", from_study=True, **known))
    assert studied == "standard uncertainty 1.5 mm (study 2); conforms with probability 0.81"


def test_every_stop_has_its_own_line_under_do_not_use() -> None:
    lines = {
        heading(Answer.REMOVE, None),
        heading(Answer.REMOVE, None, condemned=True),
        heading(Answer.HOLD, Door.LOOK_AGAIN),
        heading(Answer.HOLD, Door.REFER),
    }
    assert len(lines) == 4


def test_parts_are_named_in_the_trade_s_words() -> None:
    assert part_name(line("ML-01"), "A") == "end A, buried eye"
    assert part_name(sling("RS-01"), "body") == "body"
    assert part_name(sling("RS-01"), "") == "the whole item"
    assert part_name(None, "B") == "B"
