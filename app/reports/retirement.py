"""The retirement report: which items must not be used, why, by which rule, and what may bring them back."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from app.reports.saving import check_place, save

if TYPE_CHECKING:
    from app.register import Register

TITLE = "Retirement report"


def retirement_report(register: "Register", out: Path, on: date, *, title: str = TITLE, place: str = "") -> Path:
    """Write the report as a PDF and return where it is.

    The register is verified first, and the report says what that found. It is produced as PDF/A-3B, with the
    records it speaks of attached as JSON. The same register on the same date makes the same bytes.

    Args:
        out: the file to write; it is replaced as a whole or left as it was.
        on: the local date the report speaks for.
        place: the organisation or place the register belongs to, for the head of the report.

    Raises:
        ReportError: the file cannot be written there; the message names the remedy.
        RegisterError: the register cannot be read.
    """
    check_place(out)
    # The PDF library takes a while to load: a phone that starts the app should not wait for it.
    from app.reports.retirement_pages import Checked, pages
    from app.reports.stopped import findings

    checked = Checked(register.verify(), register.chain_ends())
    save(pages(findings(register, on), register, on, title, place, checked), out)
    return out
