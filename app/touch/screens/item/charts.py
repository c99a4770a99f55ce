"""Charts: each measured quantity of an item against its limit, with a sentence that says the last number."""

from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import partial
from typing import Any

from kivy.uix.widget import Widget

from app.figures import Figure
from app.figures.chart import chart, largest_type, usual_state
from app.figures.measured import Series, number
from app.language import say, told
from app.register import Past
from app.touch.drawing import FigureView
from app.touch.screens.item.stands import release_of, release_told
from app.touch.services import Looked
from app.touch.theme import Theme
from app.touch.widgets.buttons import QuietButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.reason import cited
from app.touch.widgets.words import Title, Words
from app.touch.wording import answer_words, day, part_name, stopped
from inspection_rules.events import Decision
from inspection_rules.judgement import Ruling

TYPE = 13  # sp
FIRST = 6  # charts on a page at first


class ScaledView(FigureView):
    """A figure as wide as its place, drawn anew for that width and the size of the text.

    `draw` gets the size of the type in box widths.
    """

    def __init__(self, draw: Callable[[float], Figure], theme: Theme, **kwargs: Any) -> None:
        self._drawn_by = draw
        super().__init__(theme=theme, size_hint_y=None, **kwargs)
        self.bind(width=self._refit)
        theme.bind(type_unit=self._refit)
        self._refit()

    def _refit(self, *_changed: object) -> None:
        if self.width < 100 or self.theme is None:  # not laid out yet
            self.height = 0
            return
        self.figure = self._drawn_by(TYPE * self.theme.type_unit / self.width)
        self.height = self.figure.height * self.width


class ChartsPage(Page):
    """All charts of an item or a part, the quantity nearest to its limit first."""

    def __init__(self, app: Any, looked: Looked, series: Sequence[Series], *, heading: str, **kwargs: Any) -> None:
        super().__init__(heading=heading, under=looked.item.tag, **kwargs)
        self._app, self._looked, self._series = app, looked, series
        self._shown = FIRST
        self._build()

    def _build(self) -> None:
        content: list[Widget] = []
        for one in self._series[: self._shown]:
            content += chart_of(one, self._looked, self._app.theme)
        if len(self._series) > self._shown:
            more = QuietButton(text=say("Show the next ones"))
            more.bind(on_release=self._more)
            content.append(more)
        self.fill(*content)

    def _more(self, _button: object) -> None:
        self._shown += FIRST
        self._build()


def chart_of(series: Series, looked: Looked, theme: Theme) -> list[Widget]:
    """Return a chart with its title above and what it says below."""
    view = ScaledView(partial(_chart, series), theme)
    item = looked.item
    where = part_name(item, series.part)
    if series.latest is None:
        known = looked.book.observations.get(series.rule)
        title = say(known.worded_for(item, series.part).ask) if known else series.title
        said = [*chart_sentences(series), *legend(series)]
        return [Title(text=title, type_size=18), view, Words(text=" ".join(said), type_size=16)]
    title = say(series.title)
    ruling = series.latest
    release = release_of(looked, series.rule, series.part) if stopped(ruling.answer) else None
    card = Card(
        answer=ruling.answer.value,
        # The sign speaks of this number alone: the item may be stopped for something else.
        title=_number_title(ruling, release),
        lines=[release_told(release) if release is not None else "", " ".join(chart_sentences(series))],
        small=legend(series),
    )
    return [Title(text=f"{title} · {where}" if where else title, type_size=18), view, card]


def _number_title(ruling: Ruling, release: Past | None) -> str:
    if release is None:
        return say("This number: {answer}", answer=answer_words(ruling.answer, ruling.door))
    until = release.record.until if isinstance(release.record, Decision) else None
    # What a release was asked for was done: nothing refers anybody to it any more.
    answer = say(str(ruling.answer))
    if until is None:
        return say("This number: {answer}, and released", answer=answer)
    return say("This number: {answer}, released until {day}", answer=answer, day=day(until))


def chart_sentences(series: Series) -> list[str]:
    """Say the last number, what it is good to, its limit and the room that is left."""
    last = series.taken[-1]
    value, on = number(last.value, series.unit), day(last.on)
    if last.state is None:
        said = [say("{value}, reckoned {day} from what was read before.", value=value, day=on)]
    else:
        said = [say("{value}, read {day}.", value=value, day=on)]
    ruling = series.latest
    points = series.unit.replace("%", say("points"))
    if last.good:
        said.append(say("Good to ± {good}.", good=number(last.good, points)))
    if ruling is None:
        return said
    if last.limit is None or ruling.margin is None:
        return [*said, say("There is no limit.")]
    limit, margin = number(last.limit, series.unit), number(abs(Fraction(ruling.margin)), points)
    least = series.at_least
    said.append(say("Limit at least {limit}.", limit=limit) if least else say("Limit at most {limit}.", limit=limit))
    if ruling.margin == 0:
        said.append(say("Exactly at the limit."))
    elif ruling.margin > 0:
        said.append(say("{margin} inside the limit.", margin=margin))
    else:
        said.append(say("{margin} beyond the limit.", margin=margin))
    return said


def legend(series: Series) -> list[str]:
    """Say how the marks of this chart are to be read; only of those that are on it."""
    said = []
    if any(one.good for one in series.taken):
        limited = any(one.limit is not None for one in series.taken)
        reaching = say("Bar: how far the number is good. One that reaches the limit does not pass.")
        said.append(reaching if limited else say("Bar: how far the number is good."))
    if any(one.state is None for one in series.taken):
        said.append(say("Cross: not read that day, reckoned from earlier readings."))
    usual = usual_state(series)
    if usual and any(one.state not in (None, usual) for one in series.taken):
        state = say("{tension} and {moisture}", tension=say(str(usual[0])), moisture=say(str(usual[1])))
        said.append(say("Hollow: not read {state}; it does not compare with the others.", state=state))
    if series.latest is not None:
        if series.latest.u_source:
            said.append(say("Doubt: {source}", source=told(series.latest.u_source)))
        said.append(told(cited(series.latest)))
    return said


def _chart(series: Series, size: float) -> Figure:
    return chart(series, min(size, largest_type(series, day)), day)
