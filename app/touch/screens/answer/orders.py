"""What the person is told to do: one list in order of weight, nothing twice, nothing milder than the answer."""

from collections.abc import Iterable
from dataclasses import dataclass

from app.language import say
from app.touch.widgets.reason import back_again
from app.touch.wording import stopped
from inspection_rules.judgement import Ruling
from inspection_rules.standing import Standing
from inspection_rules.words import Answer, Door, Mend

RANK = {Answer.REMOVE: 0, Answer.HOLD: 1, Answer.WATCH: 3, Answer.SERVICEABLE: 4}


@dataclass(frozen=True, slots=True)
class Order:
    """One thing to do, and the parts it is for; an empty id is the item as a whole."""

    text: str
    parts: tuple[str, ...]


def orders(rulings: Iterable[Ruling], answer: Answer) -> tuple[Order, ...]:
    """Return what these rulings order, the heaviest first, each once.

    Under an answer that stops the item nothing is ordered that lets it be used: "use it, look again sooner" of one
    place is no order while another place takes the item out of service.
    """
    found: dict[str, dict[str, None]] = {}
    for one in sorted(rulings, key=_weight):
        if one.action and (not stopped(answer) or stopped(one.answer)):
            found.setdefault(one.action, {})[one.part] = None
    return tuple(Order(text, tuple(parts)) for text, parts in found.items())


def until_when(standing: Standing, rulings: Iterable[Ruling]) -> list[str]:
    """Say, for what must not be used, how long that lasts."""
    if standing.answer is Answer.REMOVE:
        mends = dict.fromkeys(str(one.mends) for one in rulings if one.answer is Answer.REMOVE)
        if Mend.NOTHING in mends:
            return [back_again(Mend.NOTHING)]
        if len(mends) > 1:
            each = "; ".join(say(mend) for mend in mends)
            return [say("What may bring it back, all of it together: {mendings}.", mendings=each)]
        return [back_again(mend) for mend in mends]
    if standing.door is Door.REFER:
        return [say("Until a competent person has examined the cause and released it.")]
    return [say("Until what is missing or in doubt was looked at again and found in order.")]


def who_may(standing: Standing, rulings: Iterable[Ruling]) -> str:
    """Say who may bring back what must not be used."""
    nothing = any(one.answer is Answer.REMOVE and one.mends is Mend.NOTHING for one in rulings)
    if standing.answer is Answer.REMOVE and nothing:
        return say("Who: a competent or a qualified person condemns it.")
    if standing.answer is Answer.REMOVE:
        return say("Who: a competent or a qualified person releases it, once that is done and on record.")
    if standing.door is Door.REFER:
        return say("Who: only a competent or a qualified person.")
    return say("Who: anybody of the same competence as this look, or of a higher one.")


def _weight(ruling: Ruling) -> int:
    return 2 if ruling.answer is Answer.HOLD and ruling.door is Door.LOOK_AGAIN else RANK[ruling.answer]
