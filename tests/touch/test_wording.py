"""Parts and places as they are called on deck."""

from fleet import GROMMET, LANYARD, MOORING

from app.touch.wording import answer_words, part_name, place_name, station_name
from inspection_rules.item import Part
from inspection_rules.words import Answer, Door


def test_fittings_of_a_kind_are_numbered_and_a_single_one_is_not() -> None:
    assert [part_name(LANYARD, one) for one in ("F1", "F2", "F3")] == ["connector 1", "connector 2", "adjuster"]
    assert part_name(MOORING, "F1") == "shackle"


def test_a_fitting_stands_on_the_rope_under_its_own_name() -> None:
    assert station_name(LANYARD, "F1", "fitting") == "connector 1"
    assert place_name(LANYARD, "F1", "fitting") == "connector 1"


def test_a_joint_says_where_it_lies_when_that_is_known() -> None:
    known = GROMMET.model_copy(
        update={"parts": (*GROMMET.parts[:1], Part.model_validate({**dict(GROMMET.parts[1]), "from_a": "3 m"}))}
    )
    assert place_name(GROMMET, "J", "throat") == "joint · throat"
    assert place_name(known, "J", "throat") == "joint at 3 m · throat"


def test_the_body_is_not_said_twice() -> None:
    assert place_name(MOORING, "body", "body") == "body"


def test_a_hold_says_to_whom_it_is_referred() -> None:
    assert answer_words(Answer.HOLD, Door.REFER) == "hold: refer to a competent person"


def test_a_hold_for_want_of_a_look_says_so() -> None:
    assert answer_words(Answer.HOLD, Door.LOOK_AGAIN) == "hold: look again"


def test_an_answer_without_a_door_is_its_word() -> None:
    assert answer_words(Answer.WATCH, None) == "watch"
