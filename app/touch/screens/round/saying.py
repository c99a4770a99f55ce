"""What a round says, in the language in use: its one line for the master, and a line for each item."""

from datetime import timedelta

from app.language import mark, say, say_many, told
from app.touch.screens.round.state import Line
from app.touch.wording import DO_NOT_USE, answer_words, day, stopped
from app.whereabouts import line_words, where_words
from inspection_rules.record import Inspection
from inspection_rules.rounds import Round, RoundLine, RoundSummary, Whereabouts, shown_answer
from inspection_rules.words import Answer, Where

READY = mark("READY")
NOT_READY = mark("NOT READY")
MOST_TAGS = 6
LIFT = mark("before a lift")
PURPOSES = (mark("before a climb"), mark("before arrival"), mark("before departure"), LIFT)


def verdict(summary: RoundSummary) -> str:
    """Say READY or NOT READY."""
    return say(READY) if summary.ready else say(NOT_READY)


def in_one_line(summary: RoundSummary) -> str:
    """Say the round's answer in one line."""
    count = len(summary.lines)
    if not summary.ready:
        return _not_ready(summary)
    watched = [one.tag for one in summary.lines if one.answer is Answer.WATCH]
    if watched:
        return say("READY: {count} items; watch: {tags}", count=count, tags=tags(watched))
    return say_many("READY: {count} item", "READY: {count} items", count)


def _not_ready(summary: RoundSummary) -> str:
    stops, count = len(summary.stops), len(summary.lines)
    named = tags([one.tag for one in summary.stops])
    if stops == 1:
        return say("NOT READY: 1 of {all} stops it: {tags}", all=count, tags=named)
    return say("NOT READY: {stops} of {all} stop it: {tags}", stops=stops, all=count, tags=named)


def tags(found: list[str]) -> str:
    """Write some tags, the first few of many."""
    shown = ", ".join(found[:MOST_TAGS])
    more = len(found) - MOST_TAGS
    return say("{tags} and {count} more", tags=shown, count=more) if more > 0 else shown


def about(made: Round) -> str:
    """Say where and what for."""
    purpose = say(made.purpose) if made.purpose in PURPOSES else made.purpose
    return " · ".join(one for one in (made.place, purpose) if one)


def when(made: Round) -> str:
    """Say when it was signed, by the clock there."""
    local = made.at + timedelta(minutes=made.utc_offset_minutes)
    return f"{day(made.on)} {local:%H:%M}"


def clock(inspection: Inspection) -> str:
    """Say at what time an inspection was made, by the clock there."""
    return f"{inspection.at + timedelta(minutes=inspection.utc_offset_minutes):%H:%M}"


def sign_of(line: Line) -> str:
    """Return the answer whose sign an item has in the list; empty for none."""
    if line.entry is not None and line.entry.whereabouts is Whereabouts.NOT_FOUND:
        return Answer.HOLD.value
    if line.entry is not None and line.entry.whereabouts is not Whereabouts.INSPECTED:
        return ""
    if line.row is None or (line.entry is None and not stopped(line.row.answer)):
        return ""
    if line.entry is not None and line.entry.not_for_this_use and not stopped(line.row.answer):
        return Answer.HOLD.value
    return line.row.answer.value


def status(line: Line) -> str:
    """Say what became of an item so far."""
    parts = []
    if line.entry is None:
        parts.append(say("To do"))
        if line.started is not None:
            count = len(line.started.inspection.entries)
            parts.append(say("begun: {count} answered", count=count))
        elif line.earlier is not None:
            parts.append(say("looked at {clock}, before this round", clock=clock(line.earlier.inspection)))
        if line.row is not None and line.row.whereabouts is not Where.HERE:
            parts.append(say("last known: {where}", where=say(line.row.whereabouts.value)))
    elif line.entry.whereabouts is Whereabouts.INSPECTED:
        parts += [say("Done"), line.entry.note]
    else:
        parts.append(where_words(line.entry.whereabouts.value, line.entry.note))
    said = line.row
    if said is not None and stopped(said.answer) and (line.entry is None or line.entry.inspection):
        parts.append(say(DO_NOT_USE))
    if said is not None and ((line.entry is not None and line.entry.inspection) or stopped(said.answer)):
        parts.append(answer_words(said.answer, said.door))
    if line.entry is not None and line.entry.not_for_this_use:
        parts.append(say("Not for this use"))
    if line.met:
        parts.append(say("met here"))
    return " · ".join(one for one in parts if one)


def reason(made: Round, line: RoundLine) -> str:
    """Say why an item stops a round, or how it stands, with what was noted of it."""
    entry = made.entry(line.item)
    return " · ".join(one for one in line_words(line.sentence, entry, told) if one)


def sign_in_summary(made: Round, line: RoundLine) -> str:
    """Return the answer whose sign stands beside an item in the summary; empty for what is not here to be used."""
    answer = shown_answer(made, line)
    return answer.value if answer is not None else ""
