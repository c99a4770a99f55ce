"""Rounds in the register: added and never edited, the same in any order of arrival, under way until signed."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.register import Register, RegisterError, RoundDraft
from app.register import board as boards
from app.register.bodies import RoundMade, read, write
from inspection_rules.events import Placed
from inspection_rules.rounds import Round
from inspection_rules.words import Answer, InspectionKind, Where

from .making import EXAMINER, MATE, START, day, inspection, judgement, on, pendant, ruling
from .test_projections import COLUMNS, empty_office, rows_of

Sql = Callable[..., list[Any]]
FIRST = Path(__file__).with_name("bodies_1.jsonl")
LINES = ("ml1", "ml2", "ml10")


@pytest.fixture
def deck(register: Register) -> Register:
    """Three mooring lines of the Sandpiper, examined on day 1, looked at before use on day 2."""
    for item_id in LINES:
        register.add_item(pendant(item_id, tag=item_id.upper(), place="Sandpiper"), MATE, START)
        register.log_inspection(inspection(f"{item_id} examined", 1, item=item_id), judgement(1))
        look(register, item_id)
    return register


def look(register: Register, item_id: str, number: int = 2, answer: Answer | None = None) -> None:
    rulings = () if answer is None else (ruling(answer),)
    seen = inspection(f"{item_id} {number}", number, item=item_id, by=MATE, kind=InspectionKind.BEFORE_USE)
    register.log_inspection(seen, judgement(number, *rulings))


def entry(item_id: str, number: int = 2) -> dict[str, str]:
    return {"item": item_id, "whereabouts": "inspected", "inspection": f"{item_id} {number}"}


def made(*entries: dict[str, str], **changes: Any) -> Round:
    values: dict[str, Any] = {
        "id": "round 1", "begun": day(2), "at": day(2), "utc_offset_minutes": 120, "by": MATE, "place": "Sandpiper",
        "purpose": "before arrival", "expected": LINES, "entries": entries or [entry(one) for one in LINES],
    }  # fmt: skip
    return Round.model_validate({**values, **changes})


def log(register: Register, one: Round) -> str:
    return register.log_round(one, register.round_summary(one))


def test_signed_round_is_read_back_with_the_answer_it_was_signed_with(deck: Register) -> None:
    deck.set_regimes(["Mooring"])
    log(deck, made())
    found = deck.round("round 1")
    assert (found.made, found.summary.ready, found.regimes) == (made(), True, ("Mooring",))


def test_round_keeps_its_answer_when_an_item_is_stopped_later(deck: Register) -> None:
    log(deck, made())
    look(deck, "ml2", 3, Answer.HOLD)
    assert deck.round("round 1").summary.ready
    assert not deck.round_summary(made(at=day(3))).ready


def test_a_line_nobody_found_is_told_with_the_hold_that_stops_it_anyway(deck: Register) -> None:
    look(deck, "ml2", 3, Answer.HOLD)
    stops = deck.standing("ml2", on(3)).sentence
    not_found = {"item": "ml2", "whereabouts": "not found"}
    found = deck.round_summary(made(entry("ml1"), not_found, entry("ml10"), at=day(3)))
    assert [line.sentence for line in found.stops] == [f"Not found. {stops}"]


def test_round_leaves_a_sound_register(deck: Register) -> None:
    log(deck, made())
    assert deck.verify() == []
    assert deck.chain_ends()[0].seal == deck.round("round 1").seal
    deck.rebuild()
    assert deck.verify() == []


def test_round_is_no_item_and_changes_no_list(deck: Register) -> None:
    before = deck.find(on=on(2))
    log(deck, made())
    assert deck.find(on=on(2)) == before


def test_changed_text_of_a_round_is_found(deck: Register, unguarded_sql: Sql) -> None:
    log(deck, made())
    unguarded_sql("UPDATE record SET body = replace(body, 'before arrival', 'before leaving') WHERE kind = 'round'")
    assert [(one.record_id, one.kind) for one in deck.verify()] == [("round 1", "body")]
    assert deck.rounds() == []
    with pytest.raises(RegisterError, match="not the one that was sealed"):
        deck.round("round 1")


def test_round_that_names_an_inspection_nobody_has_is_refused(deck: Register) -> None:
    one = made(entry("ml1"), entry("ml2"), entry("ml10", 9))
    with pytest.raises(RegisterError, match="names inspection ml10 9 of item ml10"):
        log(deck, one)
    assert deck.rounds() == []


def test_round_that_names_the_inspection_of_another_item_is_refused(deck: Register) -> None:
    with pytest.raises(RegisterError, match="names inspection ml2 2 of item ml1"):
        log(deck, made(entry("ml1") | {"inspection": "ml2 2"}))


def test_round_that_names_a_corrected_inspection_is_refused(deck: Register) -> None:
    one = made()
    seen = deck.round_summary(one)
    deck.correct("ml1 2", "it was the other line", EXAMINER, day(2))
    with pytest.raises(RegisterError, match="was corrected since"):
        deck.log_round(one, seen)


def test_round_of_an_item_nobody_knows_is_refused(deck: Register) -> None:
    with pytest.raises(RegisterError, match="item ghost is not in this register"):
        log(deck, made(expected=(*LINES, "ghost")))


def test_nothing_is_signed_as_ready_that_was_stopped_meanwhile(deck: Register) -> None:
    one = made()
    seen = deck.round_summary(one)
    deck.log_inspection(inspection("hold", 2, item="ml2"), judgement(2, ruling(Answer.HOLD)))
    with pytest.raises(RegisterError, match="has changed since its summary was shown"):
        deck.log_round(one, seen)
    assert deck.rounds() == []


def test_logging_the_same_round_again_changes_nothing(deck: Register) -> None:
    log(deck, made())
    entries = deck.chain_ends()[0].entries
    log(deck, made())
    assert deck.chain_ends()[0].entries == entries


def test_a_second_round_under_the_same_id_is_refused(deck: Register) -> None:
    log(deck, made())
    with pytest.raises(RegisterError, match="says something else"):
        log(deck, made(purpose="before departure"))


def test_round_is_not_corrected(deck: Register) -> None:
    log(deck, made())
    with pytest.raises(RegisterError, match="make the round again"):
        deck.correct("round 1", "wrong", EXAMINER, day(3))


def test_where_items_are_is_logged_with_the_round(deck: Register) -> None:
    gone = {"item": "ml2", "whereabouts": "on loan", "note": "to the tree crew"}
    lost = {"item": "ml10", "whereabouts": "not found"}
    log(deck, made(entry("ml1"), gone, lost, at=day(3)))
    stands = deck.standing("ml2", on(3))
    assert (stands.where, stands.where_note) == (Where.ON_LOAN, "to the tree crew")
    assert deck.standing("ml10", on(3)).where is Where.NOT_FOUND
    assert deck.verify() == []


def test_what_was_known_of_a_place_is_not_logged_again(deck: Register) -> None:
    deck.log_placed(Placed(id="lent", item="ml2", at=day(3), by=MATE, where=Where.ON_LOAN, note="to the yard"))
    log(deck, made(entry("ml1"), {"item": "ml2", "whereabouts": "on loan"}, entry("ml10"), at=day(4)))
    assert [one for one in deck.history("ml2") if isinstance(one, Placed) and one.id != "lent"] == []


def test_body_of_the_first_version_is_read_for_ever() -> None:
    (text,) = [line for line in FIRST.read_text(encoding="utf-8").splitlines() if '"kind":"round"' in line]
    body = read(text)
    assert isinstance(body, RoundMade)
    assert [line.tag for line in body.summary.stops] == ["ML10"]
    assert write(body) == text


def test_rounds_come_newest_first_and_by_place(deck: Register) -> None:
    for number, place in ((3, "Sandpiper"), (4, "quay yard"), (5, "Sandpiper")):
        log(deck, made(id=f"r{number}", at=day(number), place=place))
    assert [one.made.id for one in deck.rounds()] == ["r5", "r4", "r3"]
    assert [one.made.id for one in deck.rounds("Sandpiper")] == ["r5", "r3"]
    assert [one.made.id for one in deck.rounds(limit=1)] == ["r5"]


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_records_come_in_any_order_and_say_the_same(
    deck: Register, strangers_sql: Sql, tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    log(deck, made(entry("ml1"), {"item": "ml2", "whereabouts": "ashore"}, entry("ml10")))
    found = strangers_sql(f"SELECT {', '.join(COLUMNS)} FROM record")
    records = [dict(zip(COLUMNS, one, strict=True)) for one in found]
    shuffled = data.draw(st.permutations(records))
    cut = data.draw(st.integers(0, len(records)))
    office = empty_office(tmp_path_factory.mktemp("office"))
    try:
        office.take_in(shuffled[:cut])
        office.take_in(shuffled)
        assert office.projected() == rows_of(strangers_sql)
        with office.engine.connect() as connection:
            kept = connection.exec_driver_sql("SELECT seal FROM record WHERE kind = 'round'").scalars().all()
        assert kept == [deck.round("round 1").seal]
    finally:
        office.engine.dispose()


# --- under way ----------------------------------------------------------------------------------------------


def test_round_under_way_is_there_after_the_register_was_closed(deck: Register, folder: Path) -> None:
    draft = RoundDraft(made(entry("ml1")), "ml2", ("ml1 2",))
    deck.save_round(draft)
    deck.close()
    with Register.open(folder) as again:
        assert again.round_under_way() == draft


def test_saving_a_round_again_replaces_what_was_kept_of_it(deck: Register) -> None:
    deck.save_round(RoundDraft(made(entry("ml1"))))
    deck.save_round(RoundDraft(made(entry("ml1"), entry("ml2"))))
    found = deck.round_under_way()
    assert found is not None
    assert len(found.made.entries) == 2


def test_round_under_way_is_no_unfinished_inspection(deck: Register) -> None:
    deck.save_round(RoundDraft(made()))
    assert deck.drafts() == []


@pytest.mark.parametrize("end", ["signed", "discarded"])
def test_round_under_way_is_gone_once_it_is(deck: Register, end: str) -> None:
    deck.save_round(RoundDraft(made()))
    if end == "signed":
        log(deck, made())
    else:
        deck.discard_round("round 1")
    assert deck.round_under_way() is None


def test_round_that_a_newer_program_began_is_told(deck: Register, strangers_sql: Sql) -> None:
    deck.save_round(RoundDraft(made()))
    strangers_sql("UPDATE draft SET body = replace(body, '\"version\":1', '\"version\":2')")
    with pytest.raises(RegisterError, match="cannot be read by this version"):
        deck.round_under_way()


# --- places and their order ---------------------------------------------------------------------------------


def test_items_are_walked_in_the_order_of_their_tags_until_a_person_sets_another(deck: Register) -> None:
    assert deck.walking_order("Sandpiper")[:3] == LINES
    deck.set_walking_order("Sandpiper", ["ml10", "ml1"])
    assert deck.walking_order("Sandpiper")[:3] == ("ml10", "ml1", "ml2")


def test_item_that_left_the_place_is_not_walked_to(deck: Register) -> None:
    deck.set_walking_order("Sandpiper", ["ml10", "ml1"])
    deck.revise_item(pendant("ml10", tag="ML10", place="quay yard"), MATE, day(3))
    assert "ml10" not in deck.walking_order("Sandpiper")


def test_places_tell_what_lies_there_and_what_is_due(deck: Register) -> None:
    look(deck, "ml2", 3, Answer.HOLD)
    places = {one.place: one for one in deck.places(on(20))}
    assert (places["Sandpiper"].stopped, places["Sandpiper"].due) == (len(deck.walking_order("Sandpiper")) - 2, 2)
    late = {one.place: one for one in deck.places(on(40))}
    assert late["Sandpiper"].overdue == 2


def test_places_tell_how_many_are_to_be_removed_and_how_many_to_be_watched(deck: Register) -> None:
    look(deck, "ml1", 3, Answer.REMOVE)
    look(deck, "ml2", 3, Answer.WATCH)
    (place,) = (one for one in deck.places(on(4)) if one.place == "Sandpiper")
    assert (place.removed, place.watched) == (1, 1)


def test_looks_since_a_day_are_those_that_count(deck: Register) -> None:
    deck.log_inspection(inspection("made", 2, item="ml1", kind=InspectionKind.AS_MADE), judgement(2))
    assert [one.inspection.id for one in deck.looks(["ml1", "ml2"], on(2))] == ["ml1 2", "ml2 2"]


# --- what today asks for ------------------------------------------------------------------------------------


def test_board_shows_each_item_once_but_for_what_was_looked_at(deck: Register) -> None:
    look(deck, "ml2", 3, Answer.HOLD)
    deck.log_placed(Placed(id="p", item="ml10", at=day(3), by=MATE, where=Where.ASHORE))
    board = deck.board(on(3), "Sandpiper")
    assert [row.id for row in board.elsewhere.rows] == ["ml10"]
    assert "ml2" in [row.id for row in board.held.rows]
    assert [row.id for row in board.looked_at.rows] == ["ml2"]


@pytest.mark.parametrize("number", [1, 2, 5, 20, 40])
def test_board_says_what_the_whole_list_says(deck: Register, number: int) -> None:
    look(deck, "ml2", 3, Answer.HOLD)
    look(deck, "ml1", 4, Answer.REMOVE)
    today, board = deck.today(on(number)), deck.board(on(number))
    for name in ("removed", "held", "overdue", "due"):
        assert {one.id for one in getattr(today, name)} == {one.id for one in getattr(board, name).rows}, name
        assert len(getattr(today, name)) == getattr(board, name).count, name


def test_board_reads_the_first_rows_and_counts_them_all(deck: Register) -> None:
    due = deck.board(on(20), most=1).due
    assert (due.count, len(due.rows)) == (3, 1)


def test_board_of_a_day_before_the_records_counts_the_items_ahead_and_reads_a_few(
    deck: Register, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(boards, "MOST_AHEAD", 1)
    look(deck, "ml1", 4, Answer.HOLD)
    look(deck, "ml2", 4, Answer.HOLD)
    board = deck.board(on(2))
    assert board.ahead == 2
    shown = {row.id for name in ("held", "overdue", "due") for row in getattr(board, name).rows}
    assert len(shown & {"ml1", "ml2"}) <= 1


def test_board_of_one_place_leaves_the_others_out(deck: Register) -> None:
    assert deck.board(on(20), "quay yard").due.count == 0
