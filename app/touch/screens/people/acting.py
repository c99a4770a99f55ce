"""How long a PIN that was given counts: until the app ends, and for eight hours at most."""

import time
from collections.abc import Callable
from datetime import datetime, timedelta

from inspection_rules.record import Person

LASTS = timedelta(hours=8)


class Acting:
    """Who gave their PIN, and when, by the wall's clock and by one that nobody can set."""

    def __init__(self, now: Callable[[], datetime], ticks: Callable[[], float] = time.monotonic) -> None:
        self._now, self._ticks = now, ticks
        self._given: dict[Person, tuple[datetime, float]] = {}

    def gave(self, person: Person) -> None:
        """Note that this person has given the PIN just now."""
        self._given[person] = (self._now(), self._ticks())

    def forget(self, person: Person) -> None:
        """Ask for nothing any more: the PIN was taken off."""
        self._given.pop(person, None)

    def counts(self, person: Person) -> bool:
        """Whether a PIN that was given still counts. A clock set back does not make it last longer."""
        if person not in self._given:
            return False
        at, ticks = self._given[person]
        by_wall = self._now() - at
        return timedelta(0) <= by_wall < LASTS and self._ticks() - ticks < LASTS.total_seconds()

    def lapsed(self, person: Person) -> bool:
        """Whether this person gave a PIN, too long ago."""
        return person in self._given and not self.counts(person)
