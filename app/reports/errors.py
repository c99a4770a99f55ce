"""What a report says when it cannot be written."""


class ReportError(Exception):
    """The report was not written; the message names the place and the remedy."""
