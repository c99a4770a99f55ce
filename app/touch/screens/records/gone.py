"""A condemned item was destroyed; the photograph proves it."""

from app.language import say
from app.touch.screens.records.act import Act, Stamp, one_line
from app.touch.screens.records.asking import WordsPage
from app.touch.screens.records.pictures import PicturesPage
from app.touch.screens.records.sign import SignPage
from app.touch.widgets.card import Card
from inspection_rules.events import Disposal
from inspection_rules.words import Answer


def begin(act: Act) -> None:
    """Ask how it was destroyed, then for the photograph that proves it."""
    act.push(
        WordsPage(
            act,
            say("How was it destroyed?"),
            "how",
            lambda _how: act.push(
                PicturesPage(
                    act,
                    say("The picture that proves it"),
                    why=say("What is left of it, with its tag or its pieces in sight."),
                    then=lambda: _sign(act),
                )
            ),
            why=say("So that nobody can take it for use again: cut into metres, eyes cut off, burnt."),
        )
    )


def _sign(act: Act) -> None:
    how = one_line(act.said["how"])

    def log(stamp: Stamp) -> object:
        return act.services.register.log_disposal(
            Disposal(**stamp, how=how, pictures=tuple(act.pictures)),
        )

    act.push(
        SignPage(
            act,
            say("It was destroyed"),
            lambda: [Card(answer=Answer.REMOVE.value, title=act.item.tag, lines=[how])],
            [say("It leaves today's lists and stays in the register as disposed of.")],
            lambda: act.log(log),
        )
    )
