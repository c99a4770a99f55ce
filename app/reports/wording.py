"""The sentences of the report: what an answer asks for, where a limit comes from, what may bring an item back."""

from datetime import date
from decimal import Decimal

from inspection_rules.item import Item, Part
from inspection_rules.judgement import Ruling, Source
from inspection_rules.picture_day import told_apart
from inspection_rules.record import Person
from inspection_rules.words import Answer, Door, Mend, PartKind, Thimble, View

SLIP = "There is no published limit for slip; the action value is the site's own or common practice."

CAUTIONS = (
    "This report helps a trained person to decide. It does not replace the maker's instructions, local law or a "
    "licensed examiner; where they ask for more, they govern.",
    "Uncertainties are the tool's defaults, which rest on common practice, unless a line names the site's own "
    "measurement study.",
    "“Good to ±” is 1.645 standard uncertainties: a reading that far inside its limit conforms with 95 % probability.",
    "There is no published limit for the slip of a buried splice. Where slip is judged, the limit is an action value "
    "set by the site or taken from common practice.",
    "Beside every source stands how well it was verified. A secondary source or one that was not verified must be "
    "read in its own text before anything is argued from it.",
    "Nothing here states a remaining strength or a remaining life, and none can be derived from it.",
    "An item that is not listed is not thereby fit for use: it is inspected before each use and when it is due.",
)

_STANDING = {
    "read": "read",
    "secondary": "secondary source",
    "memory": "source not verified",
}
_UNPUBLISHED = {
    "common practice": "common practice, no published source",
    "site": "rule of this site, no published source",
}


def heading(answer: Answer, door: Door | None, *, condemned: bool = False) -> str:
    """Return the line under DO NOT USE."""
    if condemned:
        return "remove – condemned, never used again"
    if answer is Answer.REMOVE:
        return "remove – out of service now"
    if door is Door.LOOK_AGAIN:
        return "hold – look again: make the missing or doubtful observation"
    return "hold – refer: have a competent person examine the cause"


def comes_back(ruling: Ruling) -> str:
    """Return what may bring the item back after this ruling."""
    mend = ruling.mends
    if ruling.answer is Answer.HOLD and ruling.door is Door.LOOK_AGAIN:
        return "the observation, made and in order"
    if mend is Mend.EXAMINE:
        return "the examination that is due, by a competent person"
    if ruling.answer is Answer.HOLD:
        first = "" if mend in (Mend.NOTHING, Mend.LOOK) else f"{mend.value}, on record, and then "
        return f"{first}a competent person's release that names this finding"
    if mend is Mend.NOTHING:
        return "nothing: it stays out of service"
    if mend is Mend.LOOK:
        return "a competent person's release that names this finding"
    return f"{mend.value}, on record, and then a competent person's release that names this finding"


def source_line(source: Source) -> str:
    """Return a source with edition and clause, and how well it was verified."""
    where = ", ".join(part for part in (source.document, source.edition, source.clause) if part)
    standing = _UNPUBLISHED.get(source.kind) or _STANDING.get(source.verified, source.verified)
    if where.casefold() == source.kind:
        return standing
    return f"{where} – {standing}"


def reading_line(ruling: Ruling) -> str:
    """Return the value against its limit with the margin; empty for a ruling without numbers."""
    if ruling.value is None or ruling.limit is None:
        return ""
    unit = ruling.unit
    against = "a limit"
    text = f"{_number(ruling.value, unit)} against {against} of {_number(ruling.limit, unit)}"
    if ruling.margin is None:
        return text
    if ruling.margin == 0:
        return f"{text}: exactly at the limit"
    size = "points" if unit == "%" else unit
    return f"{text}: {'keeps' if ruling.margin > 0 else 'misses'} it by {_number(abs(ruling.margin), size)}"


def doubt_line(ruling: Ruling) -> str:
    """Return the standard uncertainty, where it comes from, and a probability only where a study carries it."""
    if ruling.u is None or ruling.value is None:
        return ""
    size = "points" if ruling.unit == "%" else ruling.unit
    text = f"standard uncertainty {_number(ruling.u, size)}"
    if ruling.u_source:
        text += f" ({ruling.u_source})"
    if ruling.from_study and ruling.probability is not None:
        text += f"; conforms with probability {_rounded(ruling.probability, 3)}"
    return text


def part_name(item: Item | None, part_id: str) -> str:
    """Return a part in the trade's words: `end A, buried eye, captive thimble`."""
    if not part_id:
        return "the whole item"
    part = next((one for one in item.parts if one.id == part_id), None) if item else None
    return part_id if part is None else _part_words(part)


def item_line(item: Item) -> str:
    """Return kind, fibre, construction and size of an item."""
    size = ""
    if item.diameter is not None:
        size = f"Ø {item.diameter}"
    elif item.circumference is not None:
        size = f"circumference {item.circumference}"
    limit = f"working load limit {item.working_load_limit}" if item.working_load_limit else ""
    words = (item.kind.value, item.fibre.value, item.construction.value if item.construction else "", size, limit)
    return " · ".join(word for word in (*words, item.duty.value) if word)


def person(who: Person) -> str:
    """Return a name with its competence."""
    return f"{who.name}, {who.competence.value}"


def counted(remove: int, hold: int, count: int) -> str:
    """Return the summary line."""
    return f"{remove} to remove, {hold} on hold, of {count} {'item' if count == 1 else 'items'}"


def _part_words(part: Part) -> str:
    if part.kind is PartKind.BODY:
        return "body"
    words = [f"end {part.end}"] if part.end else [part.id]
    if part.splice is not None:
        words.append(part.splice.value)
    if part.thimble is not Thimble.NONE:
        words.append(f"{part.thimble.value} thimble")
    return ", ".join(words)


def _number(value: Decimal, unit: str) -> str:
    text = _rounded(value, 2)
    return text + unit if unit.startswith("°") else f"{text} {unit}".strip()


def _rounded(value: Decimal, digits: int) -> str:
    text = f"{round(value, digits):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def picture_line(name: str, part: str, view: View | None, taken: date | None) -> str:
    """Return what stands below a picture: its name, what it shows, and the day it was taken."""
    day = f"taken {taken.isoformat()}" if taken else "no date in the file"
    return " · ".join(one for one in (name, part, str(view) if view else "", day) if one)


def taken_apart(taken: date | None, on: date) -> str:
    """Return what is to be said where a picture was not taken when the inspection of that day was made."""
    apart = told_apart(taken, on)
    if apart is None:
        return ""
    if apart == "after":
        return "dated after the inspection: the camera's clock, or not this picture"
    units = apart.unit if apart.count == 1 else f"{apart.unit}s"
    return f"taken {apart.count} {units} before this inspection"
