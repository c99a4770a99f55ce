"""One reason for an answer, as a card: the part, what was found, what to do, and where the rule comes from."""

from datetime import date

from app.touch.widgets.card import Card
from app.touch.wording import day, part_name
from inspection_rules.judgement import Ruling
from inspection_rules.record import Item
from inspection_rules.words import Answer


def ruling_card(ruling: Ruling, item: Item, since: date | None = None) -> Card:
    """Show one reason: the part, what was found and since when, what to do, and where the rule comes from."""
    where = part_name(item, ruling.part)
    title = f"{ruling.title} · {where}" if where else ruling.title
    again = f"Look again by {day(ruling.look_again)}." if ruling.look_again else ""
    back = f"What may bring it back: {ruling.mends}." if ruling.answer is Answer.REMOVE else ""
    doubt = f"Doubt: {ruling.u_source}" if ruling.u_source else ""
    return Card(
        answer=ruling.answer.value,
        title=title,
        lines=[f"Found {day(since)}." if since else "", ruling.sentence, ruling.action, again, back],
        small=[doubt, cited(ruling)],
    )


def cited(ruling: Ruling) -> str:
    """Write where a rule comes from, what kind of source that is, and how well it was verified."""
    source = ruling.source
    kind = "" if source.kind in str(source).lower() else f" · {source.kind}"
    return f"{source}{kind}"
