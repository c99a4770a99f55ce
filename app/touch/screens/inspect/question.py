"""What stands under a question: its answers, what else can be said of them, and the ways out."""

from collections.abc import Iterable
from functools import partial
from typing import TYPE_CHECKING

from kivy.uix.widget import Widget

from app.language import say, say_many
from app.touch import visit as visits
from app.touch.widgets.buttons import AnswerButton, QuietButton
from app.touch.widgets.words import Quiet, Words
from inspection_rules.observation import Condition, Observation
from inspection_rules.record import Finding, Reading
from inspection_rules.walk import Step
from inspection_rules.words import PartKind, Seen

if TYPE_CHECKING:
    from app.touch.screens.inspect.inspect import InspectPage


def question(page: "InspectPage", observation: Observation) -> list[Widget]:
    """The answers of a question; several conditions may be named, each with its place and its extent."""
    entry = page.visit.entry(page.visit.at)
    finding = entry if isinstance(entry, Finding) else None
    given = set(finding.conditions) if finding else set()
    good = AnswerButton(text=say(observation.good), chosen=bool(finding and finding.seen is Seen.ABSENT))
    good.bind(on_release=lambda _one: page.sound())
    buttons: list[Widget] = [good, *_accepted(page, finding)]
    answers = observation.answers(page.visit.item, page.visit.at[0])
    for condition in answers:
        chosen = given ^ {condition.id}
        order = tuple(one.id for one in answers if one.id in chosen)
        button = AnswerButton(text=say(condition.say), chosen=condition.id in given)
        button.bind(on_release=partial(_named, page, order))
        buttons.append(button)
    if finding is not None and finding.seen is Seen.PRESENT:
        named = [condition for condition in answers if condition.id in given]
        buttons += [*_extent(page, named), *_where(page, finding, named)]
    return [*buttons, *unseen(page, observation, finding)]


def reading(page: "InspectPage", step: Step) -> list[Widget]:
    """What was read of it, before and now, and the way to the keypad."""
    observation = step.observation
    entry = page.visit.entry(step.key)
    before = page.memory.lines(step.key, page.length_unit)
    content: list[Widget] = [Quiet(text="\n".join(before))] if before else []
    if isinstance(entry, Reading):
        content.append(Words(text=say("Read: {values}", values=visits.values_of(entry)), bold=True))
    text = say("Type the reading")
    if observation.damages:
        text = say("Type another one") if isinstance(entry, Reading) else say("Type the first one")
    elif page.visit.answered(step.key) and isinstance(entry, Reading):
        text = say("Read once more")
    elif observation.repeats > 1:
        number = len(entry.values) + 1 if isinstance(entry, Reading) else 1
        text = say("Type reading {number} of {count}", number=number, count=observation.repeats)
    button = AnswerButton(text=text)
    button.bind(on_release=lambda _one: page.to_keypad(step))
    return [*content, button, *unseen(page, observation, entry if isinstance(entry, Finding) else None)]


def unseen(page: "InspectPage", observation: Observation, finding: Finding | None) -> list[Widget]:
    """The ways out: hidden by design, where that can be, and could not examine."""
    buttons: list[Widget] = []
    if page.visit.at in page.guide.hidden:
        hidden = QuietButton(text=say("Hidden by design"), chosen=bool(finding and finding.seen is Seen.HIDDEN))
        hidden.bind(on_release=lambda _one: page.hidden(observation))
        buttons.append(hidden)
    if finding is not None and finding.seen is Seen.NOT_EXAMINED:
        text = say("Could not examine: {reason}", reason=say(finding.reason))
        button = QuietButton(text=text, chosen=True)
    else:
        button = QuietButton(text=say("Could not examine"))
    button.bind(on_release=lambda _one: page.not_examined(observation))
    return [*buttons, button]


def _named(page: "InspectPage", order: tuple[str, ...], _button: object) -> None:
    """A condition stays on the question, since there may be another one to name."""
    if not order:
        page.confirm(visits.unanswered(page.visit), onward=False)
        return
    finding = page.visit.inspection.finding(*page.visit.at)
    given = finding.accepted if finding else ()
    kept = [
        one.acceptance
        for one in page.memory.agreed.get(page.visit.at, ())
        if one.acceptance in given and set(one.conditions) <= set(order)
    ]
    page.confirm(visits.found(page.visit, Seen.PRESENT, order, accepted=kept), onward=False)


def _accepted(page: "InspectPage", finding: Finding | None) -> list[Widget]:
    """What a competent person accepted here: it is said to be no bigger, or the conditions are named as seen."""
    found: list[Widget] = []
    given = set(finding.accepted) if finding else set()
    before = set(finding.conditions) if finding else set()
    for one in page.memory.agreed.get(page.visit.at, ()):
        conditions = tuple(before | set(one.conditions))
        button = AnswerButton(text=say("As accepted, no bigger"), chosen=one.acceptance in given)
        accepted = tuple(given | {one.acceptance})
        button.bind(on_release=partial(_as_accepted, page, conditions, accepted))
        found += [Words(text=one.words, type_size=16), button]
    return found


def _as_accepted(page: "InspectPage", conditions: tuple[str, ...], accepted: tuple[str, ...], _button: object) -> None:
    page.confirm(visits.found(page.visit, Seen.PRESENT, conditions, accepted=accepted), onward=False)


def _extent(page: "InspectPage", named: Iterable[Condition]) -> list[Widget]:
    """The readings that tell how much of what was named there is: offered here, since a limit may decide by them."""
    buttons: list[Widget] = []
    for step in page.guide.grades(page.visit, page.visit.at, [one.id for one in named]):
        button = AnswerButton(text=say("Read how much: {reading}", reading=say(step.observation.ask)))
        button.bind(on_release=partial(_read_how_much, page, step))
        buttons.append(button)
    return buttons


def _read_how_much(page: "InspectPage", step: Step, _button: object) -> None:
    page.add_step(step, keypad=True)


def _where(page: "InspectPage", finding: Finding, named: list[Condition]) -> list[Widget]:
    """Where along the rope it lies, for what was seen on the body."""
    item, part = page.visit.item, page.visit.at[0]
    if not part or item.part(part).kind is not PartKind.BODY or not item.terminations:
        return []
    if finding.places:
        places = ", ".join(place.text for place in finding.places)
        text = say_many("Where? · {places}", "Where? · {places}", len(finding.places), places=places)
    else:
        text = say("Where is it?")
    button = QuietButton(text=text, bold=True)
    button.bind(on_release=lambda _one: page.ask_where(named))
    return [button]
