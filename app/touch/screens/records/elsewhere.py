"""Where an item is: here, ashore, on loan, not found. It changes no answer and no date."""

from app.language import mark, say
from app.touch.screens.records.act import Act, Stamp, capital, clean
from app.touch.screens.records.asking import Choice, ChoosePage, WordsPage
from app.touch.screens.records.sign import SignPage
from app.touch.widgets.card import Card
from app.touch.wording import day
from app.whereabouts import where_words
from inspection_rules.events import Placed
from inspection_rules.standing import Standing
from inspection_rules.words import Where

NO_DATE_MOVES = mark("It changes no answer and no date: what is overdue there is overdue.")
WHAT = {
    Where.HERE: mark("It is back where it belongs"),
    Where.ASHORE: mark("Not on board now"),
    Where.ON_LOAN: mark("Somebody else has it"),
    Where.NOT_FOUND: mark("It was looked for and not found"),
}
ASKED = {
    Where.ASHORE: mark("Where does it lie?"),
    Where.ON_LOAN: mark("To whom is it lent?"),
    Where.NOT_FOUND: mark("Where was it looked for?"),
}


def begin(act: Act) -> None:
    """Ask where it is."""

    def chosen(key: str) -> None:
        where = Where(key)
        if where is Where.HERE:
            _sign(act, where, "")
            return
        act.push(
            WordsPage(
                act,
                say(ASKED[where]),
                f"where {where}",
                lambda note: _sign(act, where, note),
                needed=where is Where.ON_LOAN,
            )
        )

    choices = [Choice(where.value, capital(say(where.value)), say(WHAT[where])) for where in Where]
    act.push(ChoosePage(act, say("Where is it?"), choices, chosen, why=said_of(act.standing)))


def said_of(standing: Standing) -> str:
    """Say where an item is as far as anybody said; empty while it is here."""
    if standing.where is Where.HERE:
        return ""
    place = where_words(standing.where, standing.where_note)
    return say("Since {day}: {place}.", day=day(standing.where_on), place=place)


def _sign(act: Act, where: Where, note: str) -> None:
    def log(stamp: Stamp) -> object:
        return act.services.register.log_placed(Placed(**stamp, where=where, note=clean(note)))

    act.push(
        SignPage(
            act,
            say("Where is it?"),
            lambda: [Card(title=capital(say(where.value)) if where is Where.HERE else where_words(where, note))],
            [say(NO_DATE_MOVES)],
            lambda: act.log(log),
            pictured=False,
        )
    )
