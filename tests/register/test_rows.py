"""Finding items, and what a day asks for."""

from datetime import date

import pytest

from app.register import Only, Register, Stance
from inspection_rules.words import Answer, Door, Duty, ItemKind, Mend

from .making import EXAMINER, MATE, START, condemn, disposal, inspection, judgement, on, pendant, photo, ruling


@pytest.fixture
def harbour(register: Register) -> Register:
    """The pendant, and some more of the harbour's gear."""
    for item_id, tag, description, place, duty in (
        ("m2", "ML2", "Âncora stern line", "Sandpiper, aft", Duty.MOORING),
        ("m10", "ML10", "breast line", "Sandpiper", Duty.MOORING),
        ("m1", "ML1", "head line", "Sandpiper", Duty.MOORING),
        ("r1", "Y-31", "grüne Schlinge", "quay yard", Duty.LIFTING),
    ):
        item = pendant(item_id, tag=tag, description=description, place=place, duty=duty)
        register.add_item(item, MATE, START)
    return register


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("", ["m1", "m2", "m10", "pendant", "r1"]),
        ("ml", ["m1", "m2", "m10"]),
        ("ML1", ["m1", "m10"]),
        ("10", ["m10", "pendant"]),
        ("ancora", ["m2"]),
        ("AFT", ["m2"]),
        ("grune", ["r1"]),
        ("schl yard", ["r1"]),
        ("line sandpiper", ["m1", "m2", "m10", "pendant"]),
        ("towing", ["pendant"]),
        ("hmpe mooring", ["m1", "m2", "m10"]),
        ("sp-101", ["pendant"]),
        ("sp101", ["pendant"]),
        ("sp 0101", ["pendant"]),
        ("y031", ["r1"]),
        ("quayyard", ["r1"]),
        ("quay-yard sling", []),
        ("ine", []),
        ("line ghost", []),
        ("---", []),
        ("%", []),
        ("   ", ["m1", "m2", "m10", "pendant", "r1"]),
    ],
)
def test_each_word_begins_a_word_of_the_item(harbour: Register, typed: str, found: list[str]) -> None:
    assert [row.id for row in harbour.find(typed)] == found


@pytest.mark.parametrize("typed", ["", "sandpiper"])
def test_pages_follow_on_without_gap_or_repetition(harbour: Register, typed: str) -> None:
    every = harbour.find(typed)
    paged, page = [], harbour.find(typed, limit=2)
    while page:
        paged += page
        page = harbour.find(typed, limit=2, after=page[-1])
    assert paged == every


def test_a_word_nearly_everything_has_is_found_in_order_too(
    register: Register, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.register.rows._RARE", 5)
    for number in range(12):
        kind = "spare" if number % 3 == 0 else "used"
        register.add_item(pendant(f"i{number}", tag=f"T{number}", description=f"tail {kind}"), MATE, START)
    assert [row.tag for row in register.find("tail", limit=3)] == ["T0", "T1", "T2"]
    page = register.find("tail", limit=3)
    assert [row.tag for row in register.find("tail", limit=3, after=page[-1])] == ["T3", "T4", "T5"]
    assert [row.tag for row in register.find("tail spare")] == ["T0", "T3", "T6", "T9"]
    assert [row.tag for row in register.find("tail used", limit=2)] == ["T1", "T2"]


def test_a_revised_item_is_found_by_its_new_words_only(harbour: Register) -> None:
    harbour.revise_item(pendant(place="locker"), MATE, START)
    assert [row.id for row in harbour.find("locker")] == ["pendant"]
    assert "pendant" not in [row.id for row in harbour.find("sandpiper")]


@pytest.mark.parametrize(
    ("only", "found"),
    [
        (Only(place="Sandpiper"), ["m1", "m10", "pendant"]),
        (Only(kind="line"), ["m1", "m2", "m10", "pendant", "r1"]),
        (Only(kind="rope sling"), []),
        (Only(stance=Stance.DO_NOT_USE), ["m1", "m2", "m10", "r1"]),
        (Only(stance=Stance.SERVICEABLE), ["pendant"]),
        (Only(stance=Stance.WATCH), []),
        (Only(place="Sandpiper", stance=Stance.DO_NOT_USE), ["m1", "m10"]),
    ],
)
def test_a_list_is_narrowed_to_a_place_a_kind_or_what_the_answer_means(
    harbour: Register, only: Only, found: list[str]
) -> None:
    harbour.log_inspection(inspection("n1", 0), judgement(0, due=30))
    assert [row.id for row in harbour.find(on=on(1), only=only)] == found
    page = harbour.find(on=on(1), only=only, limit=1)
    assert [row.id for row in page] == found[:1]
    assert [row.id for last in page for row in harbour.find(on=on(1), only=only, after=last)] == found[1:]


@pytest.mark.parametrize(("day", "found"), [(-1, []), (30, ["pendant"]), (31, [])])
def test_narrowing_by_answer_speaks_of_the_day(register: Register, day: int, found: list[str]) -> None:
    register.log_inspection(inspection("n1", 0), judgement(0, due=30))
    only = Only(stance=Stance.SERVICEABLE)
    assert [row.id for row in register.find(on=on(day), only=only)] == found


def test_choices_count_the_items_of_each_place_and_kind(harbour: Register) -> None:
    choices = harbour.choices()
    assert choices.places == (("Sandpiper", 3), ("quay yard", 1), ("Sandpiper, aft", 1))
    assert choices.kinds == (("line", 5),)


@pytest.mark.parametrize(
    ("code", "found"),
    [("ML1", ["m1"]), ("ml-01", ["m1"]), (" y 31\n", ["r1"]), ("m10", ["m10"]), ("ML", []), ("1", []), ("", [])],
)
def test_a_labels_text_is_the_whole_tag_or_id(harbour: Register, code: str, found: list[str]) -> None:
    assert [row.id for row in harbour.by_code(code)] == found


def test_a_tag_that_two_items_have_gives_both(harbour: Register) -> None:
    harbour.add_item(pendant("again", tag="ML-01", place="locker"), MATE, START)
    assert {row.id for row in harbour.by_code("ml1")} == {"m1", "again"}


def test_a_row_shows_what_the_list_needs(register: Register) -> None:
    first, second = photo(1), photo(2)
    register.log_inspection(inspection("n1", 1, pictures=(first.sha256,)), judgement(1), [first])
    register.log_inspection(inspection("n2", 2, pictures=(second.sha256,)), judgement(2), [second])
    register.log_inspection(inspection("n3", 3), judgement(3))
    (row,) = register.find(on=on(4))
    assert (row.kind, row.duty) == (ItemKind.LINE, Duty.TOWING)
    assert (row.answer, row.door, row.next_due, row.overdue) == (Answer.SERVICEABLE, None, on(33), False)
    assert (row.last_inspected, row.thumbnail) == (on(3), second.sha256)


def test_an_item_never_inspected_is_referred(register: Register) -> None:
    (row,) = register.find()
    assert (row.answer, row.door, row.last_inspected) == (Answer.HOLD, Door.REFER, None)


@pytest.mark.parametrize(
    ("number", "where"),
    [(0, None), (15, None), (16, "due"), (30, "due"), (31, "overdue"), (400, "overdue")],
)
def test_an_item_in_use_is_due_a_fortnight_before_and_overdue_the_day_after(
    register: Register, number: int, where: str | None
) -> None:
    register.log_inspection(inspection("n1", 0), judgement(0, due=30))
    today = register.today(on(number))
    lists = {name: [row.id for row in getattr(today, name)] for name in ("due", "overdue", "held", "removed")}
    assert [name for name, ids in lists.items() if ids] == ([where] if where else [])


def test_an_overdue_item_says_what_was_missed(register: Register) -> None:
    register.log_inspection(inspection("n1", 0), judgement(0, due=30))
    (row,) = register.today(on(31)).overdue
    assert (row.answer, row.overdue, row.next_due) == (Answer.HOLD, True, None)
    assert row.sentence == "The inspection due by 2050-03-31 has not been made."


def test_a_held_item_is_held_and_says_so_when_overdue_as_well(register: Register) -> None:
    register.log_inspection(inspection("n1", 0), judgement(0, ruling(Answer.HOLD), due=30))
    for number, overdue in ((1, False), (31, True)):
        today = register.today(on(number))
        assert [(row.id, row.overdue) for row in today.held] == [("pendant", overdue)]
        assert (today.due, today.overdue, today.removed) == ([], [], [])


@pytest.mark.parametrize("how", ["ruling", "decision"])
def test_a_removed_item_is_removed_until_it_is_disposed_of(register: Register, how: str) -> None:
    if how == "ruling":
        register.log_inspection(inspection("n1", 0), judgement(0, ruling(Answer.REMOVE, mends=Mend.NOTHING)))
    else:
        register.log_decision(condemn("c", 0))
    for day_asked in (on(1), date(2055, 1, 1)):
        today = register.today(day_asked)
        assert [row.id for row in today.removed] == ["pendant"]
        assert (today.due, today.overdue, today.held) == ([], [], [])
    picture = photo(1)
    register.log_disposal(disposal("d", 2, picture.sha256), [picture])
    today = register.today(on(3))
    assert (today.due, today.overdue, today.held, today.removed) == ([], [], [], [])


def test_the_soonest_comes_first(register: Register) -> None:
    for item_id, tag, due in (("late", "A", 9), ("soon", "B", 3)):
        register.add_item(pendant(item_id, tag=tag), MATE, START)
        register.log_inspection(inspection(f"of {item_id}", 0, item=item_id, by=EXAMINER), judgement(0, due=due))
    assert [row.id for row in register.today(on(1)).due] == ["soon", "late"]
    assert [row.id for row in register.today(on(20)).overdue] == ["soon", "late"]


def test_a_day_before_the_latest_record_shows_what_stood_then(register: Register) -> None:
    register.log_inspection(inspection("n1", 1), judgement(1, due=30))
    register.log_inspection(inspection("bad", 50), judgement(50, ruling(Answer.REMOVE)))
    (row,) = register.find(on=on(20))
    assert (row.answer, row.next_due, row.last_inspected) == (Answer.SERVICEABLE, on(31), on(1))
    assert [one.id for one in register.today(on(20)).due] == ["pendant"]
    assert [one.id for one in register.today(on(32)).overdue] == ["pendant"]
    assert [one.id for one in register.today(on(50)).removed] == ["pendant"]
