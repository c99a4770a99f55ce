"""Damage or age that a competent person examined and accepts for a time."""

from app.language import mark, say, told
from app.touch.screens.records.act import Act, Stamp, clean
from app.touch.screens.records.asking import Choice, ChoosePage, WordsPage
from app.touch.screens.records.reasons import Reason, reason_card, reasons
from app.touch.screens.records.sign import SignPage
from app.touch.widgets.card import Card
from app.touch.wording import after_today, day, part_name
from inspection_rules.due import after
from inspection_rules.events import Acceptance
from inspection_rules.words import Answer

SPANS = ("1 months", "3 months", "6 months")


def begin(act: Act) -> None:
    """Ask which hold is accepted: one at a time, since its extent is its own."""
    may = [one for one in reasons(act.standing.open, act.releasable) if one.ruling.if_accepted]
    by_key = {f"{one.ruling.rule} {one.ruling.part}": one for one in may}

    def choice(key: str, one: Reason) -> Choice:
        where = part_name(act.item, one.ruling.part)
        return Choice(
            key, " · ".join(text for text in (say(one.ruling.title), where) if text), told(one.ruling.sentence)
        )

    act.push(
        ChoosePage(
            act,
            say("What is accepted for a time?"),
            [choice(key, one) for key, one in by_key.items()],
            lambda key: _extent(act, by_key[key]),
            why=say(
                "A removal, a number beyond its limit, and what was not looked at are never accepted: "
                "they are not on this list."
            ),
        )
    )


def _extent(act: Act, one: Reason) -> None:
    key = f"extent {one.ruling.rule} {one.ruling.part}"

    def reason(_text: str) -> None:
        act.push(
            WordsPage(
                act,
                say("Why may it go on working?"),
                f"why {key}",
                lambda _why: _until(act, one, key),
                why=say("What you examined, how, and what you found."),
            )
        )

    act.push(
        WordsPage(
            act,
            say("How big is it?"),
            key,
            reason,
            why=say("In words or numbers, so that the next person can tell whether it has grown."),
        )
    )


def _until(act: Act, one: Reason, key: str) -> None:
    # The shortest time lowest, where a thumb that taps on lands.
    choices = [Choice(span, day(after(act.today, span)), after_today(span)) for span in reversed(SPANS)]
    again = day(after(act.today, one.ruling.if_accepted))
    act.push(
        ChoosePage(
            act,
            say("Until when is it accepted?"),
            choices,
            lambda span: _sign(act, one, key, span),
            why=say("It is looked at again by {day} all the same, if it is accepted for longer.", day=again),
            from_below=True,
        )
    )


def _sign(act: Act, one: Reason, key: str, span: str) -> None:
    extent, why = clean(act.said[key]), clean(act.said[f"why {key}"])
    until = after(act.today, span)

    def log(stamp: Stamp) -> object:
        acceptance = Acceptance(
            **stamp,
            examined=(one.reference,),
            extent=extent,
            reason=why,
            until=until,
            pictures=tuple(act.pictures),
        )
        return act.services.register.accept(acceptance)

    act.push(
        SignPage(
            act,
            say("Accept it for a time"),
            lambda: [
                reason_card(one, act.item),
                Card(
                    answer=Answer.WATCH.value,
                    title=say("Accepted until {day}", day=day(until)),
                    lines=[say("How big: {extent}", extent=extent), say("Why: {reason}", reason=why)],
                ),
            ],
            [say("Every look asks whether it is no bigger than this. If it is bigger, it is held again.")],
            lambda: act.log(log),
            word=mark("Sign and accept as {who}"),
            competent=True,
        )
    )
