"""A competent person's decision: release what was examined, or condemn the item for good."""

from collections.abc import Callable
from datetime import date
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say, say_many
from app.touch.screens.records.act import Act, Stamp, clean
from app.touch.screens.records.asking import Choice, ChoosePage, TickPage, WordsPage
from app.touch.screens.records.reasons import Reason, reason_card, reasons, what_closes
from app.touch.screens.records.sign import SignPage
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.card import Card
from app.touch.widgets.words import Title, Words
from app.touch.wording import after_today, day
from inspection_rules.due import after
from inspection_rules.events import Decision, Reference
from inspection_rules.words import Answer, DecisionKind

FINAL = mark("Condemned is final: no record, work or signature brings it back. It stays in the register as condemned.")
STILL_OPEN = mark("What was not ticked stays open, and the item stays out of use by it.")
ORDINARY = "ordinary"
SPANS = ("7 days", "1 months", "3 months", "6 months")
REASON = 12  # letters: "ok" is no reason to hang from it again


class ExaminePage(TickPage):
    """Everything that keeps the item out of use; what a release may close can be ticked as examined."""

    def __init__(self, act: Act, **kwargs: Any) -> None:
        super().__init__(act, say("Examine the causes"), **kwargs)
        self._reasons = reasons(act.standing.open, act.releasable)
        self.build()

    def build(self) -> None:
        """Show the reasons: first those that may be released."""
        may = [one for one in self._reasons if one.releasable]
        others = [one for one in self._reasons if not one.releasable]
        content: list[Widget] = []
        if may:
            content.append(Words(text=say("Tick what you have examined yourself.")))
        for one in may:
            content += [
                reason_card(one, self.act.item),
                self.tick(one.reference, say("I have examined this"), say("Examined")),
            ]
        if others:
            content.append(Title(text=say("What no signature closes")))
        for one in others:
            content += [reason_card(one, self.act.item), Words(text=what_closes(one.ruling), bold=True)]
        out = QuietButton(text=say("Condemn it: out of service for good"), bold=True)
        out.bind(on_release=self._condemn)
        self.fill(*content, out)
        self.turned()

    def turned(self) -> None:
        """Offer the release once something is ticked."""
        if not self.ticked:
            self.fill_foot()
            return
        text = say_many("Release the one I ticked", "Release the {count} I ticked", len(self.ticked))
        release = MainButton(text=text)
        release.bind(on_release=self._release)
        self.fill_foot(release)

    def _release(self, *_event: object) -> None:
        ticked = [one for one in self._reasons if one.reference in self.ticked and one.releasable]
        _release(self.act, ticked, len(self._reasons) > len(ticked))

    def _condemn(self, *_event: object) -> None:
        condemn(self.act, tuple(self.ticked))


def begin(act: Act) -> None:
    """Show what is open, to be examined."""
    act.push(ExaminePage(act))


def _release(act: Act, ticked: list[Reason], others: bool) -> None:
    def typed(reason: str) -> None:
        choices = _dates(act)
        if len(choices) == 1:
            _sign(act, ticked, others, reason, None)
            return
        act.push(
            ChoosePage(
                act,
                say("Until when is it released?"),
                choices,
                lambda key: _sign(act, ticked, others, reason, None if key == ORDINARY else after(act.today, key)),
                why=say("By that day a competent person looks there again; otherwise it is held again."),
                from_below=True,
            )
        )

    act.push(
        WordsPage(
            act,
            say("Why may it be released?"),
            "release",
            typed,
            why=say("What you examined, how, and what you found."),
            least=REASON,
        )
    )


def _dates(act: Act) -> list[Choice]:
    """Offer the ordinary date and what comes before it: the soonest lowest, where a thumb that taps on lands."""
    due = act.standing.due
    days = {span: after(act.today, span) for span in SPANS}
    nearer = [Choice(span, day(until), after_today(span)) for span, until in days.items() if due is None or until < due]
    line = day(due) if due else say("No date is set: it is inspected before each use.")
    return [Choice(ORDINARY, say("No sooner than it is due anyway"), line), *reversed(nearer)]


def _sign(act: Act, ticked: list[Reason], others: bool, reason: str, until: date | None) -> None:
    references = tuple(one.reference for one in ticked)
    notes = [say(STILL_OPEN) if others else say("Nothing else keeps it out of use.")]
    lines = [reason]
    if until is not None:
        lines.append(say("Released until {day}: a competent person looks again by then.", day=day(until)))
    act.push(
        SignPage(
            act,
            say("Release it"),
            lambda: [*(reason_card(one, act.item) for one in ticked), Card(title=say("Why"), lines=lines)],
            notes,
            lambda: act.log(_decided(act, DecisionKind.RELEASE, references, reason, until)),
            word=mark("Sign and release as {who}"),
            competent=True,
        )
    )


def condemn(act: Act, examined: tuple[Reference, ...] = ()) -> None:
    """Ask why, then ask again on a page of its own: it is final."""

    def typed(reason: str) -> None:
        act.push(
            SignPage(
                act,
                say("Condemn it for good?"),
                lambda: [
                    Card(
                        answer=Answer.REMOVE.value,
                        heavy=True,
                        title=say("Out of service for good"),
                        lines=[act.item.tag, say(FINAL)],
                    ),
                    Card(title=say("Why"), lines=[reason]),
                ],
                [say("Go back if you are not sure: a hold keeps it out of use as well.")],
                lambda: act.log(_decided(act, DecisionKind.CONDEMN, examined, reason)),
                word=mark("Condemn it for good as {who}"),
                competent=True,
            )
        )

    act.push(
        WordsPage(
            act, say("Why is it condemned?"), "condemn", typed, why=say("What was found, and that nothing mends it.")
        )
    )


def _decided(
    act: Act, kind: DecisionKind, examined: tuple[Reference, ...], reason: str, until: date | None = None
) -> Callable[[Stamp], object]:
    pictures = tuple(act.pictures)

    def log(stamp: Stamp) -> object:
        decision = Decision(**stamp, kind=kind, examined=examined, reason=clean(reason), pictures=pictures, until=until)
        return act.services.register.log_decision(decision)

    return log
