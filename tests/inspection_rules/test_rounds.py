"""Rounds: ready, or not and why."""

from collections.abc import Mapping
from datetime import date

import pytest
from pydantic import ValidationError

from inspection_rules.item import Item
from inspection_rules.rounds import Round, RoundEntry, stops_by_use_alone, sum_up
from inspection_rules.standing import Standing
from inspection_rules.words import Answer, Door, State


def line(tag: str) -> Item:
    return Item.model_validate(
        {
            "id": tag, "tag": tag, "kind": "line", "duty": "mooring", "fibre": "HMPE", "diameter": "24 mm",
            "construction": "hollow braid, twelve-strand", "parts": [{"id": "body", "kind": "body"}],
        }
    )  # fmt: skip


def standing(answer: Answer, sentence: str = "", state: State = State.IN_SERVICE) -> Standing:
    door = Door.REFER if answer is Answer.HOLD else None
    return Standing(state=state, answer=answer, door=door, sentence=sentence or f"It is {answer}.")


def a_round(*entries: Mapping[str, object], expected: tuple[str, ...] = ("ML-01", "ML-02")) -> Round:
    return Round.model_validate(
        {
            "id": "r", "at": "2050-03-01T05:00:00Z", "by": {"name": "mate", "competence": "user"},
            "place": "Sandpiper", "expected": expected, "entries": entries,
        }
    )  # fmt: skip


def inspected(tag: str) -> dict[str, str]:
    return {"item": tag, "whereabouts": "inspected", "inspection": f"look at {tag}"}


ITEMS = {tag: line(tag) for tag in ("ML-01", "ML-02", "ML-03")}
LATE = standing(Answer.HOLD, "Its examination is overdue.").model_copy(update={"latest_on": date(2050, 1, 1)})
SOUND = {tag: standing(Answer.SERVICEABLE) for tag in ITEMS}


def test_round_is_ready_when_every_item_was_inspected_and_may_be_used() -> None:
    watched = SOUND | {"ML-02": standing(Answer.WATCH)}
    assert sum_up(a_round(inspected("ML-01"), inspected("ML-02")), ITEMS, watched).ready


@pytest.mark.parametrize("answer", [Answer.HOLD, Answer.REMOVE])
def test_round_is_not_ready_with_an_item_that_must_not_be_used_and_says_why(answer: Answer) -> None:
    stopped = SOUND | {"ML-02": standing(answer, "The tail has moved.")}
    found = sum_up(a_round(inspected("ML-01"), inspected("ML-02")), ITEMS, stopped)
    assert not found.ready
    assert [(stop.tag, stop.sentence) for stop in found.stops] == [("ML-02", "The tail has moved.")]


def test_item_that_nobody_looked_at_stops_the_round() -> None:
    found = sum_up(a_round(inspected("ML-01")), ITEMS, SOUND)
    assert [(stop.tag, stop.sentence) for stop in found.stops] == [("ML-02", "Not looked at in this round.")]


def test_item_that_was_not_found_stops_the_round() -> None:
    found = sum_up(a_round(inspected("ML-01"), {"item": "ML-02", "whereabouts": "not found"}), ITEMS, SOUND)
    assert [stop.sentence for stop in found.stops] == ["Not found."]


@pytest.mark.parametrize("where", ["ashore", "on loan"])
def test_item_that_is_elsewhere_is_told_and_does_not_stop_the_round(where: str) -> None:
    found = sum_up(a_round(inspected("ML-01"), {"item": "ML-02", "whereabouts": where}), ITEMS, SOUND)
    assert found.ready
    assert where in found.lines[1].sentence.lower()


def test_condemned_item_that_turns_up_is_called_out() -> None:
    gone = SOUND | {"ML-03": standing(Answer.REMOVE, state=State.CONDEMNED)}
    found = sum_up(a_round(inspected("ML-01"), inspected("ML-02"), inspected("ML-03")), ITEMS, gone)
    assert [stop.tag for stop in found.stops] == ["ML-03"]
    assert "condemned" in found.stops[0].sentence.lower()


def test_worst_stop_is_named_first() -> None:
    stopped = {"ML-01": standing(Answer.HOLD), "ML-02": standing(Answer.REMOVE)}
    found = sum_up(a_round(inspected("ML-01"), inspected("ML-02")), ITEMS, stopped)
    assert [stop.tag for stop in found.stops] == ["ML-02", "ML-01"]


def test_item_without_any_record_stops_the_round() -> None:
    assert not sum_up(a_round(inspected("ML-01"), inspected("ML-02")), ITEMS, {"ML-01": SOUND["ML-01"]}).ready


def test_lines_come_in_walking_order_with_strangers_last() -> None:
    found = sum_up(a_round(inspected("ML-03"), inspected("ML-02"), inspected("ML-01")), ITEMS, SOUND)
    assert [one.tag for one in found.lines] == ["ML-01", "ML-02", "ML-03"]


def test_inspected_entry_without_its_inspection_is_refused() -> None:
    with pytest.raises(ValidationError, match="names its 'inspection'"):
        RoundEntry.model_validate({"item": "ML-01", "whereabouts": "inspected"})


def test_two_entries_for_one_item_are_refused() -> None:
    with pytest.raises(ValidationError, match="two entries"):
        a_round(inspected("ML-01"), inspected("ML-01"))


@pytest.mark.parametrize(
    ("entries", "said"),
    [
        ([inspected("ML-01")], "Not looked at in this round. Its examination is overdue."),
        ([inspected("ML-01"), {"item": "ML-02", "whereabouts": "not found"}], "Not found. Its examination is overdue."),
    ],
)
def test_what_stops_an_item_anyway_is_said_beside_that_nobody_looked(entries: list[dict[str, str]], said: str) -> None:
    stopped = SOUND | {"ML-02": LATE}
    assert [stop.sentence for stop in sum_up(a_round(*entries), ITEMS, stopped).stops] == [said]


def test_of_what_was_never_inspected_only_that_nobody_looked_is_said() -> None:
    never = SOUND | {"ML-02": standing(Answer.HOLD, "No inspection is on record.")}
    found = sum_up(a_round(inspected("ML-01")), ITEMS, never)
    assert [stop.sentence for stop in found.stops] == ["Not looked at in this round."]


def not_for_its_use(tag: str) -> dict[str, object]:
    told = {
        "rule": "leg-tension", "pack": "common-practice-use", "title": "Tension", "scope": "use", "answer": "hold",
        "sentence": "50 kN, limit at most 20 kN.",
        "source": {"document": "Common practice", "kind": "common practice", "verified": "none"},
    }  # fmt: skip
    return {**inspected(tag), "not_for_this_use": (told,)}


def test_item_that_is_not_for_the_use_stops_the_round_with_the_reason() -> None:
    found = sum_up(a_round(inspected("ML-01"), not_for_its_use("ML-02")), ITEMS, SOUND)
    assert [(stop.tag, stop.sentence) for stop in found.stops] == [
        ("ML-02", "Not for this use. 50 kN, limit at most 20 kN.")
    ]


def test_item_that_only_the_use_stops_keeps_its_own_answer() -> None:
    made = a_round(inspected("ML-01"), not_for_its_use("ML-02"))
    (stop,) = sum_up(made, ITEMS, SOUND).stops
    assert stops_by_use_alone(made, stop)
    assert stop.answer is Answer.SERVICEABLE


def test_item_that_is_held_as_well_is_not_stopped_by_the_use_alone() -> None:
    made = a_round(inspected("ML-01"), not_for_its_use("ML-02"))
    (stop,) = sum_up(made, ITEMS, SOUND | {"ML-02": LATE}).stops
    assert not stops_by_use_alone(made, stop)
