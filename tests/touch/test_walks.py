"""Inspections made as a person makes them: by tapping and typing in the window."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from driver import Driver
from PIL import Image

from app.register import Register
from inspection_rules.words import Answer, Door, Seen


@pytest.fixture(autouse=True)
def drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a tap changes is drawn, as a person sees it."""
    monkeypatch.setattr(Driver, "draws", True)


def to_item(ui: Driver, tag: str) -> None:
    ui.tap("All items")
    ui.tap(tag)


def be_examiner(ui: Driver) -> None:
    ui.tap("Inspecting")
    ui.tap(ui.widget(hint_text="Name or role"))
    ui.type("yard examiner")
    ui.tap("Add this person")
    ui.tap("Competent person")


def pictures(folder: Path, count: int) -> list[str]:
    """Real camera files where THROATMARK_PHOTOS names some, made ones otherwise; their names."""
    folder.mkdir()
    named = os.environ.get("THROATMARK_PHOTOS")
    real = sorted(Path(named).glob("*.jpg"))[:count] if named else []
    for number in range(count):
        path = folder / f"deck {number}.jpg"
        if number < len(real):
            path.write_bytes(real[number].read_bytes())
        else:
            Image.linear_gradient("L").resize((800, 600)).rotate(90 * number).convert("RGB").save(path)
    return [f"deck {number}.jpg" for number in range(count)]


def test_a_sound_two_eye_sling_takes_at_most_fifteen_taps_from_today(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.good_to_the_end()
    ui.tap("Sign and log")
    assert ui.shows("Logged: RS-01, serviceable.")
    assert ui.taps <= 15
    latest = register.judged("rs-01")[-1]
    assert latest.inspection.by.name == "mate"
    assert latest.judgement.answer is Answer.SERVICEABLE


def test_a_station_shows_its_sign_once_all_of_it_is_answered(ui: Driver) -> None:
    to_item(ui, "RS-01")
    ui.tap("Periodic examination")
    ui.good_until("are the marks level?")
    assert ui.sign("A", "eye") == "serviceable"
    ui.good()  # the marks are level, but their offset is still to be read
    assert ui.sign("A", "marks") == ""


def test_a_broken_stitch_means_do_not_use(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.good_until("Is every lock stitch whole")
    ui.tap("Loose, worn, cut or missing")
    assert ui.sign("A", "stitch") in ("hold", "remove")
    ui.tap("Go on along the rope")
    ui.good_to_the_end()
    assert ui.shows("DO NOT USE")
    ui.tap("Sign and log")
    ui.tap("DO NOT USE tag hung")
    latest = register.judged("rs-01")[-1]
    assert latest.judgement.answer in (Answer.HOLD, Answer.REMOVE)
    assert "DO NOT USE tag hung" in latest.inspection.note


def test_a_periodic_examination_with_readings_and_pictures_ends_in_remove(
    ui: Driver, register: Register, tmp_path: Path
) -> None:
    names = pictures(tmp_path / "pictures", 2)
    (tmp_path / "pictures" / "torn.jpg").write_bytes(b"\xff\xd8\xff\xe0 not a picture")
    ui.app.pictures_folder = tmp_path / "pictures"
    be_examiner(ui)
    to_item(ui, "RS-01")
    ui.tap("Periodic examination")
    ui.good_until("Tail or a yarn shows through")
    ui.tap("Tail or a yarn shows through")
    ui.tap("Picture")
    ui.tap("Choose picture files")
    for name in (*names, "torn.jpg"):
        ui.tap(name)
    ui.tap("Take in 3 pictures")
    assert ui.shows("torn.jpg: ")
    assert ui.shows("2 kept")
    ui.back()
    ui.tap("Go on along the rope")
    ui.good_until("Offset between")
    ui.read("2")
    ui.good_until("Girth at the worst place")
    ui.read("7 4", "7 5", "7 4 . 5")
    ui.read("7 5", "7 5", "7 6")
    while not ui.shows("DO NOT USE"):
        if ui.shows("Offset between"):
            ui.read("0")
        else:
            ui.good()
    assert ui.shows("Out of service now.")
    ui.tap("Sign and log")
    ui.tap("Taken out of the bag")
    latest = register.judged("rs-01")[-1]
    assert latest.judgement.answer is Answer.REMOVE
    finding = latest.inspection.finding("A", "bury_feel")
    assert [register.has_picture(sha) for sha in finding.pictures] == [True, True]
    girth = latest.inspection.reading("body", "girth_worst")
    assert [value.text for value in girth.values] == ["74 mm", "75 mm", "74.5 mm"]
    ui.tap("RS-01")
    assert ui.shows("DO NOT USE")


def test_what_could_not_be_examined_holds(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-02")
    ui.tap("Before use")
    ui.good()
    ui.tap("Could not examine")
    ui.tap(ui.widget(hint_text="Type here"))
    ui.type("ice in the eye")
    ui.tap("Take what I typed")
    assert ui.sign("A", "eye") == "hold"
    ui.good_to_the_end()
    assert ui.shows("hold: look again")
    ui.tap("Sign and log")
    ui.tap("Neither of them yet")
    latest = register.judged("rs-02")[-1]
    assert latest.inspection.finding("A", "eye_bearing").reason == "ice in the eye"
    assert (latest.judgement.answer, latest.judgement.door) == (Answer.HOLD, Door.LOOK_AGAIN)


def test_not_examining_takes_more_taps_than_looking(ui: Driver) -> None:
    to_item(ui, "RS-02")
    ui.tap("Before use")
    before = ui.taps
    ui.good()
    looking = ui.taps - before
    before = ui.taps
    ui.tap("Could not examine")
    ui.tap("No light to see it by")
    assert ui.taps - before > looking


def test_an_answer_can_be_changed_by_going_back_to_its_station(ui: Driver) -> None:
    to_item(ui, "RS-02")
    ui.tap("Before use")
    ui.good(3)
    ui.tap(ui.station("A", "eye"))
    ui.tap("Chafed, glazed or stiff")
    finding = ui.page.visit.inspection.finding("A", "eye_bearing")
    assert (finding.seen, finding.conditions) == (Seen.PRESENT, ("chafed",))


def test_two_conditions_can_be_named_at_one_place(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-02")
    ui.tap("Before use")
    ui.good()
    ui.tap("Chafed, glazed or stiff")
    ui.tap("Cut, or a strand worn through")
    assert register.drafts()[0].inspection.finding("A", "eye_bearing").conditions == ("chafed", "cut")


def test_stopping_early_never_passes(ui: Driver) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.good(4)
    still_open = len(ui.page.visit.steps) - 4
    ui.tap("Stop here and see the answer")
    assert ui.shows("DO NOT USE")
    assert ui.shows(f"{still_open} questions without an answer")


def test_a_wrong_reading_stays_in_the_record_and_does_not_count(ui: Driver, register: Register) -> None:
    be_examiner(ui)
    to_item(ui, "RS-02")
    ui.tap("Periodic examination")
    ui.good_until("How many full tucks")
    ui.tap("Type ")
    ui.number("4 0")
    ui.tap("Record")
    assert ui.shows("40 beside the last value, 4 of")
    ui.tap("It is right: keep it")
    while not ui.shows("Read once more"):
        ui.tap(ui.station("A", "tucks"))
    ui.tap("Read once more")
    ui.tap("40 is wrong")
    ui.tap("Typed wrong")
    ui.number("4")
    ui.tap("Record")
    reading = register.drafts()[0].inspection.reading("A", "tucks")
    assert [value.text for value in reading.values] == ["4"]
    assert [(one.value.text, one.reason) for one in reading.dropped] == [("40", "Typed wrong")]


def test_inches_are_typed_as_fractions(ui: Driver, register: Register) -> None:
    be_examiner(ui)
    to_item(ui, "RS-01")
    ui.tap("Periodic examination")
    ui.good_until("Offset between")
    ui.tap("Type ")
    ui.say_the_state()
    ui.tap("mm | in")
    ui.number("1/8 1/16")
    ui.tap("Record")
    assert register.drafts()[0].inspection.reading("A", "mark_offset").values[0].text == "3/16 in"


def test_nothing_typed_is_not_recorded(ui: Driver) -> None:
    to_item(ui, "RS-01")
    ui.tap("Periodic examination")
    ui.good_until("Offset between")
    ui.tap("Type ")
    ui.say_the_state()
    ui.tap("Record")
    assert ui.shows("Type the reading first.")


def test_a_note_is_kept_with_its_answer(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-02")
    ui.tap("Before use")
    ui.good(2)
    ui.tap(ui.station("A", "eye"))
    ui.tap("Note")
    ui.tap(ui.widget(multiline=True))
    ui.type("fuzz on the port side")
    ui.tap("Keep the note")
    assert register.drafts()[0].inspection.finding("A", "eye_bearing").note == "fuzz on the port side"


def test_more_can_be_looked_at_than_is_needed(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-02")
    ui.tap("Before use")
    ui.tap(ui.station("body", "body"))
    needed = len(ui.page.visit.steps)
    ui.tap("More to look at here")
    ui.tap("Open the lay")
    ui.good()
    assert register.drafts()[0].inspection.finding("body", "body_inside").seen is Seen.ABSENT
    assert ui.page.corner.endswith(f"/ {needed + 1}")


def test_after_more_was_looked_at_the_question_left_open_is_asked_again(ui: Driver) -> None:
    to_item(ui, "RS-02")
    ui.tap("Before use")
    ui.tap(ui.station("body", "body"))
    left = ui.page.visit.at
    ui.tap("More to look at here")
    ui.tap("Open the lay")
    ui.good()
    assert ui.page.visit.at == left


def test_nothing_more_is_offered_where_no_rule_would_hear_it(ui: Driver) -> None:
    to_item(ui, "RS-02")
    ui.tap("Before use")
    ui.tap(ui.station("", "since last time"))
    assert not ui.shows("More to look at here")


def test_another_person_can_sign(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-02")
    ui.tap("Before use")
    ui.good_to_the_end()
    ui.tap("Somebody else signs")
    ui.tap(ui.widget(hint_text="Name or role"))
    ui.type("yard examiner")
    ui.tap("Add this person")
    ui.tap("Competent person")
    ui.tap("Sign and log")
    assert register.judged("rs-02")[-1].inspection.by.name == "yard examiner"


def test_the_list_is_searched_while_typing(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap(ui.widget(hint_text="Search"))
    ui.type("gang")
    ui.quiet()
    assert ui.shows("RS-02")
    assert not ui.shows("RS-01")


def test_a_clean_look_does_not_wash_off_what_stopped_the_item_before(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.tap("Missing or unreadable")
    ui.tap("Go on along the rope")
    ui.good_to_the_end()
    ui.tap("Sign and log")
    ui.tap("Neither of them yet")
    ui.tap("RS-01")
    ui.tap("Before use")
    ui.good_to_the_end()
    assert ui.shows("DO NOT USE")
    assert ui.shows("Still open from before")
    ui.tap("Sign and log")
    ui.tap("Neither of them yet")
    assert register.judged("rs-01")[-1].judgement.answer is Answer.SERVICEABLE
    assert ui.shows("Logged: RS-01, DO NOT USE: remove.")


def test_the_button_says_as_whom_it_is_signed(ui: Driver) -> None:
    to_item(ui, "RS-02")
    ui.tap("Before use")
    ui.good_to_the_end()
    assert ui.shows("Sign and log as mate · user")


def test_an_examination_that_takes_a_competent_person_says_so_before_the_first_question(ui: Driver) -> None:
    to_item(ui, "RS-02")
    ui.tap("Periodic examination")
    assert ui.shows("You act as mate · user.")
    assert ui.shows("needs a competent person or qualified person: whatever you find, the answer is DO NOT USE.")
    assert not ui.shows("Can you read the tag")
    ui.tap("Look all the same")
    assert ui.shows("Can you read the tag")


def test_somebody_else_may_inspect_instead(ui: Driver) -> None:
    to_item(ui, "RS-02")
    ui.tap("Periodic examination")
    ui.tap("Change who inspects")
    ui.tap(ui.widget(hint_text="Name or role"))
    ui.type("yard examiner")
    ui.tap("Add this person")
    ui.tap("Competent person")
    assert ui.page.under == "periodic · yard examiner · competent person"
    assert ui.shows("Can you read the tag")


def test_a_competent_person_is_asked_at_once(ui: Driver) -> None:
    be_examiner(ui)
    to_item(ui, "RS-02")
    ui.tap("Periodic examination")
    assert ui.shows("Can you read the tag")


def test_a_place_is_kept_with_each_condition_named(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.tap(ui.station("body", "body"))
    ui.tap("A strand cut through or broken")
    ui.tap("Where is it?")
    ui.number("1 . 5")
    ui.tap("Take this place")
    ui.tap("Abraded, pulled or some fibres cut")
    ui.tap("Where? · 1.5 m")
    ui.tap("Another place")
    ui.tap("Abraded, pulled or some fibres cut")
    ui.number("3")
    ui.tap("Take this place")
    finding = register.drafts()[0].inspection.finding("body", "body_surface")
    assert [place.text for place in finding.places] == ["1.5 m", "3 m"]
    assert finding.note.splitlines() == [
        "where: A strand cut through or broken at 1.5 m",
        "where: Abraded, pulled or some fibres cut at 3 m",
    ]
    assert set(finding.conditions) == {"cut", "abraded"}


def test_a_place_beyond_the_item_is_asked_about(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.tap(ui.station("body", "body"))
    ui.tap("A strand cut through or broken")
    ui.tap("Where is it?")
    ui.number("6 0")
    ui.tap("Take this place")
    assert ui.shows("60 m from end A lies beyond the item, which is 6 m long.")
    ui.tap("No: type it again")
    ui.number("6")
    ui.tap("Take this place")
    assert [one.text for one in register.drafts()[0].inspection.finding("body", "body_surface").places] == ["6 m"]


def test_sound_against_cut_strands_read_there_is_asked(ui: Driver, register: Register) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.tap(ui.station("body", "body"))
    good = ui.page.visit.step.observation.good
    ui.tap("More to look at here")
    ui.tap("Load-bearing strands cut")
    ui.tap("Type the first one")
    ui.number("2")
    ui.tap("Record")
    ui.tap("Place not known")
    ui.tap("No more of them")
    ui.tap(good)
    assert ui.shows("A place with damage is not sound.")
    ui.tap("No: I answer again")
    assert register.drafts()[0].inspection.finding("body", "body_surface") is None
    ui.tap(good)
    ui.tap("It is sound all the same")
    assert "confirmed sound beside " in register.drafts()[0].inspection.finding("body", "body_surface").note


def test_damage_read_where_it_was_called_sound_asks_that_question_again(ui: Driver) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.tap(ui.station("body", "body"))
    question = ui.page.visit.at
    ui.good()
    ui.tap(ui.station("body", "body"))
    ui.tap("More to look at here")
    ui.tap("Load-bearing strands cut")
    ui.tap("Type the first one")
    ui.number("2")
    ui.tap("Record")
    ui.tap("Place not known")
    assert ui.shows("You answered here:")
    ui.tap("Keep it, and ask that again")
    assert ui.page.visit.at == question
    assert ui.page.visit.inspection.reading("body", "cut_strands") is not None


def test_how_much_is_offered_where_a_condition_is_named(ui: Driver, register: Register) -> None:
    be_examiner(ui)
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.tap(ui.station("body", "body"))
    question = ui.page.visit.at
    ui.tap("Abraded, pulled or some fibres cut")
    ui.tap("Read how much: ")
    ui.number("5")
    ui.tap("Record")
    ui.tap("Place not known")
    ui.tap("No more of them")
    assert register.drafts()[0].inspection.reading("body", "fibre_strand").values[0].text == "5 %"
    assert ui.page.visit.at == question


def test_why_shows_the_reasons_of_the_station_and_comes_back(ui: Driver) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.good_until("Is every lock stitch whole")
    ui.tap("Loose, worn, cut or missing")
    at = ui.page.visit.at
    ui.tap("Why")
    assert ui.page.heading == "Why"
    assert any(getattr(one, "answer", "") in ("hold", "remove") for one in ui.widgets())
    ui.back()
    assert ui.page.visit.at == at


def test_what_stops_an_item_shows_its_sign_before_the_rest_of_the_station_is_answered(ui: Driver) -> None:
    be_examiner(ui)
    to_item(ui, "RS-01")
    ui.tap("Periodic examination")
    ui.tap(ui.station("body", "body"))
    ui.tap("A strand cut through or broken")
    assert len(ui.page.visit.station.steps) > 1
    assert ui.sign("body", "body") in ("hold", "remove")


def test_a_condition_that_is_tapped_stays_in_sight(drive: Callable[..., Driver]) -> None:
    """The main button that comes with the first answer does not cover it, nor does the page jump to its top."""
    ui = drive((360, 640))
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.tap(ui.station("body", "body"))
    ui.tap("A strand cut through or broken")
    ui.lay_out()
    button, scroll = ui.button("A strand cut through or broken"), ui.page.ids.scroll
    low, high = button.to_window(*button.pos)[1], button.to_window(button.x, button.top)[1]
    assert button.chosen
    assert low >= scroll.to_window(*scroll.pos)[1]
    assert high <= scroll.to_window(scroll.x, scroll.top)[1]


def test_a_competent_person_goes_on_to_examine_the_cause(ui: Driver) -> None:
    be_examiner(ui)
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.good_until("Is every lock stitch whole")
    ui.tap("Loose, worn, cut or missing")
    ui.tap("Go on along the rope")
    ui.good_to_the_end()
    ui.tap("Examine the cause")
    ui.tap("DO NOT USE tag hung")
    assert type(ui.page).__name__ == "RecordsPage"


def test_a_user_is_not_offered_to_examine_the_cause(ui: Driver) -> None:
    to_item(ui, "RS-01")
    ui.tap("Before use")
    ui.good(4)
    ui.tap("Stop here and see the answer")
    assert not ui.shows("Examine the cause")
