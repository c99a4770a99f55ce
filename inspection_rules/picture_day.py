"""How the day a photograph was taken lies to the day of the inspection it stands in."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

MANY_DAYS, MANY_MONTHS = 60, 24
DAYS_A_MONTH, DAYS_A_YEAR = 30.44, 365.2425


@dataclass(frozen=True, slots=True)
class Before:
    """How long before an inspection a picture was taken, in whole units, rounded down."""

    count: int
    unit: Literal["day", "month", "year"]


def told_apart(taken: date | None, on: date) -> Before | Literal["after"] | None:
    """Return what is to be said where a picture was not taken when the inspection was made; None where nothing is.

    The day before counts as the inspection's own: a camera's clock knows no time zone.
    """
    if taken is None:
        return None
    if taken > on:
        return "after"
    days = (on - taken).days
    if days <= 1:
        return None
    if days <= MANY_DAYS:
        return Before(days, "day")
    months = int(days / DAYS_A_MONTH)
    return Before(months, "month") if months < MANY_MONTHS else Before(int(days / DAYS_A_YEAR), "year")
