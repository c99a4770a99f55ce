"""LOLER 1998 (SI 1998/2307): how often, what is kept.

Read: Schedule 1(7)(a) and regulation 11 (legislation.gov.uk, 31 December 2020); six months for accessories in the
foreword of BS EN 1492-1. Six months for lifting persons and twelve for other lifting equipment are from memory.
"""

import pytest

from inspection_rules.book import shipped
from inspection_rules.words import Answer, Door, Mend

from ..inspection_rules.building import MATE, buried_sling, judged, laid_sling
from ..inspection_rules.fittings import climbing, connector, examined, hung, later, mooring, rules_of, said

OVERDUE = {True: Answer.SERVICEABLE, False: Answer.HOLD}


@pytest.mark.criterion("due-date")
@pytest.mark.parametrize(
    ("last", "on", "in_time"),
    [
        ("2026-02-01", "2026-08-01", True),     # the day itself
        ("2026-02-01", "2026-08-02", False),
        ("2026-08-31", "2027-02-28", True),     # a month without that day ends on its last
        ("2026-08-31", "2027-03-01", False),
        ("2027-08-31", "2028-02-29", True),
        ("2027-08-31", "2028-03-01", False),
    ],
)  # fmt: skip
def test_an_accessory_is_examined_at_least_every_six_months(last, on, in_time):
    told = later(laid_sling(), "uk-loler-accessories", last, on, "UK")
    assert told.answer is OVERDUE[in_time]


@pytest.mark.criterion("due-date")
@pytest.mark.parametrize(("on", "in_time"), [("2026-08-01", True), ("2026-08-02", False)])
@pytest.mark.parametrize("item", [climbing(), climbing("lanyard"), connector()], ids=["line", "lanyard", "connector"])
def test_what_lifts_persons_is_examined_at_least_every_six_months(item, on, in_time):
    """From memory."""
    assert later(item, "uk-loler-persons", "2026-02-01", on, "UK").answer is OVERDUE[in_time]


@pytest.mark.criterion("due-date")
@pytest.mark.parametrize(("on", "in_time"), [("2027-02-01", True), ("2027-02-02", False)])
def test_other_lifting_equipment_is_examined_at_least_every_twelve_months(on, in_time):
    """From memory."""
    line = laid_sling(kind="line", duty="tree rigging")
    assert later(line, "uk-loler-other", "2026-02-01", on, "UK").answer is OVERDUE[in_time]


def test_which_of_the_intervals_counts_depends_on_what_the_gear_does():
    def spoken(item):
        return {name for name in rules_of(judged(examined(item, "UK", case_past=[]))) if name.startswith("uk-loler")}

    examiner = {"uk-loler-examiner", "uk-loler-exceptional"}
    assert spoken(laid_sling()) == {"uk-loler-accessories"} | examiner - {"uk-loler-examiner"}
    assert spoken(hung()) == {"uk-loler-accessories"} | examiner - {"uk-loler-examiner"}
    assert spoken(climbing()) == {"uk-loler-persons"} | examiner - {"uk-loler-examiner"}
    assert spoken(mooring()) == set()


@pytest.mark.criterion("due-date")
def test_an_overdue_accessory_goes_back_to_work_by_its_examination():
    told = later(laid_sling(), "uk-loler-accessories", "2026-02-01", "2026-09-01", "UK")
    assert (told.answer, told.door, told.mends) == (Answer.HOLD, Door.REFER, Mend.EXAMINE)
    assert "2026-08-01" in told.sentence


@pytest.mark.criterion("overload")
def test_exceptional_circumstances_ask_for_a_thorough_examination():
    told = said(examined(laid_sling(), "UK", kind="before use", seen={("", "shock"): "shock"}), "uk-loler-exceptional")
    calm = said(examined(laid_sling(), "UK", kind="before use"), "uk-loler-exceptional")
    assert (told.answer, calm.answer) == (Answer.HOLD, Answer.SERVICEABLE)
    assert told.mends is Mend.EXAMINE


@pytest.mark.criterion("who-inspects")
def test_a_thorough_examination_is_made_by_a_competent_person():
    """From memory."""
    told = said(examined(buried_sling(), "UK", by=MATE), "uk-loler-examiner")
    assert (told.answer, told.mends) == (Answer.HOLD, Mend.EXAMINE)
    assert "uk-loler-examiner" not in rules_of(judged(examined(buried_sling(), "UK")))


def test_a_report_is_kept_until_the_next_or_two_years():
    """Regulation 11, read."""
    (pack,) = [pack for pack in shipped().packs if pack.id == "uk"]
    keep = {duty.record: duty.keep for duty in pack.retention}
    assert keep["the report of a thorough examination"] == "until the next report or two years, whichever is later"
    assert keep["the first report on an accessory for lifting"] == "two years"


def test_an_examination_says_how_long_its_report_is_kept():
    advice = judged(examined(laid_sling(), "UK")).advisories
    assert any("two years, whichever is later" in line for line in advice)
