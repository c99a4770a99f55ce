"""What the retirement report says of a harbour whose register was judged by the shipped rules."""

import json
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from pypdf import PdfReader

from app.register import Register
from app.reports import retirement_report
from inspection_rules.events import Disposal
from inspection_rules.words import InspectionKind

from .conftest import ON, block, words
from .harbour import EXAMINER, at, bedded, line, photo, present, sling, sound

CUT, UNSEEN, SLIPPED, SHORT, CONDEMNED, SOUND = "ML-04", "ML-06", "TP-01", "RS-02", "RS-03", "ML-05"


@pytest.fixture(scope="module")
def text(harbour_report: Path) -> str:
    return words(harbour_report)


def test_the_summary_counts_what_is_stopped(text: str) -> None:
    assert "2 to remove, 3 on hold, of 7 items" in text


def test_the_head_names_register_place_date_and_rule_packs(text: str) -> None:
    for told in ("Retirement report", "Small harbour", "As of 2026-10-25", "Register sandpiper", "us-lifting 2026.1"):
        assert told in text


@pytest.mark.parametrize("tag", [CUT, UNSEEN, SLIPPED, SHORT, CONDEMNED])
def test_every_stopped_item_has_its_own_do_not_use(text: str, tag: str) -> None:
    assert text.count("DO NOT USE ") >= 5
    assert tag in block(text, tag)


def test_a_sound_item_is_not_in_the_report(text: str) -> None:
    assert SOUND not in text


def test_items_to_remove_come_before_items_on_hold(text: str) -> None:
    last_removed = max(text.index(block(text, tag)) for tag in (SHORT, CONDEMNED))
    assert last_removed < min(text.index(block(text, tag)) for tag in (CUT, UNSEEN, SLIPPED))


def test_each_hold_says_by_which_door_it_is_left(text: str) -> None:
    assert "hold – look again" in block(text, UNSEEN)
    assert "hold – refer" in block(text, SLIPPED)


def test_a_numeric_reason_gives_reading_limit_margin_and_where_the_uncertainty_is_from(text: str) -> None:
    """The law asks for tails of 6 × 20 mm = 120 mm; the shortest was read as 104 mm."""
    told = block(text, SHORT)
    assert "104 mm against a limit of 120 mm: misses it by 16 mm" in told
    assert "standard uncertainty" in told
    assert "default, common practice, no study" in told


def test_a_source_stands_with_its_clause_and_how_well_it_was_verified(text: str) -> None:
    assert "29 CFR 1910.184" in block(text, SHORT)
    assert "(h)(3)(iii) – read" in block(text, SHORT)
    assert "secondary source" in block(text, CONDEMNED)
    assert "common practice, no published source" in block(text, UNSEEN)


def test_slip_is_never_told_without_saying_that_no_limit_is_published(text: str) -> None:
    assert "There is no published limit for slip" in block(text, SLIPPED)


def test_each_reason_names_part_inspector_competence_and_date(text: str) -> None:
    told = block(text, SLIPPED)
    assert "end A, buried eye" in told
    assert "2026-10-12 · periodic · yard examiner, competent person" in told


def test_what_was_written_at_the_place_is_told(text: str) -> None:
    assert "two yarns through, an arm's length from the fairlead" in block(text, CUT)
    assert "under the chafe gear, frozen" in block(text, UNSEEN)


def test_what_may_bring_an_item_back_is_told(text: str) -> None:
    assert "Comes back by the observation, made and in order" in block(text, UNSEEN)
    assert "Comes back by re-splice as a new part" in block(text, SHORT)


def test_nothing_brings_a_condemned_item_back(text: str) -> None:
    told = block(text, CONDEMNED)
    assert told.count("Comes back by") == told.count("Comes back by nothing: condemned is final") > 0


def test_a_condemnation_is_told_with_its_reason_and_who_decided(text: str) -> None:
    told = block(text, CONDEMNED)
    assert "Fibre broken inside at two places; nothing to splice from." in told
    assert "yard examiner, competent person · 2026-10-14" in told


def test_items_to_remove_ask_for_a_witness_of_the_disposal_and_holds_do_not(text: str) -> None:
    assert "Disposal witnessed by" in block(text, SHORT)
    assert "Disposal witnessed by" not in block(text, CUT)
    assert "Examined by" in block(text, CUT)


def test_all_cautions_are_in_the_report(text: str) -> None:
    for told in (
        "helps a trained person",
        "does not replace the maker's instructions, local law or a licensed examiner",
        "Uncertainties are the tool's defaults",
        "no published limit for the slip",
        "inspected before each use",
    ):
        assert told in text


def test_no_strength_and_no_score_is_stated(text: str) -> None:
    assert "% of" not in text
    assert "score" not in text.lower()


def test_pages_are_numbered_of_all(harbour_report: Path) -> None:
    pages = PdfReader(harbour_report).pages
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page.extract_text()


def test_the_picture_of_what_was_found_is_in_the_report(harbour_register: Register, harbour_report: Path) -> None:
    finding = harbour_register.judged("item-ML-04")[-1].inspection.finding("body", "body_surface")
    assert finding is not None
    stored = harbour_register.picture(finding.pictures[0])
    assert stored is not None
    assert stored in harbour_report.read_bytes()


def test_a_picture_that_two_reasons_name_is_shown_once(empty_register: Register, report: Callable[[], Path]) -> None:
    """A cut body is stopped by the law's rule and by common practice, both for the same finding."""
    item, picture = bedded(empty_register, sling("RS-01")), photo()
    found = present("body", "body_surface", "cut", picture)
    sound(empty_register, item, "2026-10-12", InspectionKind.PERIODIC, seen=found, photos=(picture,))
    made = report()
    name = f"picture {picture.sha256[:16]}"
    assert words(made).count(name) > words(made).count(f"{name}, above") > 0
    assert sum(len(page.images) for page in PdfReader(made).pages) == 1


def test_the_records_behind_it_are_attached(harbour_report: Path) -> None:
    attached = PdfReader(harbour_report).attachments["records.json"][0]
    tags = {one["item"]["tag"] for one in json.loads(attached)}
    assert tags == {CUT, UNSEEN, SLIPPED, SHORT, CONDEMNED}


def test_an_item_overdue_on_the_report_s_date_is_on_hold(harbour_register: Register, tmp_path: Path) -> None:
    told = words(retirement_report(harbour_register, tmp_path / "later.pdf", date(2026, 11, 25)))
    assert "The inspection due by 2026-11-02 has not been made." in block(told, "ML-07")


def test_a_report_for_an_earlier_date_knows_nothing_of_what_came_later(
    harbour_register: Register, tmp_path: Path
) -> None:
    told = words(retirement_report(harbour_register, tmp_path / "earlier.pdf", date(2026, 10, 12)))
    assert "0 to remove, 3 on hold" in told
    assert SHORT not in told


def test_the_same_register_and_date_make_the_same_bytes(
    harbour_register: Register, harbour_report: Path, tmp_path: Path
) -> None:
    again = retirement_report(harbour_register, tmp_path / "again.pdf", ON, place="Small harbour")
    assert again.read_bytes() == harbour_report.read_bytes()


def test_a_register_without_items_makes_a_report_that_says_so(report: Callable[[], Path]) -> None:
    told = words(report())
    assert "0 to remove, 0 on hold, of 0 items" in told
    assert "Nothing is to be removed and nothing is on hold." in told
    assert "Cautions" in told


def test_one_item_gives_one_block_and_no_list(empty_register: Register, report: Callable[[], Path]) -> None:
    item = bedded(empty_register, line("ML-01"))
    sound(empty_register, item, "2026-10-12", InspectionKind.PERIODIC, seen=present("body", "body_surface", "cut"))
    told = words(report())
    assert told.count("DO NOT USE") == 1
    assert told.count("ML-01") == 1


def test_a_finding_made_again_and_again_is_told_once_with_its_first_date(
    empty_register: Register, report: Callable[[], Path]
) -> None:
    item = bedded(empty_register, line("ML-01"))
    for day in ("2026-08-12", "2026-09-12", "2026-10-12"):
        sound(empty_register, item, day, InspectionKind.BEFORE_USE, seen=present("A", "eye_bearing", "chafed"))
    told = words(report())
    assert told.count("Back of the eye") == 1
    assert "2026-10-12 · before use · yard examiner, competent person; first found 2026-08-12" in told


def test_what_was_disposed_of_is_listed_and_asks_for_nothing(
    empty_register: Register, report: Callable[[], Path]
) -> None:
    item = bedded(empty_register, sling("RS-09"))
    picture = photo("cut in two")
    empty_register.log_disposal(
        Disposal(id="gone", item=item.id, at=at("2026-10-20"), by=EXAMINER, how="cut up", pictures=(picture.sha256,)),
        (picture,),
    )
    told = words(report())
    assert "Disposed of, with a photograph on record RS-09 · rope sling" in told
    assert "DO NOT USE" not in told


def test_an_item_nobody_has_inspected_is_told_as_a_hold(empty_register: Register, report: Callable[[], Path]) -> None:
    empty_register.add_item(line("ML-01"), EXAMINER, at("2026-10-01"))
    assert "No inspection is on record" in block(words(report()), "ML-01")


def test_an_item_whose_record_cannot_be_read_is_on_hold_and_says_so(empty_register: Register, tmp_path: Path) -> None:
    """Another program has overwritten the body of a record, past the guards."""
    item = bedded(empty_register, line("ML-01"))
    sound(empty_register, item, "2026-10-12", InspectionKind.PERIODIC)
    empty_register.close()
    with closing(sqlite3.connect(empty_register.folder / "register.db")) as connection, connection:
        for (guard,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            connection.execute(f"DROP TRIGGER {guard}")
        connection.execute("UPDATE record SET body = 'gone' WHERE kind = 'inspection'")
    with Register.open(empty_register.folder) as register:
        told = block(words(retirement_report(register, tmp_path / "retirement.pdf", ON)), "ML-01")
    assert "cannot be read" in told
    assert "Keep it out of use" in told


def test_the_head_says_that_the_register_was_verified_and_where_its_chain_ends(
    text: str, harbour_register: Register
) -> None:
    (end,) = harbour_register.chain_ends()
    assert f"{end.entries} entries of {end.device}, last seal {end.seal}" in text
    assert "Verified every seal, list and picture fits" in text


def test_a_report_from_a_register_that_was_edited_says_not_to_rely_on_it(
    harbour_register: Register, tmp_path: Path
) -> None:
    folder = shutil.copytree(harbour_register.folder, tmp_path / "edited")
    with closing(sqlite3.connect(folder / "register.db")) as connection, connection:
        connection.execute("DELETE FROM listed WHERE tag = ?", (CUT,))
    with Register.open(folder) as edited:
        told = words(retirement_report(edited, tmp_path / "edited.pdf", ON))
    assert "DO NOT RELY ON THIS REPORT" in told
