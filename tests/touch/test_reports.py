"""The reports screen: written beside the register, said where, handed on."""

from datetime import timedelta
from pathlib import Path

from driver import Driver
from harbour import BURIED, EXAMINER, MATE, NOW, sound

from app.register import Register
from app.touch.screens.item.item import ItemPage
from app.touch.screens.reports.reports import ReportsPage
from app.touch.widgets.buttons import RowButton
from inspection_rules.events import Decision, Reference
from inspection_rules.judge import judge
from inspection_rules.record import Finding
from inspection_rules.words import Answer, DecisionKind, InspectionKind, Seen


def to_reports(ui: Driver) -> None:
    ui.tap("Reports")
    assert isinstance(ui.page, ReportsPage)


def test_the_retirement_report_is_written_beside_the_register_and_said_where(ui: Driver, folder: Path) -> None:
    to_reports(ui)
    ui.tap("Retirement report")
    ui.quiet()
    (written,) = (folder / "reports").glob("*.pdf")
    assert written.read_bytes().startswith(b"%PDF")
    assert any(written.name in text.replace("\n", "") for text in ui.texts())


def test_the_scale_card_is_written_and_can_be_handed_on(ui: Driver, folder: Path) -> None:
    to_reports(ui)
    ui.tap("Scale card")
    ui.quiet()
    assert (folder / "reports" / "scale card.pdf").exists()
    assert ui.button("Hand on a copy of the report")


def test_a_report_that_cannot_be_written_says_so_and_can_be_tried_again(ui: Driver, folder: Path) -> None:
    (folder / "reports").write_text("in the way")
    to_reports(ui)
    ui.tap("Scale card")
    ui.quiet()
    assert ui.shows("cannot be made")
    (folder / "reports").unlink()
    ui.tap("Go back")
    ui.tap("Scale card")
    ui.quiet()
    assert ui.shows("The report lies in")


def test_what_was_released_lately_is_told_with_who_why_and_until_when(ui: Driver, register: Register) -> None:
    look = sound(BURIED, InspectionKind.BEFORE_USE, NOW - timedelta(hours=3), by=MATE)
    chafed = Finding(part="A", observation="eye_bearing", seen=Seen.PRESENT, conditions=("chafed",))
    others = [one for one in look.findings if (one.part, one.observation) != ("A", "eye_bearing")]
    look = look.model_copy(update={"findings": (*others, chafed)})
    judgement = judge(register.case(look, on=look.on), register.book())
    register.log_inspection(look, judgement)
    rule = next(one.rule for one in judgement.rulings if one.answer is Answer.HOLD)
    release = Decision(
        id="r", item="rs-01", at=NOW - timedelta(hours=2), by=EXAMINER, kind=DecisionKind.RELEASE,
        examined=(Reference(inspection=look.id, rule=rule, part="A"),), reason="on the cover only",
        until=NOW.date() + timedelta(days=7),
    )  # fmt: skip
    register.log_decision(release)
    register.log_decision(release.model_copy(update={"id": "old", "at": NOW - timedelta(days=40)}))
    to_reports(ui)
    ui.tap("Released and condemned")
    assert ui.shows("RS-01 · 12 Oct 2050 · decision: release")
    assert ui.shows("yard examiner · competent person: on the cover only · until 19 Oct 2050")
    assert len([one for one in ui.widgets() if isinstance(one, RowButton)]) == 1
    ui.tap("RS-01 ")
    assert isinstance(ui.page, ItemPage)


def test_where_nothing_was_decided_that_is_said(ui: Driver) -> None:
    to_reports(ui)
    ui.tap("Released and condemned")
    assert ui.shows("Nothing was released, condemned or accepted.")


def test_signed_rounds_are_reached_from_here(ui: Driver) -> None:
    to_reports(ui)
    ui.tap("Rounds")
    assert ui.shows("No round was signed yet.")
