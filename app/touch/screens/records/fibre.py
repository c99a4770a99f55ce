"""The fibre of an item that came without papers, once a competent person has found it out."""

from app.language import mark, say
from app.touch.screens.records.act import Act, Stamp, capital
from app.touch.screens.records.asking import Choice, ChoosePage
from app.touch.screens.records.sign import SignPage
from app.touch.widgets.card import Card
from inspection_rules.item import Item
from inspection_rules.words import Fibre

BY_EVIDENCE = mark(
    "By its maker's papers, or by a test that tells fibres apart. By its look alone fibres are mistaken: "
    "go back if you are not sure."
)
STILL_HELD = mark("It stays on hold until a competent person has examined it after this.")


def begin(act: Act) -> None:
    """Ask which fibre it is of."""
    choices = [Choice(one.value, capital(say(one.value))) for one in Fibre if one is not Fibre.NOT_KNOWN]
    act.push(ChoosePage(act, say("Which fibre is it of?"), choices, lambda key: _sign(act, key), why=say(BY_EVIDENCE)))


def _sign(act: Act, fibre: str) -> None:
    def log(stamp: Stamp) -> object:
        item = act.services.register.item(act.item.id)
        known = Item(**{**dict(item), "fibre": Fibre(fibre)})
        return act.services.register.revise_item(known, stamp["by"], stamp["at"], stamp["utc_offset_minutes"])

    act.push(
        SignPage(
            act,
            say("Its fibre"),
            lambda: [Card(title=capital(say(fibre)), lines=[act.item.tag])],
            [say("The item is described anew; how it was before stays on record."), say(STILL_HELD)],
            lambda: act.log(log),
            pictured=False,
            competent=True,
        )
    )
