"""What goes into a register comes out as it was, in the same run and after opening it anew."""

from collections.abc import Callable
from datetime import date, datetime, timedelta, timezone
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from app.photos import intake
from app.register import Draft, Register, RegisterError
from inspection_rules.book import shipped
from inspection_rules.case import Site, Use
from inspection_rules.item import Part
from inspection_rules.judge import judge
from inspection_rules.record import Reading
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, InspectionKind, Mend, PartKind, SpliceKind, State

from .making import (
    EXAMINER,
    MATE,
    condemn,
    day,
    disposal,
    inspection,
    judgement,
    on,
    pendant,
    photo,
    release,
    ruling,
    work,
)


def test_an_item_comes_back_as_entered(register: Register, folder: Path) -> None:
    sling = pendant("sling", tag="Y-7 ‘grün’", circumference="3 in", made=date(2049, 5, 1), working_load_limit="24 kN")
    register.add_item(sling, MATE, day(0))
    register.close()
    with Register.open(folder) as again:
        assert again.item("sling") == sling


def test_an_inspection_comes_back_with_the_judgement_made_then(register: Register, folder: Path) -> None:
    seen, judged = inspection("n1"), judgement(0, ruling(Answer.HOLD))
    register.log_inspection(seen, judged)
    register.close()
    with Register.open(folder / "register.db") as again:
        assert again.judged("pendant") == [Judged(inspection=seen, judgement=judged)]


def test_history_is_everything_in_the_order_it_happened(register: Register) -> None:
    picture = photo(1)
    register.log_disposal(disposal("d", 9, picture.sha256), [picture])
    register.log_decision(condemn("c", 8))
    register.log_work(work("w", 3))
    register.log_inspection(inspection("n2", 5), judgement(5))
    register.log_inspection(inspection("n1", 2), judgement(2))
    ids = [one.inspection.id if isinstance(one, Judged) else one.id for one in register.history("pendant")]
    assert ids == ["n1", "w", "n2", "c", "d"]


def test_a_judged_case_is_logged_and_found_with_its_packs_readable(register: Register) -> None:
    seen = inspection("n1", by=EXAMINER)
    verdict = judge(register.case(seen, on=on(0)), shipped())
    register.log_inspection(seen, verdict)
    texts = [register.pack_text(one.sha256) for one in verdict.packs]
    assert texts and all(text is not None and "[pack]" in text for text in texts)
    assert register.verify() == []


def test_a_photograph_taken_in_comes_back_byte_for_byte(register: Register) -> None:
    file = BytesIO()
    Image.linear_gradient("L").convert("RGB").save(file, "JPEG")
    taken = intake(file.getvalue(), "eye.jpg")
    register.log_inspection(inspection("n1", pictures=(taken.sha256,)), judgement(), [taken])
    assert register.picture(taken.sha256) == taken.jpeg
    assert register.thumbnail(taken.sha256) == taken.thumbnail
    assert register.find()[0].thumbnail == taken.sha256


def test_logging_the_same_again_changes_nothing(register: Register) -> None:
    for _ in range(2):
        assert register.log_inspection(inspection("n1"), judgement()) == "n1"
    assert len(register.history("pendant")) == 1


def test_an_id_is_never_given_to_something_else(register: Register) -> None:
    register.log_inspection(inspection("n1"), judgement())
    with pytest.raises(RegisterError, match="n1 is in the register already and says something else"):
        register.log_inspection(inspection("n1", note="another"), judgement())
    assert [one.inspection.note for one in register.judged("pendant")] == [""]


def test_an_unknown_item_is_refused_by_name(register: Register) -> None:
    with pytest.raises(RegisterError, match="item ghost is not in this register"):
        register.log_inspection(inspection("n1", item="ghost"), judgement())


def test_an_item_is_entered_once(register: Register) -> None:
    with pytest.raises(RegisterError, match="pendant is in the register already"):
        register.add_item(pendant(tag="other"), MATE, day(1))


def test_a_picture_that_is_not_stored_is_not_named(register: Register) -> None:
    with pytest.raises(RegisterError, match="is not stored"):
        register.log_inspection(inspection("n1", pictures=("0" * 64,)), judgement())
    assert register.history("pendant") == []


def test_a_revision_replaces_the_item_and_keeps_its_records(register: Register) -> None:
    register.log_inspection(inspection("n1"), judgement())
    register.revise_item(pendant(place="quay yard"), MATE, day(1))
    assert register.item("pendant").place == "quay yard"
    assert len(register.heads("pendant")) == 1
    assert [one.inspection.id for one in register.judged("pendant")] == ["n1"]


def test_the_local_date_of_a_late_evening_stays_local(register: Register) -> None:
    evening = datetime(2050, 3, 1, 23, 30, tzinfo=timezone(timedelta(hours=-5)))
    register.log_inspection(inspection("n1", at=evening, utc_offset_minutes=-300), judgement())
    assert register.judged("pendant")[0].inspection.on == date(2050, 3, 1)


# Cases


def test_a_case_holds_the_past_and_not_the_future(register: Register) -> None:
    register.log_inspection(inspection("made", 0, kind=InspectionKind.AS_MADE), judgement())
    register.log_inspection(inspection("first", 5), judgement(5))
    register.log_inspection(inspection("later", 20), judgement(20))
    case = register.case(inspection("now", 10), on=on(10))
    assert [one.id for one in case.baselines] == ["made"]
    assert [one.id for one in case.earlier] == ["first"]


def test_a_case_answers_to_the_settings_and_the_use(register: Register) -> None:
    register.set_regimes(("us-lifting",))
    register.set_site(Site(slip_action="10 mm"))
    case = register.case(inspection("now"), on=on(0), use=Use(pin_diameter="2 in"))
    assert case.regimes == ("us-lifting",)
    assert str(case.site.slip_action) == "10 mm"
    assert case.use is not None and str(case.use.pin_diameter) == "2 in"


def test_readings_on_a_splice_that_is_gone_are_not_in_the_case(register: Register) -> None:
    register.log_inspection(inspection("old", 1), judgement(1))
    new = Part(id="A2", kind=PartKind.TERMINATION, end="A", splice=SpliceKind.BURIED_EYE)
    register.revise_item(pendant(parts=(new, *pendant().parts[1:])), MATE, day(2))
    case = register.case(inspection("now", 3, readings=()), on=on(3))
    assert [(one.id, one.readings) for one in case.earlier] == [("old", ())]


def test_an_inspection_of_a_part_the_item_lacks_is_refused(register: Register) -> None:
    reading = Reading(observation="mark_tail", part="C", values=("1 mm",), method="tape")
    with pytest.raises(RegisterError, match="part 'C', which the item does not have"):
        register.case(inspection("now", readings=(reading,)), on=on(0))


# Standing


def test_the_standing_is_of_the_whole_past(register: Register) -> None:
    register.log_inspection(inspection("bad", 1), judgement(1, ruling(Answer.HOLD)))
    register.log_inspection(inspection("fine", 2), judgement(2))
    assert register.standing("pendant", on(2)).answer is Answer.HOLD
    register.log_decision(release("r", 3, "bad"))
    assert register.standing("pendant", on(3)).answer is Answer.SERVICEABLE
    assert register.standing("pendant", on(1)).answer is Answer.HOLD


def test_work_that_mends_lets_a_removal_be_released(register: Register) -> None:
    removed = ruling(Answer.REMOVE, "stitching", mends=Mend.RE_STITCH)
    register.log_inspection(inspection("bad", 1), judgement(1, removed))
    register.log_decision(release("too soon", 2, "bad", rule="stitching"))
    assert register.find(on=on(2))[0].answer is Answer.REMOVE
    register.log_work(work("w", 3))
    register.log_decision(release("r", 4, "bad", rule="stitching"))
    assert register.find(on=on(4))[0].answer is Answer.SERVICEABLE


def test_a_disposed_item_is_done_with(register: Register) -> None:
    picture = photo(1)
    register.log_decision(condemn("c", 1))
    register.log_disposal(disposal("d", 2, picture.sha256), [picture])
    assert register.standing("pendant", on(2)).state is State.DISPOSED


# Corrections


def test_a_corrected_inspection_no_longer_counts_and_stays_readable(register: Register) -> None:
    wrong = judgement(1, ruling(Answer.HOLD))
    register.log_inspection(inspection("wrong", 1), wrong)
    right = Judged(inspection=inspection("right", 1), judgement=judgement(1))
    register.correct("wrong", "read off the wrong mark", EXAMINER, day(2), right)
    assert [one.inspection.id for one in register.judged("pendant")] == ["right"]
    assert register.standing("pendant", on(2)).answer is Answer.SERVICEABLE
    assert register.case(inspection("now", 3), on=on(3)).earlier == (right.inspection,)
    assert Judged(inspection=inspection("wrong", 1), judgement=wrong) in register.history("pendant")


def test_a_user_cannot_correct_away_what_stops_an_item(register: Register) -> None:
    register.log_inspection(inspection("bad", 1), judgement(1, ruling(Answer.HOLD)))
    with pytest.raises(RegisterError, match="Have a competent person correct it"):
        register.correct("bad", "it was nothing", MATE, day(2))
    assert register.standing("pendant", on(2)).answer is Answer.HOLD


def test_a_correction_says_what_replaced_what_and_why(register: Register) -> None:
    register.log_inspection(inspection("wrong", 1), judgement(1))
    right = Judged(inspection=inspection("right", 1), judgement=judgement(1))
    made = register.correct("wrong", "read off the wrong mark", EXAMINER, day(2), right)
    (one,) = register.corrections("pendant")
    assert (one.id, one.supersedes, one.replacement, one.reason) == (made, "wrong", "right", "read off the wrong mark")
    assert one.by == EXAMINER


def test_a_corrected_release_opens_its_holds_again(register: Register) -> None:
    register.log_inspection(inspection("bad", 1), judgement(1, ruling(Answer.HOLD)))
    register.log_decision(release("r", 2, "bad"))
    register.correct("r", "it was another pendant", EXAMINER, day(3))
    assert register.find(on=on(3))[0].answer is Answer.HOLD


def test_no_correction_lifts_a_condemnation(register: Register) -> None:
    register.log_decision(condemn("c", 1))
    with pytest.raises(RegisterError, match="no correction lifts that"):
        register.correct("c", "a mistake", EXAMINER, day(2))
    assert register.standing("pendant", on(2)).state is State.CONDEMNED


@pytest.mark.parametrize(("record", "why"), [("nothing", "is not in this register"), ("wrong", "was corrected before")])
def test_only_what_counts_is_corrected(register: Register, record: str, why: str) -> None:
    register.log_inspection(inspection("wrong", 1), judgement(1))
    register.correct("wrong", "first", EXAMINER, day(2))
    with pytest.raises(RegisterError, match=why):
        register.correct(record, "second", EXAMINER, day(3))


def test_a_replacement_of_another_item_leaves_nothing(register: Register) -> None:
    register.add_item(pendant("tail"), MATE, day(0))
    register.log_inspection(inspection("wrong", 1), judgement(1))
    other = Judged(inspection=inspection("other", 1, item="tail"), judgement=judgement(1))
    with pytest.raises(RegisterError, match="is not of item pendant"):
        register.correct("wrong", "wrong item", EXAMINER, day(2), other)
    assert register.history("tail") == []
    assert register.corrections("pendant") == []


# Settings


def test_settings_outlive_the_run(register: Register, folder: Path) -> None:
    register.set_regimes(["us-lifting", "harbour"])
    register.set_site(Site(slip_action="1/2 in"))
    register.set_people([MATE, EXAMINER])
    register.close()
    with Register.open(folder) as again:
        assert again.regimes() == ("us-lifting", "harbour")
        assert again.site() == Site(slip_action="1/2 in")
        assert again.people() == [MATE, EXAMINER]


def test_a_new_register_has_nothing_set(register: Register) -> None:
    assert (register.regimes(), register.site(), register.people()) == ((), Site(), [])


# Drafts


def test_a_draft_is_replaced_tap_by_tap_and_gone_when_logged(register: Register) -> None:
    begun = inspection("n1", kind=InspectionKind.BEFORE_USE, readings=())
    register.save_draft(Draft(begun, ("", "tag")))
    sha = register.keep_photo(photo(3))
    further = Draft(inspection("n1", kind=InspectionKind.BEFORE_USE), ("A", "throat_marks"), (sha,))
    register.save_draft(further)
    assert register.drafts() == [further]
    assert register.draft("pendant", InspectionKind.BEFORE_USE) == further
    assert register.draft("pendant", InspectionKind.PERIODIC) is None
    register.log_inspection(further.inspection, judgement())
    assert register.drafts() == []


def test_a_draft_keeps_the_use_that_was_told(register: Register) -> None:
    begun = Draft(inspection("n1"), ("", "tag"), use=Use(load="12 kN"))
    register.save_draft(begun)
    assert register.drafts() == [begun]


def test_a_draft_from_before_a_use_could_be_told_is_read(
    register: Register, strangers_sql: Callable[..., list[Any]]
) -> None:
    begun = Draft(inspection("n1"), ("", "tag"))
    register.save_draft(begun)
    strangers_sql("UPDATE draft SET body = replace(body, ',\"use\":null', '')")
    assert register.drafts() == [begun]


def test_a_draft_stays_when_logging_is_refused(register: Register) -> None:
    begun = Draft(inspection("n1", pictures=("1" * 64,)), ("A", "mark_tail"))
    register.save_draft(begun)
    with pytest.raises(RegisterError):
        register.log_inspection(begun.inspection, judgement())
    assert register.drafts() == [begun]


def test_the_draft_touched_last_comes_first(register: Register) -> None:
    for record_id in ("one", "two", "one"):
        register.save_draft(Draft(inspection(record_id), ("", "tag")))
    assert [one.inspection.id for one in register.drafts()] == ["one", "two"]
    register.discard_draft("one")
    assert [one.inspection.id for one in register.drafts()] == ["two"]
