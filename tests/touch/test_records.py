"""What happens to an item between inspections, recorded as a person does it: by tapping and typing in the window."""

import io
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from itertools import count
from pathlib import Path

import pytest
from driver import Driver
from harbour import BURIED, EXAMINER, MATE, NOW, sound
from PIL import Image

from app.photos.exif import chosen_exif, place_of
from app.register import Register
from app.touch.application import ThroatmarkApp
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.item.item import ItemPage
from app.touch.screens.records.correct import WrongPage
from app.touch.screens.records.decide import ORDINARY, SPANS
from app.touch.screens.records.records import RecordsPage
from app.touch.widgets.buttons import RowButton
from app.touch.wording import day
from inspection_rules.due import after
from inspection_rules.events import Decision, Disposal, Incident, Placed, WorkDone
from inspection_rules.item import Part
from inspection_rules.judge import judge
from inspection_rules.record import Finding, Inspection, Person
from inspection_rules.words import Answer, DecisionKind, Fibre, InspectionKind, Mend, Seen, State, Where, Work

TODAY = NOW.date()


def found(register: Register, part: str, observation: str, *conditions: str, hours: int = 3) -> Inspection:
    """A look at RS-01 before use, some hours ago, that found this and nothing else."""
    look = sound(BURIED, InspectionKind.BEFORE_USE, NOW - timedelta(hours=hours), by=MATE)
    seen = Finding(part=part, observation=observation, seen=Seen.PRESENT, conditions=conditions)
    others = [one for one in look.findings if (one.part, one.observation) != (part, observation)]
    return log(register, look.model_copy(update={"findings": (*others, seen)}))


def log(register: Register, inspection: Inspection) -> Inspection:
    register.log_inspection(inspection, judge(register.case(inspection, on=inspection.on), register.book()))
    return inspection


@pytest.fixture
def start(register: Register) -> Iterator[Callable[..., Driver]]:
    """Start the app with this person at work, on a clock that goes on with every look at it."""
    running: list[Driver] = []
    seconds = count()

    def now() -> datetime:
        return NOW + timedelta(seconds=next(seconds))

    def begin(person: Person, size: tuple[int, int] = (412, 892)) -> Driver:
        register.set_people([person, *(one for one in (EXAMINER, MATE) if one != person)])
        driver = Driver(ThroatmarkApp(register, now=now), size)
        running.append(driver)
        return driver.__enter__()

    yield begin
    for driver in running:
        driver.__exit__()


def to_records(ui: Driver, tag: str = "RS-01") -> None:
    """From wherever to what else happened to an item."""
    if not isinstance(ui.page, ItemPage):
        ui.app.stack.home()
        ui.quiet()
        ui.tap("All items")
        ui.tap(tag)
    ui.tap("What else happened to it?")
    assert isinstance(ui.page, RecordsPage)


def say_it(ui: Driver, text: str) -> None:
    """Type into the page's field and go on."""
    ui.tap(ui.widget(multiline=True))
    ui.type(text)
    ui.tap("Go on")


# --- an item without papers ---------------------------------------------------------------------------------------


def test_a_fibre_that_was_not_known_is_recorded_by_a_competent_person(
    register: Register, start: Callable[..., Driver]
) -> None:
    item = register.item("rs-01")
    register.revise_item(item.model_copy(update={"fibre": Fibre.NOT_KNOWN}), EXAMINER, NOW - timedelta(hours=5))
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Its fibre is known now")
    with pytest.raises(LookupError):
        ui.button("Not known")
    ui.tap("Polyester")
    ui.tap("Sign and log as yard examiner · competent person")
    assert register.item("rs-01").fibre is Fibre.POLYESTER


def test_an_item_whose_fibre_is_known_is_not_asked_for_it(register: Register, start: Callable[..., Driver]) -> None:
    ui = start(EXAMINER)
    to_records(ui)
    with pytest.raises(LookupError):
        ui.button("Its fibre is known now")


# --- decisions -------------------------------------------------------------------------------------------------


def test_a_competent_person_examines_a_cause_and_the_item_may_be_used_again(
    register: Register, start: Callable[..., Driver]
) -> None:
    held = found(register, "A", "eye_bearing", "chafed")
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Examine what keeps it out of use")
    ui.tap("I have examined this")
    ui.tap("Release the one I ticked")
    say_it(ui, "chafe is on the cover only")
    ui.tap("No sooner than it is due anyway")
    ui.tap("Sign and release as yard examiner · competent person")
    assert isinstance(ui.page, ItemPage)
    assert ui.shows("Serviceable")
    assert ui.sign("A", "eye") == "serviceable"
    decision = register.history("rs-01")[-1]
    assert isinstance(decision, Decision)
    assert (decision.by, decision.reason, decision.examined[0].inspection) == (
        EXAMINER,
        "chafe is on the cover only",
        held.id,
    )


def to_the_dates_of_a_release(register: Register, start: Callable[..., Driver]) -> Driver:
    found(register, "A", "eye_bearing", "chafed")
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Examine what keeps it out of use")
    ui.tap("I have examined this")
    ui.tap("Release the one I ticked")
    say_it(ui, "chafe is on the cover only")
    return ui


def rows_of(ui: Driver) -> list[RowButton]:
    """The page's rows from the top down."""
    rows = [one for one in ui.widgets() if isinstance(one, RowButton)]
    return sorted(rows, key=lambda row: -row.to_window(*row.pos)[1])


def test_a_release_asks_until_when_and_offers_the_soonest_date_lowest(
    register: Register, start: Callable[..., Driver]
) -> None:
    ui = to_the_dates_of_a_release(register, start)
    assert ui.page.heading == "Until when is it released?"
    rows = [one.title for one in rows_of(ui)]
    assert rows[0] == "No sooner than it is due anyway" and rows[-1] == day(TODAY + timedelta(days=7))


def test_a_release_offers_no_date_after_the_ordinary_one(register: Register, start: Callable[..., Driver]) -> None:
    ui = to_the_dates_of_a_release(register, start)
    due = register.standing("rs-01", TODAY).due
    assert due is not None
    assert [one.key for one in rows_of(ui)] == [
        ORDINARY,
        *(span for span in reversed(SPANS) if after(TODAY, span) < due),
    ]


def test_an_item_released_until_a_date_is_watched_and_says_so(register: Register, start: Callable[..., Driver]) -> None:
    ui = to_the_dates_of_a_release(register, start)
    until = TODAY + timedelta(days=7)
    ui.tap(day(TODAY + timedelta(days=7)))
    ui.tap("Sign and release as yard examiner · competent person")
    assert register.standing("rs-01", TODAY).next_due == until
    assert ui.shows(f"Released until {day(until)}: a competent person looks again by then.")
    assert ui.sign("A", "eye") == "watch"


def test_a_release_wants_a_reason(register: Register, start: Callable[..., Driver]) -> None:
    found(register, "A", "eye_bearing", "chafed")
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Examine what keeps it out of use")
    ui.tap("I have examined this")
    ui.tap("Release the one I ticked")
    ui.tap("Go on")
    assert ui.shows("Type it here first.")


def test_a_reason_that_says_nothing_releases_nothing(register: Register, start: Callable[..., Driver]) -> None:
    found(register, "A", "eye_bearing", "chafed")
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Examine what keeps it out of use")
    ui.tap("I have examined this")
    ui.tap("Release the one I ticked")
    say_it(ui, "ok")
    assert ui.shows("Say it so that the next person can check it.")
    assert register.standing("rs-01", NOW.date()).answer is Answer.HOLD


def test_a_user_is_told_who_decides_and_may_let_such_a_person_act(
    register: Register, start: Callable[..., Driver]
) -> None:
    found(register, "A", "eye_bearing", "chafed")
    ui = start(MATE)
    to_records(ui)
    assert ui.shows("Only a competent or a qualified person decides this; you act as mate · user.")
    with pytest.raises(LookupError):
        ui.button("Examine what keeps it out of use")
    ui.tap("Acting: mate · user")
    ui.tap("yard examiner")
    ui.tap("Examine what keeps it out of use")
    assert ui.shows("I have examined this")


def test_nobody_signs_a_release_after_handing_it_to_a_user(register: Register, start: Callable[..., Driver]) -> None:
    found(register, "A", "eye_bearing", "chafed")
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Examine what keeps it out of use")
    ui.tap("I have examined this")
    ui.tap("Release the one I ticked")
    say_it(ui, "chafe is on the cover only")
    ui.tap(day(TODAY + timedelta(days=7)))
    ui.tap("Somebody else signs")
    ui.tap("mate")
    assert ui.shows("Not yours to sign")
    with pytest.raises(LookupError):
        ui.button("Sign and release")


def test_what_a_signature_cannot_close_is_shown_with_what_would_and_never_ticked(
    register: Register, start: Callable[..., Driver]
) -> None:
    found(register, "A", "bury_feel", "tail_showing")
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Examine what keeps it out of use")
    assert ui.shows("What no signature closes")
    assert ui.shows("First the work: re-splice as a new part; then the new splice is recorded as made.")
    with pytest.raises(LookupError):
        ui.button("I have examined this")


def test_condemned_is_asked_again_and_final(register: Register, start: Callable[..., Driver]) -> None:
    found(register, "A", "eye_bearing", "chafed")
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Condemn it")
    say_it(ui, "worn through at the bitt")
    assert ui.shows("Condemned is final")
    assert register.standing("rs-01", TODAY).state is State.QUARANTINED
    ui.tap("Condemn it for good as yard examiner · competent person")
    assert register.standing("rs-01", TODAY).state is State.CONDEMNED
    to_records(ui)
    assert not ui.shows("Work was done on it")
    assert not ui.shows("Examine what keeps it out of use")


def test_a_condemnation_taken_back_at_the_last_page_is_none(register: Register, start: Callable[..., Driver]) -> None:
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Condemn it")
    say_it(ui, "worn through at the bitt")
    ui.back()
    assert ui.widget(multiline=True).text == "worn through at the bitt"
    assert register.standing("rs-01", TODAY).state is State.IN_SERVICE


def test_what_is_left_and_opened_again_still_has_what_was_typed(start: Callable[..., Driver]) -> None:
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("There was an incident")
    ui.tap("Shock")
    ui.tap(ui.widget(multiline=True))
    ui.type("the tow parted")
    ui.back()
    ui.tap("Shock")
    assert ui.widget(multiline=True).text == "the tow parted"


def to_the_dates_of_an_acceptance(register: Register, start: Callable[..., Driver]) -> Driver:
    found(register, "A", "eye_bearing", "chafed")
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Accept damage for a time")
    ui.tap(next(one for one in ui.widgets() if getattr(one, "key", "") and "A" in str(one.key)))
    say_it(ui, "two yarns fluffed, 20 mm long")
    say_it(ui, "core sound, felt by hand")
    return ui


def test_an_acceptance_offers_the_shortest_time_lowest(register: Register, start: Callable[..., Driver]) -> None:
    ui = to_the_dates_of_an_acceptance(register, start)
    assert [one.key for one in rows_of(ui)] == ["6 months", "3 months", "1 months"]


def test_damage_is_accepted_for_a_time_and_watched(register: Register, start: Callable[..., Driver]) -> None:
    ui = to_the_dates_of_an_acceptance(register, start)
    ui.tap("12 Jan 2051")
    ui.tap("Sign and accept as yard examiner · competent person")
    stands = register.standing("rs-01", TODAY)
    assert stands.answer is Answer.WATCH
    assert ui.sign("A", "eye") == "watch"
    assert [(one.extent, one.until.isoformat()) for one in stands.accepted] == [
        ("two yarns fluffed, 20 mm long", "2051-01-12")
    ]


# --- work ------------------------------------------------------------------------------------------------------


def test_a_new_splice_is_held_until_it_is_recorded_and_its_record_asks_of_nothing_else(
    register: Register, start: Callable[..., Driver]
) -> None:
    found(register, "A", "bury_feel", "tail_showing")
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Work was done on it")
    ui.tap("Re-spliced")
    ui.tap("End A")
    say_it(ui, "by the splicer, to the maker's sheet")
    ui.tap("Nothing was cut off")
    ui.tap("Sign and log as yard examiner · competent person")
    done = register.history("rs-01")[-1]
    assert isinstance(done, WorkDone)
    assert (done.work, done.part, done.cut_from_a) == (Work.RE_SPLICED, "A", None)
    assert ui.shows("until a competent person has recorded the new splice")
    ui.tap("It is made so: record it as made")
    assert isinstance(ui.page, InspectPage)
    assert {step.part for step in ui.page.visit.steps} == {"A"}


def test_a_new_splice_made_otherwise_is_described_anew(register: Register, start: Callable[..., Driver]) -> None:
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Work was done on it")
    ui.tap("Re-spliced")
    ui.tap("End B")
    ui.tap("Go on")
    ui.tap("Sign and log as yard examiner · competent person")
    ui.tap("It is made otherwise: say how")
    ui.tap("Locked eye")
    ui.tap("Captive")
    ui.tap("Not lock-stitched")
    ui.number("1 5 0 0")
    ui.tap("Take this number")
    ui.tap("Go on")  # the instruction of before stands there
    ui.number("6 0")
    ui.tap("Take this number")
    ui.tap("Sign and log as yard examiner · competent person")
    assert ui.shows("It is made so: record it as made")
    part = register.item("rs-01").part("B")
    assert (part.splice, part.thimble, part.lock_stitched) == ("locked eye", "captive", False)
    assert (str(part.required_bury), str(part.marks_at), part.end) == ("1500 mm", "60 mm", "B")
    assert register.standing("rs-01", TODAY).answer is Answer.HOLD


def test_a_new_splice_on_record_is_released_and_used_again(register: Register, start: Callable[..., Driver]) -> None:
    found(register, "A", "bury_feel", "tail_showing", hours=6)
    register.log_work(
        WorkDone(
            id="w",
            item="rs-01",
            at=NOW - timedelta(hours=5),
            by=EXAMINER,
            part="A",
            work=Work.RE_SPLICED,
            mends=Mend.RE_SPLICE,
            what="re-spliced",
        )
    )
    made = sound(BURIED, InspectionKind.AS_MADE, NOW - timedelta(hours=4))
    of_a = {
        "readings": tuple(one for one in made.readings if one.part == "A"),
        "findings": tuple(one for one in made.findings if one.part == "A"),
    }
    log(register, made.model_copy(update=of_a))
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Examine what keeps it out of use")
    ui.tap("I have examined this")
    ui.tap("Release the one I ticked")
    say_it(ui, "the new splice is sound")
    ui.tap("No sooner than it is due anyway")
    ui.tap("Sign and release as yard examiner · competent person")
    assert register.standing("rs-01", TODAY).state is State.IN_SERVICE


def test_turned_end_for_end_the_history_stays_with_each_end(register: Register, start: Callable[..., Driver]) -> None:
    ui = start(MATE)
    to_records(ui)
    ui.tap("Work was done on it")
    ui.tap("Turned end for end")
    assert ui.shows("End A and end B are whipped in and never change their names")
    ui.tap("Go on")
    ui.tap("Sign and log as mate · user")
    done = register.history("rs-01")[-1]
    assert (done.work, done.part, done.what) == (Work.ENDS_TURNED, "", "turned end for end")
    assert register.standing("rs-01", TODAY).answer is Answer.SERVICEABLE


def test_an_end_cut_back_with_its_eye_is_recorded_as_re_spliced_with_how_much(
    register: Register, start: Callable[..., Driver]
) -> None:
    ui = start(MATE)
    to_records(ui)
    ui.tap("Work was done on it")
    ui.tap("Cut back")
    ui.tap("End A")
    assert ui.shows("An eye that is cut off is made anew")
    ui.tap("Go on")
    ui.number("1 . 5")
    ui.tap("Take this number")
    assert ui.shows("Cut off at end A: 1.5 m")
    ui.tap("Sign and log as mate · user")
    done = register.history("rs-01")[-1]
    assert (done.work, str(done.cut_from_a), done.what) == (Work.RE_SPLICED, "1.5 m", "cut back and re-spliced")
    assert register.standing("rs-01", TODAY).answer is Answer.HOLD


def test_a_plain_end_cut_back_keeps_its_name_and_its_history(register: Register, start: Callable[..., Driver]) -> None:
    end = Part(id="B", kind="termination", end="B", splice="plain end")
    parts = tuple(end if one.id == "B" else one for one in BURIED.parts)
    register.revise_item(BURIED.model_copy(update={"parts": parts}), EXAMINER, NOW - timedelta(hours=1))
    ui = start(MATE)
    to_records(ui)
    ui.tap("Work was done on it")
    ui.tap("Cut back")
    ui.tap("End B")
    assert ui.shows("End B keeps its name and its history.")
    ui.tap("Go on")
    ui.tap("Sign and log as mate · user")
    done = register.history("rs-01")[-1]
    assert (done.work, done.part, done.cut_from_a) == (Work.CUT_BACK, "B", None)


def test_repaired_wants_its_proof_load(register: Register, start: Callable[..., Driver]) -> None:
    ui = start(MATE)
    to_records(ui)
    ui.tap("Work was done on it")
    ui.tap("Repaired and proof loaded")
    ui.tap("The item as a whole")
    ui.tap("Go on")
    ui.tap("Take this number")
    assert not ui.shows("Sign and log")
    ui.number("2 0")
    ui.tap("Take this number")
    ui.tap("Sign and log as mate · user")
    assert str(register.history("rs-01")[-1].proof_load) == "20 kN"


def test_a_new_tag_says_what_the_item_was_known_by_and_renames_it(
    register: Register, start: Callable[..., Driver]
) -> None:
    ui = start(MATE)
    to_records(ui)
    ui.tap("Work was done on it")
    ui.tap("Re-identified and re-tagged")
    ui.tap("Go on")
    say_it(ui, "length, both eyes and the stitching")
    ui.tap(ui.widget(multiline=True))
    ui.widget(multiline=True).select_all()
    ui.type("RS-11")
    ui.tap("Go on")
    ui.tap("Sign and log as mate · user")
    assert register.history("rs-01")[-1].known_by == "length, both eyes and the stitching"
    assert register.item("rs-01").tag == "RS-11"


# --- incident, disposal, whereabouts -----------------------------------------------------------------------------


def test_an_incident_holds_everything_that_shared_the_load(register: Register, start: Callable[..., Driver]) -> None:
    ui = start(MATE)
    to_records(ui)
    ui.tap("There was an incident")
    ui.tap("Shock")
    say_it(ui, "the load dropped a metre")
    ui.search("RS-02")
    ui.tap("RS-02")
    ui.tap("Go on with 1 ticked")
    ui.tap("Go on")
    ui.tap("DO NOT USE tag hung")
    assert ui.shows("RS-01, RS-02")
    ui.tap("Sign and log as mate · user")
    incident = register.history("rs-01")[-1]
    assert isinstance(incident, Incident)
    assert (incident.what, incident.load_path) == ("shock: the load dropped a metre", ("rs-02",))
    assert "DO NOT USE tag hung" in incident.evidence
    assert [register.standing(one, TODAY).answer for one in ("rs-01", "rs-02")] == [Answer.HOLD, Answer.HOLD]


def test_an_incident_is_closed_by_no_signature(register: Register, start: Callable[..., Driver]) -> None:
    register.log_incident(Incident(id="i", item="rs-01", at=NOW - timedelta(hours=1), by=MATE, what="shock"))
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("Examine what keeps it out of use")
    assert ui.shows("it closes by a competent person's examination after the incident")
    with pytest.raises(LookupError):
        ui.button("I have examined this")


def test_a_condemned_item_is_destroyed_with_a_picture(
    register: Register, start: Callable[..., Driver], tmp_path: Path
) -> None:
    register.log_decision(
        Decision(
            id="c", item="rs-01", at=NOW - timedelta(hours=1), by=EXAMINER, kind=DecisionKind.CONDEMN, reason="worn"
        )
    )
    (tmp_path / "pictures").mkdir()
    Image.linear_gradient("L").resize((800, 600)).convert("RGB").save(tmp_path / "pictures" / "pieces.jpg")
    ui = start(MATE)
    ui.app.pictures_folder = tmp_path / "pictures"
    to_records(ui)
    ui.tap("It was destroyed")
    say_it(ui, "cut into metres")
    with pytest.raises(LookupError):
        ui.button("Go on")
    ui.tap("Choose picture files")
    ui.tap("pieces.jpg")
    ui.tap("Take in 1 picture")
    ui.tap("Go on")
    ui.tap("Sign and log as mate · user")
    gone = register.history("rs-01")[-1]
    assert isinstance(gone, Disposal)
    assert (gone.how, register.has_picture(gone.pictures[0])) == ("cut into metres", True)
    assert register.standing("rs-01", TODAY).state is State.DISPOSED


def test_the_settings_about_place_and_original_hold_for_pictures_of_records_too(
    register: Register, start: Callable[..., Driver], tmp_path: Path
) -> None:
    register.log_decision(
        Decision(
            id="c", item="rs-01", at=NOW - timedelta(hours=1), by=EXAMINER, kind=DecisionKind.CONDEMN, reason="worn"
        )
    )
    (tmp_path / "pictures").mkdir()
    made = tmp_path / "pictures" / "pieces.jpg"
    Image.linear_gradient("L").resize((800, 600)).convert("RGB").save(made, exif=chosen_exif(None, (57.5, -3.5)))
    ui = start(MATE)
    ui.app.prefer(keep_place=True, keep_original=True)
    ui.app.pictures_folder = tmp_path / "pictures"
    to_records(ui)
    ui.tap("It was destroyed")
    say_it(ui, "cut into metres")
    ui.tap("Choose picture files")
    ui.tap("pieces.jpg")
    ui.tap("Take in 1 picture")
    ui.tap("Go on")
    ui.tap("Sign and log as mate · user")
    (sha,) = register.history("rs-01")[-1].pictures
    with Image.open(io.BytesIO(register.picture(sha) or b"")) as kept:
        assert place_of(kept.getexif()) == (57.5, -3.5)
    assert register.original(sha) == made.read_bytes()


def test_an_item_in_service_is_not_offered_as_destroyed(start: Callable[..., Driver]) -> None:
    ui = start(EXAMINER)
    to_records(ui)
    assert not ui.shows("It was destroyed")


def test_an_item_ashore_is_listed_so_and_keeps_its_answer(register: Register, start: Callable[..., Driver]) -> None:
    ui = start(MATE)
    to_records(ui)
    ui.tap("Where is it?")
    ui.tap("Ashore")
    say_it(ui, "rigging loft")
    ui.tap("Sign and log as mate · user")
    placed = register.history("rs-01")[-1]
    assert isinstance(placed, Placed)
    assert (placed.where, placed.note) == (Where.ASHORE, "rigging loft")
    (row,) = register.find("RS-01", on=TODAY)
    assert (row.whereabouts, row.answer) == (Where.ASHORE, Answer.SERVICEABLE)
    to_records(ui)
    assert ui.shows("Ashore: rigging loft")


def test_a_loan_says_to_whom(start: Callable[..., Driver]) -> None:
    ui = start(MATE)
    to_records(ui)
    ui.tap("Where is it?")
    ui.tap("On loan")
    ui.tap("Go on")
    assert ui.shows("Type it here first.")


# --- corrections -------------------------------------------------------------------------------------------------


def test_a_record_that_was_wrong_is_taken_out_and_stays_readable(
    register: Register, start: Callable[..., Driver]
) -> None:
    register.log_placed(Placed(id="p", item="rs-01", at=NOW - timedelta(hours=1), by=MATE, where=Where.NOT_FOUND))
    ui = start(MATE)
    to_records(ui)
    ui.tap("A record was wrong")
    ui.tap("12 Oct 2050 · not found")
    ui.tap("Take it out of what counts")
    say_it(ui, "it was the other sling")
    ui.tap("Sign and log as mate · user")
    assert register.standing("rs-01", TODAY).where is Where.HERE
    assert register.corrections("rs-01")[-1].reason == "it was the other sling"
    to_records(ui)
    ui.tap("A record was wrong")
    assert ui.shows("Corrected before; it no longer counts.")


def test_a_condemnation_is_corrected_by_nobody(register: Register, start: Callable[..., Driver]) -> None:
    register.log_decision(
        Decision(
            id="c", item="rs-01", at=NOW - timedelta(hours=1), by=EXAMINER, kind=DecisionKind.CONDEMN, reason="worn"
        )
    )
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("A record was wrong")
    ui.tap("12 Oct 2050 · condemn")
    assert ui.shows("ends the item for good")


def test_an_inspection_that_stops_the_item_wants_another_in_its_place(
    register: Register, start: Callable[..., Driver]
) -> None:
    found(register, "A", "eye_bearing", "chafed", hours=3)
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("A record was wrong")
    ui.tap("12 Oct 2050 · before use")
    assert ui.shows("No such inspection is on record")
    log(register, sound(BURIED, InspectionKind.BEFORE_USE, NOW - timedelta(hours=1), by=EXAMINER))
    to_records(ui)
    ui.tap("A record was wrong")
    ui.tap(next(one for one in ui.widgets() if "hold" in getattr(one, "line", "")))
    ui.tap("12 Oct 2050 · before use")
    say_it(ui, "it was the other sling")
    ui.tap("Sign and log as yard examiner · competent person")
    assert register.standing("rs-01", TODAY).answer is Answer.SERVICEABLE


def test_an_inspection_made_to_take_the_place_of_a_wrong_one_goes_back_to_the_correction_and_that_to_the_item(
    register: Register, start: Callable[..., Driver]
) -> None:
    found(register, "A", "eye_bearing", "chafed", hours=3)
    ui = start(EXAMINER)
    to_records(ui)
    ui.tap("A record was wrong")
    ui.tap("12 Oct 2050 · before use")
    ui.tap("Make it now")
    ui.good_to_the_end()
    ui.tap("Sign and log as yard examiner")
    if ui.page.heading == "Can nobody take it by mistake?":
        ui.tap("DO NOT USE tag hung")
    assert isinstance(ui.page, WrongPage)
    assert ui.shows("Logged: RS-01")
    ui.tap("12 Oct 2050 · before use")
    say_it(ui, "it was the other sling")
    ui.tap("Sign and log as yard examiner · competent person")
    assert isinstance(ui.page, ItemPage)
    assert register.standing("rs-01", TODAY).answer is Answer.SERVICEABLE
