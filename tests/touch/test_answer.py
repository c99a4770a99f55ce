"""The answer: one list of orders, nothing said twice, every damage named."""

from collections.abc import Callable

from driver import Driver
from harbour import BURIED, EXAMINER

from app.touch.screens.answer.orders import orders, until_when, who_may
from app.touch.widgets.reason import all_damages, merged, reason_cards
from inspection_rules.judgement import Ruling, Source
from inspection_rules.record import Inspection, Reading
from inspection_rules.standing import Standing
from inspection_rules.words import Answer, Door, Mend, State

SOURCE = Source(document="Common practice", kind="common practice", verified="none")


def ruling(answer: Answer, action: str, part: str = "", **more: object) -> Ruling:
    said = {"rule": "one", "pack": "p", "title": "Body", "source": SOURCE, "sentence": "Seen.", **more}
    return Ruling.model_validate({"answer": answer, "action": action, "part": part, **said})


def stands(answer: Answer, door: Door | None = None) -> Standing:
    return Standing(state=State.QUARANTINED, answer=answer, door=door, sentence="")


def test_orders_come_by_weight_and_each_once() -> None:
    said = orders(
        [
            ruling(Answer.HOLD, "Look again.", "A", door=Door.LOOK_AGAIN),
            ruling(Answer.HOLD, "Examine it.", "A", door=Door.REFER),
            ruling(Answer.REMOVE, "Take it out.", "A"),
            ruling(Answer.REMOVE, "Take it out.", "B"),
        ],
        Answer.REMOVE,
    )
    assert [(one.text, one.parts) for one in said] == [
        ("Take it out.", ("A", "B")),
        ("Examine it.", ("A",)),
        ("Look again.", ("A",)),
    ]


def test_nothing_lets_a_stopped_item_be_used() -> None:
    said = orders([ruling(Answer.WATCH, "Use it; look again sooner."), ruling(Answer.HOLD, "Hold it.")], Answer.HOLD)
    assert [one.text for one in said] == ["Hold it."]


def test_a_watch_is_ordered_where_nothing_stops_the_item() -> None:
    said = orders([ruling(Answer.WATCH, "Use it; look again sooner.")], Answer.WATCH)
    assert [one.text for one in said] == ["Use it; look again sooner."]


def test_what_nothing_brings_back_says_so_and_who_condemns_it() -> None:
    heavy = [ruling(Answer.REMOVE, "Out.", mends=Mend.NOTHING)]
    assert until_when(stands(Answer.REMOVE), heavy) == ["Nothing brings it back."]
    assert "condemns it" in who_may(stands(Answer.REMOVE), heavy)


def test_what_wants_two_mendings_wants_both() -> None:
    heavy = [
        ruling(Answer.REMOVE, "Out.", mends=Mend.RE_IDENTIFY, rule="tag"),
        ruling(Answer.REMOVE, "Out.", mends=Mend.RE_SPLICE, rule="eye"),
    ]
    (said,) = until_when(stands(Answer.REMOVE), heavy)
    assert said == f"What may bring it back, all of it together: {Mend.RE_IDENTIFY}; {Mend.RE_SPLICE}."


def test_a_hold_to_refer_lasts_until_it_is_released_by_a_competent_person() -> None:
    held = stands(Answer.HOLD, Door.REFER)
    assert until_when(held, []) == ["Until a competent person has examined the cause and released it."]
    assert who_may(held, []) == "Who: only a competent or a qualified person."


def test_the_same_sentence_under_two_titles_is_one_reason() -> None:
    groups = merged([ruling(Answer.HOLD, "", title="One"), ruling(Answer.HOLD, "", title="Two")])
    assert [[one.title for one in group] for group in groups] == [["One", "Two"]]


def test_the_same_sentence_with_another_answer_stays_apart() -> None:
    assert len(merged([ruling(Answer.HOLD, ""), ruling(Answer.REMOVE, "")])) == 2


def test_several_damages_name_the_worst_and_all_with_their_places() -> None:
    reading = Reading.model_validate(
        {"part": "body", "observation": "cut_strands", "values": ("1", "3"), "places": ("1 m", "4 m"),
         "method": "counted"}
    )  # fmt: skip
    assert all_damages(reading) == "The worst: 3 at 4 m. All 2: 1 at 1 m; 3 at 4 m."


def test_damages_without_places_say_so() -> None:
    reading = Reading.model_validate(
        {"part": "body", "observation": "cut_strands", "values": ("1", "3"), "method": "counted"}
    )
    assert all_damages(reading) == "The worst: 3. All 2: 1; 3. Where each lies was not said."


def test_a_merged_reason_names_every_part_and_source_once(ui: Driver) -> None:
    inspection = Inspection.model_validate(
        {"id": "one", "item": "rs-01", "at": "2050-10-12T09:00Z", "by": EXAMINER, "kind": "periodic"}
    )
    (card,) = reason_cards([ruling(Answer.HOLD, "x", "A"), ruling(Answer.HOLD, "x", "B")], BURIED, inspection)
    assert card.title == "Body · end A, end B"
    assert len(card.small) == 1


def test_every_damage_is_on_the_answer(drive: Callable[..., Driver], register: object) -> None:
    ui = drive()
    ui.app.person = EXAMINER
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Before use")
    ui.tap(ui.station("body", "body"))
    ui.tap("Abraded, pulled or some fibres cut")
    ui.tap("Read how much: ")
    for size, place in (("5", "1"), ("3 0", "4")):
        ui.number(size)
        ui.tap("Record")
        ui.number(place)
        ui.tap("Take this place")
    ui.tap("No more of them")
    ui.tap("Stop here and see the answer")
    assert ui.shows("The worst: 30 % at 4 m. All 2: 5 % at 1 m; 30 % at 4 m.")


def test_the_orders_are_one_list_and_no_reason_repeats_them(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Before use")
    ui.good_until("Is every lock stitch whole")
    ui.tap("Loose, worn, cut or missing")
    ui.tap("Go on along the rope")
    ui.good_to_the_end()
    assert ui.shows("What to do")
    texts = [text for text in ui.texts() if "Take it out of service" in text or "Do not use it" in text]
    assert len(texts) == 1
