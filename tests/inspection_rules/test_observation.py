"""What an observation must say of itself before it can be asked."""

from typing import Any

import pytest
from pydantic import ValidationError

from inspection_rules.observation import Observation

HEAD: dict[str, Any] = {"id": "girth", "station": "body", "on": "body", "ask": "Girth"}
READING = HEAD | {"kind": "reading", "dimension": "length", "unit": "mm", "methods": ["girth tape"]}
QUESTION = HEAD | {"kind": "question", "good": "Even", "conditions": [{"id": "torn", "say": "Torn"}]}


@pytest.mark.parametrize("whole", [READING, QUESTION], ids=["reading", "question"])
def test_a_whole_observation_is_taken(whole: dict[str, Any]) -> None:
    assert Observation.model_validate(whole, strict=False).id == "girth"


def test_a_reading_that_does_not_say_how_often_is_read_once() -> None:
    assert Observation.model_validate(READING, strict=False).repeats == 1


@pytest.mark.parametrize(("repeats", "taken"), [(0, False), (1, True), (20, True), (21, False)])
def test_a_reading_is_repeated_once_to_twenty_times(repeats: int, taken: bool) -> None:
    if taken:
        assert Observation.model_validate(READING | {"repeats": repeats}, strict=False).repeats == repeats
    else:
        with pytest.raises(ValidationError, match="repeats"):
            Observation.model_validate(READING | {"repeats": repeats}, strict=False)


@pytest.mark.parametrize(
    ("whole", "left_out", "why"),
    [
        (READING, "dimension", "a reading needs 'dimension' and 'methods'"),
        (READING, "methods", "a reading needs 'dimension' and 'methods'"),
        (QUESTION, "good", "a question needs 'good' and 'conditions'"),
        (QUESTION, "conditions", "a question needs 'good' and 'conditions'"),
    ],
)
def test_an_observation_that_could_not_be_asked_is_refused(whole: dict[str, Any], left_out: str, why: str) -> None:
    with pytest.raises(ValidationError, match=why):
        Observation.model_validate({name: value for name, value in whole.items() if name != left_out}, strict=False)
