"""An item's past in words: one row for each record, and which photographs were taken when and where."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from app.language import say, told
from app.register import Correction, Past
from app.touch.wording import answer_words, day, part_name, place_name, who
from app.whereabouts import where_words
from inspection_rules.book import RuleBook
from inspection_rules.events import Acceptance, Decision, Disposal, Incident, Placed, WorkDone
from inspection_rules.item import Item
from inspection_rules.standing import Judged
from inspection_rules.words import Where


@dataclass(frozen=True, slots=True)
class Shot:
    """A photograph of an item.

    Attributes:
        on: local date of the record that names it.
        part: id of the part it shows; empty for the item.
        place: what it was taken for, in words.
        sha: its hash.
    """

    on: date
    part: str
    place: str
    sha: str


def kind_of(one: Past) -> str:
    """Say what kind of record it is."""
    record = one.record
    if isinstance(record, Judged):
        return say(str(record.inspection.kind))
    if isinstance(record, WorkDone):
        return say(str(record.work)) if record.work else say("work done")
    if isinstance(record, Decision):
        return say("decision: {what}", what=say(str(record.kind)))
    if isinstance(record, Acceptance):
        return say("condition accepted")
    if isinstance(record, Incident):
        return say("incident")
    if isinstance(record, Disposal):
        return say("disposal")
    if isinstance(record, Placed):
        return say("where it is: {where}", where=say(str(record.where)))
    if isinstance(record, Correction):
        return say("correction")
    return say("record revised") if record.parents else say("entered")


def what_of(one: Past, item: Item) -> str:
    """Say in one line what it came to: the answer, what was done, what happened; what was typed stays as typed."""
    record = one.record
    if isinstance(record, Judged):
        return answer_words(record.judgement.answer, record.judgement.door)
    if isinstance(record, WorkDone):
        return " · ".join(part for part in (part_name(item, record.part), told(record.what)) if part)
    if isinstance(record, Incident):
        return told(record.what)
    if isinstance(record, Disposal):
        return record.how
    if isinstance(record, Placed):
        return where_words(record.where, record.note) if record.note and record.where is not Where.HERE else record.note
    if isinstance(record, Acceptance):
        return say("{extent}; until {day}", extent=record.extent, day=day(record.until))
    return record.reason if isinstance(record, Decision | Correction) else ""


def struck_text(one: Past) -> str:
    """Say what took a record out and why; empty while it counts."""
    if one.struck is None:
        return ""
    on = (one.struck.at + timedelta(minutes=one.struck.utc_offset_minutes)).date()
    return say("corrected on {day} because {reason}", day=day(on), reason=one.struck.reason)


def row_texts(one: Past, item: Item) -> tuple[str, str, str]:
    """Return a row's title, line and small line: day and kind; what it came to and who; what took it out."""
    line = " · ".join(part for part in (what_of(one, item), who(one.by)) if part)
    return f"{day(one.on)} · {kind_of(one)}", line, struck_text(one)


def shots(past: tuple[Past, ...], item: Item, book: RuleBook) -> list[Shot]:
    """Return the photographs of an item in order of time, each once."""
    found: dict[str, Shot] = {}
    for one in past:
        for part, place, sha in _pictures(one, item, book):
            found.setdefault(sha, Shot(one.on, part, place, sha))
    return list(found.values())


def station_of(item: Item, part: str, observation: str, book: RuleBook) -> str:
    """Name the place of an observation on a part; one that the rules no longer know by its part alone."""
    known = book.observations.get(observation)
    return place_name(item, part, known.station) if known else part_name(item, part)


def _pictures(one: Past, item: Item, book: RuleBook) -> Iterator[tuple[str, str, str]]:
    record = one.record
    if isinstance(record, Judged):
        for sha in record.inspection.pictures:
            note = record.inspection.noted(sha)
            part = note.part if note is not None and any(one.id == note.part for one in item.parts) else ""
            yield part, part_name(item, part) if part else say("whole item"), sha
        for entry in record.inspection.entries:
            for sha in entry.pictures:
                yield entry.part, station_of(item, entry.part, entry.observation, book), sha
    elif isinstance(record, WorkDone):
        for sha in record.pictures:
            yield record.part, kind_of(one), sha
    elif not isinstance(record, Placed | Correction) and hasattr(record, "pictures"):
        for sha in record.pictures:
            yield "", kind_of(one), sha
