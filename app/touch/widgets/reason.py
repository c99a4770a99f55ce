"""Reasons for an answer, as cards: the part, what was found, what to do, and where the rule comes from.

Rulings that say the same are one card: twelve of them would hide the others.
"""

from collections.abc import Iterable, Sequence
from datetime import date

from app.language import say, told
from app.touch.widgets.card import Card
from app.touch.wording import day, part_name
from inspection_rules.item import Item
from inspection_rules.judgement import Ruling
from inspection_rules.record import Entry, Inspection, Reading
from inspection_rules.words import Answer, Mend

Key = tuple[str, str]


def ruling_card(ruling: Ruling, item: Item, since: date | None = None, released: str = "") -> Card:
    """Show one reason: the part, what was found and since when, what to do, and where the rule comes from.

    Args:
        released: who released it and until when; then nothing is to be done about it now.
    """
    card = _card([ruling], item, since=since, orders=not released)
    if released:
        card.lines = [released, *card.lines]
    return card


def reason_cards(
    rulings: Iterable[Ruling],
    item: Item,
    inspection: Inspection | None = None,
    *,
    orders: bool = True,
    damages: Sequence[Key] = (),
) -> list[Card]:
    """Show reasons, each that says the same once.

    Args:
        inspection: what was answered, so that every damage and place stands beside its reason.
        orders: whether each card says what to do; False where one list on the page does.
        damages: by part and observation, the readings whose values are damages of their own.
    """
    return [_card(group, item, inspection, orders=orders, damages=damages) for group in merged(rulings)]


def merged(rulings: Iterable[Ruling]) -> list[list[Ruling]]:
    """Put together the rulings that say the same with the same answer, in the order given."""
    groups: dict[tuple[str, str, str], list[Ruling]] = {}
    for one in rulings:
        groups.setdefault((str(one.answer), str(one.door), one.sentence), []).append(one)
    return list(groups.values())


def cited(ruling: Ruling) -> str:
    """Write where a rule comes from, what kind of source that is, and how well it was verified."""
    source = ruling.source
    kind = "" if source.kind in str(source).lower() else f" · {say(source.kind)}"
    return f"{told(str(source))}{kind}"


def all_damages(reading: Reading) -> str:
    """Name the worst of several damages and every one of them with its place; empty where there is one only."""
    if len(reading.values) < 2:
        return ""
    known = len(reading.places) == len(reading.values)
    each = [
        say("{size} at {place}", size=value.text, place=reading.places[n].text) if known else value.text
        for n, value in enumerate(reading.values)
    ]
    sizes = [value.to(reading.values[0].unit) for value in reading.values]
    worst = each[sizes.index(max(sizes))]
    lines = say("The worst: {worst}. All {count}: {each}.", worst=worst, count=len(each), each="; ".join(each))
    return lines if known else say("{damages} Where each lies was not said.", damages=lines)


def _card(
    group: Sequence[Ruling],
    item: Item,
    inspection: Inspection | None = None,
    *,
    since: date | None = None,
    orders: bool = True,
    damages: Sequence[Key] = (),
) -> Card:
    first = group[0]
    titles = " · ".join(dict.fromkeys(say(one.title) for one in group))
    where = ", ".join(dict.fromkeys(name for one in group if (name := part_name(item, one.part))))
    looks = [one.look_again for one in group if one.look_again]
    mends = dict.fromkeys(str(one.mends) for one in group if one.answer is Answer.REMOVE)
    seen = [line for one in group for line in _seen(one, inspection, damages)]
    actions = dict.fromkeys(say(one.action) for one in group if one.action) if orders else {}
    doubts = dict.fromkeys(say("Doubt: {source}", source=told(one.u_source)) for one in group if one.u_source)
    return Card(
        answer=first.answer.value,
        title=f"{titles} · {where}" if where and where.lower() != titles.lower() else titles,
        lines=[
            say("Found {day}.", day=day(since)) if since else "",
            told(first.sentence),
            *dict.fromkeys(seen),
            *actions,
            say("Look again by {day}.", day=day(min(looks))) if looks and orders else "",
            *(back_again(mend) for mend in mends if orders),
        ],
        small=[*doubts, *dict.fromkeys(cited(one) for one in group)],
    )


def back_again(mends: str) -> str:
    """Say what may bring something back that came out of service, and who decides it."""
    if mends == Mend.NOTHING:
        return say("Nothing brings it back.")
    return say("What may bring it back: {mending}.", mending=say(mends))


def _seen(ruling: Ruling, inspection: Inspection | None, damages: Sequence[Key]) -> list[str]:
    """Every damage and every place behind one ruling."""
    if inspection is None:
        return []
    key = (ruling.part, ruling.observation)
    reading = inspection.reading(*key)
    lines = [all_damages(reading)] if reading is not None and key in damages and ruling.measure else []
    finding: Entry | None = inspection.finding(*key)
    if finding is not None and finding.places and ruling.answer is not Answer.SERVICEABLE:
        lines.append(say("Where: {places} from end A.", places=", ".join(place.text for place in finding.places)))
    return [line for line in lines if line]
