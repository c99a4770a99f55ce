"""What a record refuses, and that every refusal names the place."""

from datetime import UTC, date, datetime
from typing import Any

import pytest
from pydantic import ValidationError

from inspection_rules.case import Case
from inspection_rules.events import Decision, Disposal, WorkDone
from inspection_rules.item import Item, Part
from inspection_rules.record import Finding, Inspection, Reading

from .strategies import Json, copy, laid_case, pendant_case, reading

EXAMINER = {"name": "yard examiner", "competence": "competent person"}
MATE = {"name": "mate", "competence": "user"}
DATED: Json = {"id": "1", "item": "item", "at": "2050-03-01T08:00:00Z", "by": EXAMINER}
PICTURE = "0" * 64


def refusal(model: Any, values: Json) -> str:
    """What is said when these values are refused: place and reason of the first thing wrong."""
    with pytest.raises(ValidationError) as refused:
        model.model_validate(values)
    first = refused.value.errors()[0]
    return f"{'.'.join(str(step) for step in first['loc'])}: {first['msg']}"


# --- one field wrong in a whole case ---------------------------------------------------------------------

WRONG_FIELDS: dict[str, tuple[tuple[str | int, ...], Any, str]] = {
    "unknown kind of item": (("item", "kind"), "hose", "item.kind"),
    "unknown fibre": (("item", "fibre"), "steel", "item.fibre"),
    "unknown construction": (("item", "construction"), "knitted", "item.construction"),
    "size without a unit": (("item", "diameter"), "24", "item.diameter"),
    "size as a bare number": (("item", "diameter"), 24, "item.diameter"),
    "negative size": (("item", "diameter"), "-24 mm", "item.diameter"),
    "size in another dimension": (("item", "diameter"), "24 kN", "item.diameter"),
    "size of zero": (("item", "diameter"), "0 mm", "item"),
    "no parts": (("item", "parts"), [], "item.parts"),
    "end that is neither A nor B": (("item", "parts", 0, "end"), "C", "item.parts.0.end"),
    "unknown splice": (("item", "parts", 0, "splice"), "knot", "item.parts.0.splice"),
    "required bury without its instruction": (("item", "parts", 0, "required_by"), "", "item.parts.0"),
    "unknown kind of inspection": (("inspection", "kind"), "weekly", "inspection.kind"),
    "time without an offset": (("inspection", "at"), "2050-05-20T08:00:00", "inspection.at"),
    "day that does not exist": (("inspection", "at"), "2050-02-30T08:00:00Z", "inspection.at"),
    "offset of more than fourteen hours": (
        ("inspection", "utc_offset_minutes"),
        841,
        "inspection.utc_offset_minutes",
    ),
    "unknown competence": (("inspection", "by", "competence"), "expert", "inspection.by.competence"),
    "person without a name": (("inspection", "by", "name"), "  ", "inspection.by.name"),
    "reading without values": (("inspection", "readings", 0, "values"), [], "inspection.readings.0.values"),
    "value that is no quantity": (
        ("inspection", "readings", 0, "values"),
        ["74 mm", "about 75"],
        "inspection.readings.0.values.1",
    ),
    "values of two dimensions": (("inspection", "readings", 0, "values"), ["74 mm", "4"], "inspection.readings.0"),
    "unknown method": (("inspection", "readings", 0, "method"), "guess", "inspection.readings.0.method"),
    "uncertainty without its study": (("inspection", "readings", 0, "u"), "1 mm", "inspection.readings.0"),
    "negative uncertainty": (("inspection", "readings", 0, "u"), "-1 mm", "inspection.readings.0.u"),
    "answer outside the list": (("inspection", "findings", 0, "seen"), "perhaps", "inspection.findings.0.seen"),
    "present without a condition": (("inspection", "findings", 0, "seen"), "present", "inspection.findings.0"),
    "condition without present": (("inspection", "findings", 0, "conditions"), ["cut"], "inspection.findings.0"),
    "not examined without a reason": (
        ("inspection", "findings", 0, "seen"),
        "could not be examined",
        "inspection.findings.0",
    ),
    "picture that is no hash": (("inspection", "pictures"), ["a.jpg"], "inspection.pictures.0"),
    "date that does not exist": (("on",), "2050-02-30", "on"),
    "unknown field": (("item", "strength"), "80 %", "item.strength"),
    "character that cannot be stored": (("item", "tag"), "SP\x0009", "item.tag"),
}


@pytest.mark.parametrize(("path", "value", "place"), WRONG_FIELDS.values(), ids=WRONG_FIELDS)
def test_wrong_field_is_refused_at_its_place(path: tuple[str | int, ...], value: Any, place: str) -> None:
    case = pendant_case()
    Case.model_validate(case)
    inner: Any = case
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = value
    assert refusal(Case, case).startswith(f"{place}: ")


@pytest.mark.parametrize("name", ["on", "item", "inspection"])
def test_missing_part_of_a_case_is_named(name: str) -> None:
    case = pendant_case()
    del case[name]
    assert refusal(Case, case) == f"{name}: Field required"


# --- what must fit together ------------------------------------------------------------------------------


def test_two_parts_with_one_id_are_refused() -> None:
    item = pendant_case()["item"]
    item["parts"].append(item["parts"][0])
    assert "two parts have the same 'id'" in refusal(Item, item)


def test_spliced_rope_without_a_size_is_refused() -> None:
    item = pendant_case()["item"]
    del item["diameter"]
    assert "needs its nominal 'diameter' or 'circumference'" in refusal(Item, item)


@pytest.mark.parametrize("diameter", ["1 mm", "500 mm"])
def test_the_thinnest_and_the_thickest_rope_are_taken(diameter: str) -> None:
    assert Item.model_validate(pendant_case()["item"] | {"diameter": diameter}).diameter is not None


@pytest.mark.parametrize("diameter", ["0.99 mm", "500.5 mm"])
def test_a_size_that_no_rope_has_is_refused(diameter: str) -> None:
    assert "no rope has that size" in refusal(Item, pendant_case()["item"] | {"diameter": diameter})


@pytest.mark.parametrize("circumference", ["72 mm", "89 mm", "57.6 mm"])
def test_rope_may_have_both_its_sizes(circumference: str) -> None:
    """24 mm is 72 mm round by the trade's three to one, give or take a quarter of the smaller of the two."""
    assert Item.model_validate(pendant_case()["item"] | {"circumference": circumference}).circumference is not None


@pytest.mark.parametrize("circumference", ["91 mm", "57 mm"])
def test_two_sizes_that_are_not_of_one_rope_are_refused(circumference: str) -> None:
    item = pendant_case()["item"] | {"circumference": circumference}
    assert "not of one rope" in refusal(Item, item)


@pytest.mark.parametrize("part", [{"kind": "fitting"}, {"kind": "body", "fitting": "thimble"}])
def test_a_fitting_says_what_it_is_and_nothing_else_does(part: Json) -> None:
    assert "a fitting needs 'fitting'" in refusal(Part, {"id": "F"} | part)


def test_termination_without_an_end_is_refused() -> None:
    assert "its 'end', A or B" in refusal(Part, {"id": "A", "kind": "termination", "splice": "buried eye"})


def test_termination_without_a_splice_is_refused() -> None:
    assert "a termination needs its 'splice'" in refusal(Part, {"id": "A", "kind": "termination", "end": "A"})


def test_body_with_a_splice_is_refused() -> None:
    assert "only a termination or a joint has a 'splice'" in refusal(
        Part, {"id": "body", "kind": "body", "splice": "buried eye"}
    )


@pytest.mark.parametrize("group", ["readings", "findings"])
def test_observation_answered_twice_is_refused_by_name(group: str) -> None:
    now = pendant_case()["inspection"]
    now[group].append(now[group][0])
    assert f"{now[group][0]['observation']} of part '{now[group][0]['part']}' is answered twice" in refusal(
        Inspection, now
    )


@pytest.mark.parametrize("group", ["readings", "findings"])
def test_entry_on_a_part_the_item_does_not_have_is_refused_by_name(group: str) -> None:
    case = pendant_case()
    entry = case["inspection"][group][0]
    entry["part"] = "C"
    said = refusal(Case, case)
    assert f"{entry['observation']} is of part 'C', which the item does not have" in said
    assert case["inspection"]["id"] in said


def test_inspection_of_another_item_is_refused_by_name() -> None:
    case = pendant_case()
    case["baselines"][0]["item"] = "another line"
    assert "is of another item, another line" in refusal(Case, case)


def test_inspection_later_than_the_one_judged_is_refused_by_name() -> None:
    case = pendant_case()
    case["baselines"][0]["at"] = "2051-01-01T08:00:00Z"
    assert f"{case['baselines'][0]['id']} is later than the one being judged" in refusal(Case, case)


def test_judging_for_a_date_before_the_inspection_is_refused() -> None:
    case = pendant_case() | {"on": "2050-05-19"}
    assert "'on' is 2050-05-19, before the date of the inspection judged" in refusal(Case, case)


def test_before_use_look_is_no_baseline() -> None:
    case = pendant_case()
    case["baselines"][0]["kind"] = "before use"
    assert "which is no baseline" in refusal(Case, case)


def test_baseline_does_not_stand_among_earlier_looks() -> None:
    case = pendant_case()
    case["earlier"] = [case["baselines"].pop()]
    assert "is a baseline; put it there" in refusal(Case, case)


def test_inspection_that_stands_twice_in_a_case_is_refused() -> None:
    case = laid_case()
    case["earlier"] = [copy(case["inspection"])]
    refusal(Case, case)


# --- what people decide ----------------------------------------------------------------------------------


def test_user_cannot_decide() -> None:
    values = DATED | {"by": MATE, "kind": "condemn", "reason": "worn out"}
    assert "only a competent or a qualified person decides this" in refusal(Decision, values)


def test_only_a_release_has_a_date_it_holds_until() -> None:
    refused = refusal(Decision, DATED | {"kind": "condemn", "reason": "it is worn out", "until": "2050-06-01"})
    assert "only a release has 'until'" in refused


def test_release_does_not_end_before_it_begins() -> None:
    named = {"inspection": "n1", "rule": "eye-chafed"}
    release = {"kind": "release", "reason": "looked at it", "examined": [named], "until": "1990-01-01"}
    assert "before the day it was released" in refusal(Decision, DATED | release)


def test_release_names_what_it_examined() -> None:
    assert "names in 'examined'" in refusal(Decision, DATED | {"kind": "release", "reason": "looked at it"})


@pytest.mark.parametrize("reason", ["", "   "])
def test_decision_without_a_reason_is_refused(reason: str) -> None:
    assert refusal(Decision, DATED | {"kind": "condemn", "reason": reason}).startswith("reason: ")


def test_disposal_without_a_photograph_is_refused() -> None:
    assert refusal(Disposal, DATED | {"how": "cut up", "pictures": []}).startswith("pictures: ")


def test_work_says_what_was_done() -> None:
    assert refusal(WorkDone, DATED | {"mends": "replace the fitting", "what": " "}).startswith("what: ")


def test_time_is_kept_in_utc_and_the_date_is_the_local_one() -> None:
    late = {"at": "2050-03-02T00:30:00+02:00", "utc_offset_minutes": 120, "how": "cut up", "pictures": [PICTURE]}
    gone = Disposal.model_validate(DATED | late)
    assert gone.at == datetime(2050, 3, 1, 22, 30, tzinfo=UTC)
    assert gone.on == date(2050, 3, 2)


@pytest.mark.parametrize("at", ["0001-01-01T00:00:00+14:00", "9999-12-31T23:00:00-14:00"])
def test_time_that_utc_cannot_hold_is_refused_at_its_place(at: str) -> None:
    assert refusal(Disposal, DATED | {"at": at, "how": "cut up", "pictures": [PICTURE]}).startswith("at: ")


# --- records are never changed ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    "record",
    [
        Part.model_validate({"id": "body", "kind": "body"}),
        Finding.model_validate({"observation": "tag", "seen": "absent"}),
        Reading.model_validate({"observation": "tail", "values": ["110 mm"], "method": "steel rule"}),
    ],
    ids=["part", "finding", "reading"],
)
def test_record_cannot_be_changed(record: Any) -> None:
    with pytest.raises(ValidationError, match="frozen"):
        record.part = "B"


def test_case_comes_back_the_same_from_its_own_json() -> None:
    case = pendant_case()
    found = reading(case["inspection"], "A", "mark_offset")
    assert found is not None
    found["values"] = ["−1 1/16 in", "0 mm"]
    once = Case.model_validate(case)
    assert Case.model_validate_json(once.model_dump_json()) == once
    assert "−1 1/16 in" in once.model_dump_json()
