"""The reports screen: written beside the register, said where, handed on."""

from pathlib import Path

from driver import Driver

from app.touch.screens.reports.reports import ReportsPage


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


def test_signed_rounds_are_reached_from_here(ui: Driver) -> None:
    to_reports(ui)
    ui.tap("Rounds")
    assert ui.shows("No round was signed yet.")
