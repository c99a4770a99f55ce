"""One inspection under way: the steps to make, what has been answered, and where the hands are now.

Plain values, changed only by making a new one, so that a change can be saved before the screen shows it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.language import say
from inspection_rules.case import Use
from inspection_rules.item import Item
from inspection_rules.judgement import Judgement, Missing, Ruling
from inspection_rules.observation import Observation
from inspection_rules.quantity import Quantity
from inspection_rules.record import Entry, Finding, Inspection, Reading
from inspection_rules.walk import Step
from inspection_rules.words import Answer, Seen, worst

Key = tuple[str, str]
STOPS = (Answer.HOLD, Answer.REMOVE)
WHERE = "where: "  # begins the lines of a note that say which place is whose


@dataclass(frozen=True, slots=True)
class Station:
    """One place on the rope, with all that is asked there.

    Attributes:
        part: id of the part; empty for the item as a whole.
        name: the station, in the trade's words.
    """

    part: str
    name: str
    steps: tuple[Step, ...]

    @property
    def key(self) -> Key:
        """Part and name: tells a station from every other on the item."""
        return self.part, self.name


@dataclass(frozen=True, slots=True)
class Visit:
    """An inspection under way.

    Attributes:
        inspection: with the answers so far.
        steps: in the order of the rope.
        at: key of the step the hands are at.
        photos: hashes of every photograph taken during this visit.
        waiting: photographs of a step that has no answer yet; they are named by the inspection as a whole too,
            so that they outlive an interruption.
        back: key of the step from which a step was added; the hands go back there once that has its answer.
        use: what was told of the use it is made for; None where nothing was.
    """

    item: Item
    inspection: Inspection
    steps: tuple[Step, ...]
    at: Key
    photos: tuple[str, ...] = ()
    waiting: tuple[tuple[Key, str], ...] = ()
    back: Key | None = None
    use: Use | None = None

    @property
    def step(self) -> Step:
        """The step the hands are at."""
        return next(step for step in self.steps if step.key == self.at)

    @property
    def station(self) -> Station:
        """The station the hands are at."""
        return next(one for one in self.stations if self.at in [step.key for step in one.steps])

    @property
    def stations(self) -> tuple[Station, ...]:
        """The places to visit, in the order of the rope."""
        found: dict[Key, list[Step]] = {}
        for step in self.steps:
            found.setdefault((step.part, step.observation.station), []).append(step)
        return tuple(Station(part, name, tuple(steps)) for (part, name), steps in found.items())

    @property
    def place(self) -> tuple[int, int]:
        """Number of the present step, from 1, and how many there are."""
        return [step.key for step in self.steps].index(self.at) + 1, len(self.steps)

    @property
    def complete(self) -> bool:
        """Whether every step has an answer."""
        return all(self.answered(step.key) for step in self.steps)

    def answered(self, key: Key) -> bool:
        """Whether a step has its answer; a reading needs all its repeats."""
        entry = self.entry(key)
        if isinstance(entry, Reading):
            step = next(step for step in self.steps if step.key == key)
            return len(entry.values) >= step.observation.repeats
        return entry is not None

    def answered_at(self, missing: Missing) -> bool:
        """Whether what a judgement calls missing was answered at all, be it that it could not be examined."""
        return self.entry((missing.part, missing.observation)) is not None

    def entry(self, key: Key) -> Entry | None:
        """Return what was answered at a step, if anything."""
        part, observation = key
        return self.inspection.finding(part, observation) or self.inspection.reading(part, observation)


def start(
    item: Item,
    inspection: Inspection,
    steps: Sequence[Step],
    at: Key | None = None,
    photos: Sequence[str] = (),
    use: Use | None = None,
) -> Visit:
    """Begin or take up an inspection, at the given step or at the first that has no answer.

    Raises:
        ValueError: there is nothing to look at.
    """
    if not steps:
        raise ValueError(f"the rules ask nothing of {item.tag} at this kind of inspection")
    keys = [step.key for step in steps]
    visit = Visit(item, inspection, tuple(steps), keys[0], tuple(photos), use=use)
    if at in keys:
        return go_to(visit, at)
    still = [key for key in keys if not visit.answered(key)]
    return go_to(visit, still[0] if still else keys[-1])


def go_to(visit: Visit, key: Key) -> Visit:
    """Move the hands to another step."""
    return replace(visit, at=key, back=None)


def go_to_station(visit: Visit, station: Station) -> Visit:
    """Move the hands to a station: to its first step without an answer, else to its first.

    At the station already, they move to its next step, round at the end.
    """
    keys = [step.key for step in station.steps]
    if visit.at in keys:
        return go_to(visit, keys[(keys.index(visit.at) + 1) % len(keys)])
    return go_to(visit, next((key for key in keys if not visit.answered(key)), keys[0]))


def onward(visit: Visit) -> Visit:
    """Move on: back to where a step was added from, else to the next step without an answer.

    Along the rope and then from its beginning, so that nothing is passed over for good.
    """
    keys = [step.key for step in visit.steps]
    if visit.back in keys:
        return go_to(visit, visit.back)
    here = keys.index(visit.at)
    for key in keys[here + 1 :] + keys[:here]:
        if not visit.answered(key):
            return go_to(visit, key)
    return visit


def with_step(visit: Visit, step: Step, order: Sequence[Key] = ()) -> Visit:
    """Add a step beyond what is needed, where it lies in the order of the hands, and go there to come back after it.

    Args:
        order: keys of all steps there could be; without them it comes after the last of its station.
    """
    back = visit.back or visit.at
    if step.key in [one.key for one in visit.steps]:
        return replace(visit, at=step.key, back=back if back != step.key else None)
    if step.key in order:
        place = order.index(step.key)
        before = [n for n, one in enumerate(visit.steps) if one.key in order and order.index(one.key) < place]
        after = before[-1] + 1 if before else 0
    else:
        station = (step.part, step.observation.station)
        same = [n for n, one in enumerate(visit.steps) if (one.part, one.observation.station) == station]
        after = same[-1] + 1 if same else len(visit.steps)
    return replace(visit, steps=(*visit.steps[:after], step, *visit.steps[after:]), at=step.key, back=back)


def found(
    visit: Visit, seen: Seen, conditions: Sequence[str] = (), reason: str = "", accepted: Sequence[str] = ()
) -> Visit:
    """Answer the present question; an earlier answer to it is replaced, its pictures and note stay.

    Args:
        accepted: ids of the accepted conditions this is, no bigger than they were accepted.
    """
    part, observation = visit.at
    kept = _kept(visit)
    before = visit.entry(visit.at)
    if isinstance(before, Reading):
        # What was read before it was given up stays in the record.
        taken = "read before: " + " · ".join(value.text for value in before.values)
        kept["note"] = "; ".join(str(one) for one in (kept.get("note"), taken) if one)
    elif isinstance(before, Finding) and before.places:
        if set(before.conditions) <= set(conditions):
            kept["places"] = before.places
        else:  # nobody knows any more which of the places are left
            lines = str(kept.get("note", "")).split("\n")
            kept["note"] = "\n".join(line for line in lines if not line.startswith(WHERE))
    finding = Finding(
        part=part,
        observation=observation,
        seen=seen,
        conditions=tuple(conditions),
        accepted=tuple(accepted),
        reason=reason,
        **kept,
    )
    return _with(visit, finding)


def read(visit: Visit, reading: Reading) -> Visit:
    """Record the present reading; an earlier one is replaced, its pictures and note stay."""
    kept = _kept(visit)
    if reading.note:  # the keypad has something to say of it, and knows what was said before
        kept.pop("note")
    return _with(visit, reading.model_copy(update=kept))


def placed(visit: Visit, said: str, place: Quantity) -> Visit:
    """Say where along the rope a condition lies that was named at the present question; it may lie in several places.

    Args:
        said: the condition in words: the note tells which of the places is whose.
    """
    entry = visit.entry(visit.at)
    if not isinstance(entry, Finding):
        return visit
    note = "\n".join(one for one in (entry.note, f"{WHERE}{said} at {place.text}") if one)
    return _with(visit, entry.model_copy(update={"places": (*entry.places, place), "note": note}))


def without_places(visit: Visit) -> Visit:
    """Take back every place that was given for the present question's conditions."""
    entry = visit.entry(visit.at)
    if not isinstance(entry, Finding):
        return visit
    note = "\n".join(line for line in entry.note.split("\n") if not line.startswith(WHERE))
    return _with(visit, entry.model_copy(update={"places": (), "note": note}))


def remarked(visit: Visit, key: Key, remark: str) -> Visit:
    """Add a line to the note of an answer; what is no answer yet has none."""
    entry = visit.entry(key)
    if entry is None:
        return visit
    note = "\n".join(one for one in (entry.note, remark) if one)
    return _with(visit, entry.model_copy(update={"note": note}))


def unanswered(visit: Visit) -> Visit:
    """Take the present answer back."""
    part, observation = visit.at
    inspection = visit.inspection
    return replace(
        visit,
        inspection=inspection.model_copy(
            update={
                "findings": tuple(f for f in inspection.findings if (f.part, f.observation) != (part, observation)),
                "readings": tuple(r for r in inspection.readings if (r.part, r.observation) != (part, observation)),
            }
        ),
    )


def noted(visit: Visit, text: str) -> Visit:
    """Keep a note with the present answer, or with the inspection while there is no answer yet."""
    entry = visit.entry(visit.at)
    if entry is not None:
        return _with(visit, entry.model_copy(update={"note": text}))
    line = f"{visit.step.observation.station}{f' {visit.at[0]}' if visit.at[0] else ''}: {text}"
    note = "\n".join(part for part in (visit.inspection.note, line) if part)
    return replace(visit, inspection=visit.inspection.model_copy(update={"note": note}))


def pictured(visit: Visit, key: Key, picture: str) -> Visit:
    """Keep a photograph with a step."""
    photos = visit.photos if picture in visit.photos else (*visit.photos, picture)
    visit = replace(visit, photos=photos)
    entry = visit.entry(key)
    if entry is not None:
        if picture in entry.pictures:
            return visit
        return _with(visit, entry.model_copy(update={"pictures": (*entry.pictures, picture)}))
    pictures = visit.inspection.pictures
    inspection = visit.inspection.model_copy(update={"pictures": tuple(dict.fromkeys((*pictures, picture)))})
    return replace(visit, inspection=inspection, waiting=(*visit.waiting, (key, picture)))


def pictures_at(visit: Visit, key: Key) -> tuple[str, ...]:
    """Return the hashes of the photographs of a step."""
    entry = visit.entry(key)
    waiting = tuple(picture for where, picture in visit.waiting if where == key)
    return (*(entry.pictures if entry else ()), *waiting)


def signs(visit: Visit, judgement: Judgement | None) -> dict[Key, Answer | None]:
    """Return the sign of each station; None while its evidence is not there.

    A station shows the worst ruling that rests on what was answered there. One that was not examined never
    shows serviceable. What was seen and stops the item is shown at once: nothing that is still open can take it back.
    """
    return {station.key: _sign(visit, station, judgement) for station in visit.stations}


def rulings_at(visit: Visit, station: Station, judgement: Judgement | None) -> tuple[Ruling, ...]:
    """Return the rulings that rest on what was answered at a station, worst first."""
    if judgement is None:
        return ()
    answered = {step.observation.id for step in station.steps if visit.answered(step.key)}
    return tuple(r for r in judgement.rulings if r.part == station.part and r.observation in answered)


def _sign(visit: Visit, station: Station, judgement: Judgement | None) -> Answer | None:
    if judgement is None:
        return None
    rulings = rulings_at(visit, station, judgement)
    if not all(visit.answered(step.key) for step in station.steps):
        seen = {step.observation.id for step in station.steps if isinstance(visit.entry(step.key), Finding)}
        stop = [r.answer for r in rulings if r.observation in seen and not r.measure and r.answer in STOPS]
        return worst(stop) if stop else None
    answers = [ruling.answer for ruling in rulings]
    entries = [visit.entry(step.key) for step in station.steps]
    if any(isinstance(entry, Finding) and entry.seen is Seen.NOT_EXAMINED for entry in entries):
        answers.append(Answer.HOLD)
    return worst(answers)


def _kept(visit: Visit) -> dict[str, object]:
    entry = visit.entry(visit.at)
    return {"pictures": pictures_at(visit, visit.at), "note": entry.note if entry else ""}


def _with(visit: Visit, entry: Entry) -> Visit:
    key = (entry.part, entry.observation)
    old = visit.inspection

    def others(entries: Sequence[Entry]) -> tuple[Entry, ...]:
        return tuple(one for one in entries if (one.part, one.observation) != key)

    findings, readings = others(old.findings), others(old.readings)
    if isinstance(entry, Finding):
        findings = (*findings, entry)
    else:
        readings = (*readings, entry)
    pictures = tuple(one for one in old.pictures if one not in entry.pictures)
    # model_validate, since model_copy would let a wrong value through to the record.
    inspection = Inspection.model_validate(
        {**dict(old), "findings": findings, "readings": readings, "pictures": pictures}
    )
    waiting = tuple(one for one in visit.waiting if one[0] != key)
    return replace(visit, inspection=inspection, waiting=waiting)


def values_of(reading: Reading) -> str:
    """Return what was read, in words; damages with their place where each has one."""
    if len(reading.places) != len(reading.values):
        return " · ".join(value.text for value in reading.values)
    both = zip(reading.values, reading.places, strict=True)
    return " · ".join(say("{size} at {place}", size=value.text, place=place.text) for value, place in both)


def answer_of(observation: Observation, entry: Entry | None) -> str:
    """Return what was answered, in words; empty when nothing was."""
    if isinstance(entry, Reading):
        return values_of(entry)
    if not isinstance(entry, Finding):
        return ""
    if entry.seen is Seen.ABSENT:
        return observation.good
    if entry.seen is Seen.PRESENT:
        said = {condition.id: condition.say for condition in observation.conditions}
        return ", ".join(said.get(one, one) for one in entry.conditions)
    return f"{entry.seen}: {entry.reason}" if entry.reason else str(entry.seen)
