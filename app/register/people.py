"""PINs: a person may have one to act as competent or qualified person.

A PIN keeps honest people honest: it stops somebody from acting as another by mistake or for convenience. It protects
acting in the app, not reading, and not against anybody who can open the register's file: settings are not sealed, and
four digits are soon guessed on a computer. What is done to PINs is noted in the settings with its day, so that a
safety officer sees a PIN that was reset without being known.
"""

import hashlib
import hmac
import secrets
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from pathlib import Path

from pydantic import AwareDatetime, BaseModel, Field, TypeAdapter
from sqlalchemy import Connection, Engine

from app.register import settings
from app.register.errors import RegisterError, telling
from inspection_rules.fields import Name
from inspection_rules.record import Person
from inspection_rules.words import COMPETENT, Competence

PINS, EVENTS = "pins", "pin events"
SHORTEST, LONGEST = 4, 12  # digits
# RFC 7914: cost, block size, parallelism. 32 MiB and some tenths of a second, on a phone up to seconds.
COST, BLOCK, PARALLEL = 2**15, 8, 3
MEMORY = 64 * 2**20
FREE_TRIES = 3
FIRST_WAIT, LONGEST_WAIT = 30, 3600  # s


class PinChange(StrEnum):
    """What was done to a PIN."""

    SET = "set"
    CHANGED = "changed"
    REMOVED = "removed with the PIN"
    BY_ANOTHER = "removed by another competent person with a PIN"
    RESET = "reset without any PIN"
    LEFT = "taken out of the list with the PIN"
    LEFT_WITHOUT = "taken out of the list after the PIN was off"


class PinEvent(BaseModel):
    """What was done to whose PIN, by whom, when."""

    at: AwareDatetime
    name: Name
    competence: Competence
    what: PinChange
    by: Person | None = None


class _Pin(BaseModel):
    """A person's PIN in one competence.

    Attributes:
        salt, digest: in hexadecimal; `cost`, `block` and `parallel` are scrypt's.
        wrong: tries since the last right one. since: when the latest of them was made.
    """

    name: Name
    competence: Competence
    salt: str
    digest: str
    cost: int = COST
    block: int = BLOCK
    parallel: int = PARALLEL
    wrong: int = Field(default=0, ge=0)
    since: AwareDatetime | None = None


@dataclass(frozen=True, slots=True)
class Tried:
    """What became of a try: whether it was right, and how many seconds pass before the next one counts."""

    right: bool
    wait: int = 0


_PINS: TypeAdapter[list[_Pin]] = TypeAdapter(list[_Pin])
_EVENTS: TypeAdapter[list[PinEvent]] = TypeAdapter(list[PinEvent])


class Pins:
    """The PINs of one register. Hashing is slow on purpose: never on the window's thread."""

    def __init__(self, folder: Path, engine: Engine, reader: Engine) -> None:
        self.folder, self._engine, self._reader = folder, engine, reader

    @telling
    def asked_of(self, person: Person) -> bool:
        """Whether a person must give a PIN to act in this competence.

        A name that has a PIN in one of the two competences is asked for it in the other as well, so that nobody
        gets round it by adding the same name once more.
        """
        with self._reader.connect() as connection:
            return _of(_pins(connection), person) is not None

    @telling
    def people(self) -> list[Person]:
        """Return who has a PIN of their own, in which competence."""
        with self._reader.connect() as connection:
            return [Person(name=one.name, competence=one.competence) for one in _pins(connection)]

    @telling
    def events(self) -> list[PinEvent]:
        """Return what was done to PINs, oldest first."""
        with self._reader.connect() as connection:
            return _events(connection)

    @telling
    def wait(self, person: Person, at: datetime) -> int:
        """Return how many seconds pass before another try counts; 0 for none."""
        with self._engine.begin() as connection:
            every = _pins(connection)
            return _wait(connection, every, _known(every, person), at)

    @telling
    def set(self, person: Person, pin: str, by: Person | None, at: datetime, *, before: str = "") -> Tried:
        """Set a person's PIN, or change it where `before` is the one there is.

        Args:
            person: in the competence that the PIN is for, which is competent or qualified person.
            pin: 4 to 12 digits.
            by: who acts in the app.

        Raises:
            RegisterError: the PIN has another form, or a user or a designated person acts without one.
        """
        if not (pin.isascii() and pin.isdigit() and SHORTEST <= len(pin) <= LONGEST):
            raise RegisterError(f"A PIN has {SHORTEST} to {LONGEST} digits. Nothing was set. Choose another one.")
        if person.competence not in COMPETENT:
            raise RegisterError("Only a competent or a qualified person acts with a PIN. Nothing was set.")
        known = self.asked_of(person)
        if known and not (tried := self.try_pin(person, before, at)).right:
            return tried
        salt = secrets.token_bytes(16)
        fresh = _Pin(name=person.name, competence=person.competence, salt=salt.hex(), digest=_hash(pin, salt).hex())
        with self._engine.begin() as connection:
            every = [one for one in _pins(connection) if not _same(one, person)]
            _put(connection, [*every, fresh])
            _note(connection, person, PinChange.CHANGED if known else PinChange.SET, by, at)
        return Tried(right=True)

    @telling
    def remove(self, person: Person, pin: str, at: datetime, *, another: Person | None = None) -> Tried:
        """Take a PIN off, with the PIN itself or with that of another competent person who has one."""
        who = another or person
        tried = self.try_pin(who, pin, at)
        if tried.right:
            self._forget(person, PinChange.BY_ANOTHER if another else PinChange.REMOVED, who, at)
        return tried

    @telling
    def reset(self, person: Person, by: Person | None, at: datetime) -> None:
        """Take a forgotten PIN off without any; it stays noted that this was done."""
        self._forget(person, PinChange.RESET, by, at)

    @telling
    def leave(self, person: Person, pin: str, by: Person | None, at: datetime) -> Tried:
        """Take a person out of the list of who inspects here, with the PIN where there is one; their PIN goes too.

        It stays noted where that person has, or ever had, a PIN.
        """
        asked = self.asked_of(person)
        if asked and not (tried := self.try_pin(person, pin, at)).right:
            return tried
        with self._engine.begin() as connection:
            every, listed = _pins(connection), settings.people(connection)
            had = any(_name(one.name) == _name(person.name) for one in _events(connection))
            # A PIN that is shared with the same name in the other competence stays with that one.
            _put(connection, [one for one in every if not _same(one, person)])
            left = [one.model_dump(mode="json") for one in listed if one != person]
            settings.put(connection, settings.PEOPLE, left)
            if person.competence in COMPETENT and (asked or had):
                _note(connection, person, PinChange.LEFT if asked else PinChange.LEFT_WITHOUT, by, at)
        return Tried(right=True)

    @telling
    def try_pin(self, person: Person, pin: str, at: datetime) -> Tried:
        """Check a PIN.

        After three wrong tries each further one has to wait, 30 s at first and twice as long every time, up to an
        hour. The try is counted before it is checked, so ending the program does not give it back. Where the clock
        was set back the whole wait begins anew. A clock set forward ends it: nothing here can know better.
        """
        with self._engine.begin() as connection:
            every = _pins(connection)
            known = _known(every, person)
            wait = _wait(connection, every, known, at)
            if wait:
                return Tried(right=False, wait=wait)
            known.wrong, known.since = known.wrong + 1, at
            _put(connection, every)
        digest = _hash(pin, bytes.fromhex(known.salt), known.cost, known.block, known.parallel)
        right = hmac.compare_digest(digest.hex(), known.digest)
        if not right:
            return Tried(right=False, wait=_length(known.wrong))
        with self._engine.begin() as connection:
            every = _pins(connection)
            for one in every:
                if one.salt == known.salt:
                    one.wrong, one.since = 0, None
            _put(connection, every)
        return Tried(right=True)

    def _forget(self, person: Person, what: PinChange, by: Person | None, at: datetime) -> None:
        with self._engine.begin() as connection:
            every = _pins(connection)
            gone = _known(every, person)
            _put(connection, [one for one in every if one is not gone])
            _note(connection, Person(name=gone.name, competence=gone.competence), what, by, at)


def _hash(pin: str, salt: bytes, cost: int = COST, block: int = BLOCK, parallel: int = PARALLEL) -> bytes:
    return hashlib.scrypt(pin.encode(), salt=salt, n=cost, r=block, p=parallel, maxmem=MEMORY, dklen=32)


def _pins(connection: Connection) -> list[_Pin]:
    return settings.checked(_PINS, settings.get(connection, PINS) or [], PINS)


def _events(connection: Connection) -> list[PinEvent]:
    return settings.checked(_EVENTS, settings.get(connection, EVENTS) or [], EVENTS)


def _put(connection: Connection, pins: list[_Pin]) -> None:
    settings.put(connection, PINS, [one.model_dump(mode="json") for one in pins])


def _note(connection: Connection, person: Person, what: PinChange, by: Person | None, at: datetime) -> None:
    event = PinEvent(at=at, name=person.name, competence=person.competence, what=what, by=by)
    settings.put(connection, EVENTS, [one.model_dump(mode="json") for one in (*_events(connection), event)])


def _name(text: str) -> str:
    return " ".join(text.casefold().split())


def _same(pin: _Pin, person: Person) -> bool:
    return _name(pin.name) == _name(person.name) and pin.competence is person.competence


def _of(pins: list[_Pin], person: Person) -> _Pin | None:
    if person.competence not in COMPETENT:
        return None
    named = [one for one in pins if _name(one.name) == _name(person.name)]
    return next((one for one in named if one.competence is person.competence), named[0] if named else None)


def _known(pins: list[_Pin], person: Person) -> _Pin:
    found = _of(pins, person)
    if found is None:
        raise RegisterError(f"{person.name} has no PIN as {person.competence}. Nothing was changed.")
    return found


def _length(wrong: int) -> int:
    return 0 if wrong < FREE_TRIES else min(LONGEST_WAIT, FIRST_WAIT * 2 ** min(wrong - FREE_TRIES, 20))


def _wait(connection: Connection, every: list[_Pin], known: _Pin, at: datetime) -> int:
    """Return what is left of the wait; where the clock stands before the latest try, it begins anew now."""
    length = _length(known.wrong)
    if not length or known.since is None:
        return 0
    if at < known.since:
        known.since = at
        _put(connection, every)
    return max(0, -int(-(length - (at - known.since).total_seconds()) // 1))
