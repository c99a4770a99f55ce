"""Reports on paper: what must come out of service, and why."""

from app.reports.errors import ReportError
from app.reports.retirement import retirement_report

__all__ = ["ReportError", "retirement_report"]
