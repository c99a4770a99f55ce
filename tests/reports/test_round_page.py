"""The report of a signed round, read back from the PDF."""

import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.command import main
from app.register import Register, RegisterError
from app.reports import ReportError
from app.reports.round_page import one_line, round_page, round_report, usual_place
from inspection_rules.item import Item
from inspection_rules.judgement import Ruling, Source
from inspection_rules.record import Person
from inspection_rules.rounds import Round, RoundEntry, RoundLine, RoundSummary
from inspection_rules.words import Answer, Scope

MATE = Person.model_validate({"name": "mate", "competence": "user"})
AT = datetime(2050, 10, 12, 7, 30, tzinfo=UTC)

needs_poppler = pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler-utils is not installed")


def line(number: int) -> Item:
    return Item.model_validate(
        {
            "id": f"ml-{number}", "tag": f"ML-{number:02}", "description": "bow spring, port", "kind": "line",
            "place": "Sandpiper", "duty": "mooring", "fibre": "HMPE", "diameter": "24 mm",
            "construction": "hollow braid, twelve-strand", "parts": [{"id": "body", "kind": "body"}],
        }
    )  # fmt: skip


def log(register: Register, count: int, round_id: str = "round-1", **more: object) -> str:
    """A round of lines: the first ashore, the second not found, nobody looked at the others."""
    for number in range(1, count + 1):
        register.add_item(line(number), MATE, AT)
    made = Round.model_validate(
        {
            "id": round_id, "begun": AT, "at": AT, "utc_offset_minutes": 120, "by": MATE, "place": "Sandpiper",
            "purpose": "before arrival", "expected": [f"ml-{number}" for number in range(1, count + 1)],
            "entries": [
                {"item": "ml-1", "whereabouts": "ashore", "note": "in the net loft"},
                {"item": "ml-2", "whereabouts": "not found"},
            ],
            **more,
        }
    )  # fmt: skip
    return register.log_round(made, register.round_summary(made))


@pytest.fixture
def register(tmp_path: Path) -> Iterator[Register]:
    with Register.create(tmp_path / "office", "deck phone") as register:
        register.set_regimes(["Mooring"])
        yield register


def text_of(path: Path, last: int = 99) -> str:
    done = subprocess.run(
        ["pdftotext", "-layout", "-l", str(last), str(path), "-"], capture_output=True, text=True, check=True
    )
    return " ".join(done.stdout.split())


def pages_of(path: Path) -> int:
    done = subprocess.run(["pdfinfo", str(path)], capture_output=True, text=True, check=True)
    return int(next(one.split()[1] for one in done.stdout.splitlines() if one.startswith("Pages")))


@needs_poppler
@pytest.mark.parametrize(
    "said",
    [
        "NOT READY: 2 of 3 stop it: ML-02, ML-03",
        "The worst of what stops it: DO NOT USE: hold",
        "page 1 of 1",
        "mate, user",
        "2050-10-12 09:30 by the clock there",
        "Mooring",
        "Ashore: in the net loft · not here to be used",
        "DO NOT USE: hold · Not found.",
        "READY means that nothing on record stopped an item",
        "none, so none is judged",
    ],
)
def test_page_says(register: Register, tmp_path: Path, said: str) -> None:
    assert said in text_of(round_report(register, tmp_path / "r.pdf", log(register, 3)))


@needs_poppler
def test_page_does_not_say_that_an_item_lies_where_it_was_looked_for(register: Register, tmp_path: Path) -> None:
    lost = {"item": "ml-2", "whereabouts": "not found", "note": "net loft, bin 3"}
    page = text_of(round_report(register, tmp_path / "r.pdf", log(register, 3, entries=[lost])))
    assert "Not found; looked for in: net loft, bin 3" in page


@needs_poppler
def test_page_says_the_use_that_was_told_and_that_the_rest_is_not_judged(register: Register, tmp_path: Path) -> None:
    use = {"load": "12 kN", "persons": True}
    said = text_of(round_report(register, tmp_path / "r.pdf", log(register, 2, use=use)))
    assert "Whole load: 12 kN; Persons: A person is raised, lowered or held by it." in said
    assert "What is not told is not judged." in said


@needs_poppler
def test_page_names_the_seal_of_the_record(register: Register, tmp_path: Path) -> None:
    path = round_report(register, tmp_path / "r.pdf", log(register, 2))
    assert f"seal {register.round('round-1').seal}" in text_of(path)


@needs_poppler
@pytest.mark.parametrize("said", ["mate, user", "seal ", "READY means that nothing on record", "page 1 of 4"])
def test_first_page_of_a_long_round_says_enough_to_be_read_alone(register: Register, tmp_path: Path, said: str) -> None:
    assert said in text_of(round_report(register, tmp_path / "r.pdf", log(register, 70)), last=1)


@needs_poppler
def test_item_that_is_not_for_this_use_says_so_in_its_line(register: Register, tmp_path: Path) -> None:
    """As signed: the register would ask for the item's own look, which is not what is tested here."""
    signed = register.round(log(register, 2))
    against = Ruling(
        rule="load", pack="p", title="Load", scope=Scope.USE, answer=Answer.HOLD, sentence="Too heavy.",
        source=Source(document="Trade practice", kind="common practice", verified="none"),
    )  # fmt: skip
    entry = RoundEntry(item="ml-2", whereabouts="inspected", inspection="one", not_for_this_use=(against,))
    line = RoundLine(
        item="ml-2", tag="ML-02", answer=Answer.SERVICEABLE, sentence="Not for this use. Too heavy.", stops=True
    )
    signed = replace(
        signed,
        made=signed.made.model_copy(update={"entries": (entry,)}),
        summary=RoundSummary(ready=False, stops=(line,), lines=(line,)),
    )
    (tmp_path / "r.pdf").write_bytes(round_page(signed, "office"))
    said = text_of(tmp_path / "r.pdf")
    assert "ML-02 · NOT FOR THIS USE · Too heavy." in said


@needs_poppler
def test_deck_of_twelve_lines_fits_one_page(register: Register, tmp_path: Path) -> None:
    assert pages_of(round_report(register, tmp_path / "r.pdf", log(register, 12))) == 1


@needs_poppler
def test_long_round_goes_on_to_the_next_page_with_every_item(register: Register, tmp_path: Path) -> None:
    path = round_report(register, tmp_path / "r.pdf", log(register, 70))
    said = text_of(path)
    assert pages_of(path) > 1
    assert all(f"ML-{number:02}" in said for number in range(1, 71))


def test_same_round_makes_the_same_bytes(register: Register, tmp_path: Path) -> None:
    round_id = log(register, 3)
    first = round_report(register, tmp_path / "1.pdf", round_id).read_bytes()
    register.add_item(line(9), MATE, AT)
    assert round_report(register, tmp_path / "2.pdf", round_id).read_bytes() == first


def test_report_is_kept_in_the_folder_of_reports_beside_the_register(register: Register) -> None:
    place = usual_place(register, log(register, 2, "0f3a-92bc-77"))
    assert place == register.folder / "reports" / "round-2050-10-12-Sandpiper-3a92bc77.pdf"
    assert place.parent.is_dir()


def test_answer_in_one_line_names_each_that_stops_it(register: Register) -> None:
    log(register, 2)
    assert one_line(register.round("round-1")) == "NOT READY: 1 of 2 stops it: ML-02"


def test_unknown_round_is_told(register: Register, tmp_path: Path) -> None:
    with pytest.raises(RegisterError, match="there is no round"):
        round_report(register, tmp_path / "r.pdf", "nobody's")


def test_place_that_cannot_be_written_is_told(register: Register, tmp_path: Path) -> None:
    with pytest.raises(ReportError, match="does not exist"):
        round_report(register, tmp_path / "missing" / "r.pdf", log(register, 2))


def test_command_writes_the_newest_round_and_says_its_answer(
    register: Register, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    log(register, 2)
    register.close()
    out = tmp_path / "r.pdf"
    assert main(["report", "round", "--register", str(tmp_path / "office"), "--out", str(out)]) == 0
    assert capsys.readouterr().out.splitlines() == ["NOT READY: 1 of 2 stops it: ML-02", str(out)]


def test_command_tells_that_there_is_no_round(
    register: Register, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    register.close()
    assert main(["report", "round", "--register", str(tmp_path / "office"), "--out", str(tmp_path / "r.pdf")]) == 2
    assert "no round was signed" in capsys.readouterr().err
