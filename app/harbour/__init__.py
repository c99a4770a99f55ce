"""The invented harbour of the demo: its items, its people, and what befell each item in two years.

Everything here is invented. Dates, sizes and readings come from one seeded generator.
"""

from collections.abc import Iterator
from datetime import date, timedelta
from random import Random

from app.harbour.quay_yard import quay_yard
from app.harbour.sandpiper import sandpiper
from app.harbour.telling import PEOPLE, SEED, SPLICER, Clock, Story, Visit
from app.harbour.tree_crew import tree_crew

__all__ = ["PEOPLE", "SEED", "SPLICER", "Clock", "Story", "Visit", "stories"]


def stories(today: date) -> Iterator[Story]:
    """Yield every item of the harbour with its two years up to `today`."""
    rng = Random(SEED)
    clock = Clock(rng)
    start = today - timedelta(days=730)
    yield from sandpiper(clock, rng, start, today)
    yield from tree_crew(clock, start, today)
    yield from quay_yard(clock, rng, start, today)
