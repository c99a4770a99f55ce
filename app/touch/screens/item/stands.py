"""Where an item stands, in cards: its answer and until when, where it is, what was released and what was accepted."""

from app.language import say, told
from app.register import Past
from app.touch.services import Looked
from app.touch.widgets.card import Card
from app.touch.wording import DO_NOT_USE, answer_words, day, part_name, shown_sign, stopped, who
from app.whereabouts import where_words
from inspection_rules.events import Decision, Placed
from inspection_rules.item import Item
from inspection_rules.standing import Judged, Released, Standing
from inspection_rules.words import Answer, DecisionKind, Mend, State, Where


def standing_cards(looked: Looked) -> list[Card]:
    """Head the page: where the item stands, until when, and which rule says so; where it is, when it is not here."""
    standing = looked.standing
    here = standing.where is Where.HERE
    if stopped(standing.answer):
        # The reason follows as a card of its own, so this one says what to do.
        todo = standing.open[0].ruling.action if standing.open else ""
        lines = [answer_words(standing.answer, standing.door), told(todo or standing.sentence)]
        card = Card(answer=standing.answer.value, heavy=True, title=say(DO_NOT_USE), lines=lines)
        return [card] if here else [card, Card(title=_since(standing), lines=[*_place(looked), _back(standing)])]
    if not here:
        lines = [*_place(looked), _last_answer(standing), *_released(looked), _back(standing)]
        sign = shown_sign(standing.answer, standing.where)
        return [Card(answer=sign, large=True, title=_since(standing), lines=lines)]
    said = answer_words(standing.answer, standing.door)
    due = say("Next examination by {day}.", day=day(standing.next_due)) if standing.next_due else ""
    why = due_why(looked)
    if any(one.until == standing.next_due for one in standing.released):
        due = say("Released until {day}: a competent person looks again by then.", day=day(standing.next_due))
        why = ""
    return [
        Card(
            answer=standing.answer.value,
            large=True,
            title=said[:1].upper() + said[1:],
            lines=[
                due,
                *_released(looked),
                say("Set by: {rule}.", rule=told(why)) if why else "",
                say("Inspect before each use."),
            ],
        )
    ]


def may_be_examined(standing: Standing) -> bool:
    """Whether something keeps the item out of use that a competent person may examine; not where nothing mends it."""
    return standing.state is State.QUARANTINED and any(
        one.ruling.answer is not Answer.REMOVE or one.ruling.mends is not Mend.NOTHING for one in standing.open
    )


def accepted_cards(standing: Standing, item: Item) -> list[Card]:
    """Return what a competent person accepted for a time, each with how big it may be and until when."""
    cards: list[Card] = []
    for one in standing.accepted:
        where, title = part_name(item, one.part), say(one.title)
        extent = say("Accepted by {name}, no bigger than: {extent}", name=one.by, extent=one.extent)
        until = say("Until {day}; each look finds it no bigger, or it holds again.", day=day(one.until))
        name = f"{title} · {where}" if where else title
        cards.append(Card(answer=Answer.WATCH.value, title=name, lines=[extent, until]))
    return cards


def due_why(looked: Looked) -> str:
    """Say which interval or watch sets the day the item is next due; empty where nothing on record does."""
    due = looked.standing.next_due
    if due is None:
        return ""
    for one in reversed(looked.judged):
        if one.judgement.next_due == due and one.judgement.next_due_why:
            return one.judgement.next_due_why
        watch = next((ruling for ruling in one.judgement.rulings if ruling.look_again == due), None)
        if watch is not None:
            return watch.title
    return ""


def release_of(looked: Looked, rule: str, part: str) -> Past | None:
    """Return the release by which what a rule last stopped on a part is open no more; None where there is none."""
    if any((one.ruling.rule, one.ruling.part) == (rule, part) for one in looked.standing.open):
        return None
    last = max((one.inspection.at for one in looked.judged if _stopped_by(one, rule, part)), default=None)
    for past in reversed(looked.past):
        made = past.record
        if past.struck is None and isinstance(made, Decision) and made.kind is DecisionKind.RELEASE:
            named = any((one.rule, one.part) == (rule, part) for one in made.examined)
            if named and last is not None and made.at >= last:
                return past
    return None


def release_told(past: Past) -> str:
    """Say who released something, when, and until when that holds."""
    until = past.record.until if isinstance(past.record, Decision) else None
    if until is None:
        return say("Released by {who} on {day}.", who=who(past.by), day=day(past.on))
    return say("Released by {who} on {day}, until {until}.", who=who(past.by), day=day(past.on), until=day(until))


def _stopped_by(judged: Judged, rule: str, part: str) -> bool:
    return any((one.rule, one.part) == (rule, part) and stopped(one.answer) for one in judged.judgement.rulings)


def _since(standing: Standing) -> str:
    said = say("{where} since {day}", where=say(str(standing.where)), day=day(standing.where_on))
    return said[:1].upper() + said[1:]


def _place(looked: Looked) -> list[str]:
    """Say what was said of the place, and by whom."""
    standing = looked.standing
    note = [f"{where_words(standing.where, standing.where_note)}."] if standing.where_note else []
    said = [one.by for one in looked.past if isinstance(one.record, Placed) and one.struck is None]
    if not said:
        return note
    by = who(said[-1])
    return [
        *note,
        say("Missed by {who}.", who=by) if standing.where is Where.NOT_FOUND else say("Said by {who}.", who=by),
    ]


def _last_answer(standing: Standing) -> str:
    said = answer_words(standing.answer, standing.door)
    if standing.next_due is None:
        return say("Its last answer: {answer}.", answer=said)
    return say("Its last answer: {answer}, next examination by {day}.", answer=said, day=day(standing.next_due))


def _back(standing: Standing) -> str:
    if standing.where is Where.NOT_FOUND:
        return say("Found? Say where it is, and look at it before use.")
    return say("Is it back? Say so, and look at it before use.")


def _released(looked: Looked) -> list[str]:
    """Say what is released until a date, by whom and when."""
    return [_one_released(one, looked) for one in looked.standing.released]


def _one_released(one: Released, looked: Looked) -> str:
    where = part_name(looked.item, one.part)
    what = say("{what} at {part}", what=say(one.title), part=where) if where else say(one.title)
    past = next((past for past in looked.past if past.id == one.decision), None)
    if past is None:
        return say("Released: {what}, until {until}.", what=what, until=day(one.until))
    return say(
        "Released: {what}, until {until}, by {who} on {day}.",
        what=what, until=day(one.until), who=who(past.by), day=day(past.on),
    )  # fmt: skip
