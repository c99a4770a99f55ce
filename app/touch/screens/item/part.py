"""One part of an item: its splice to scale, what the rules say of it, its charts, its photographs."""

from collections.abc import Callable
from functools import partial
from typing import Any

from kivy.uix.widget import Widget

from app.figures import Figure
from app.figures.measured import as_read
from app.figures.to_scale import splice_to_scale
from app.language import say, say_many
from app.touch.screens.item.about import about_part
from app.touch.screens.item.charts import ChartsPage, ScaledView, chart_of
from app.touch.screens.item.history import shots
from app.touch.screens.item.photos import PhotosPage, by_day
from app.touch.screens.item.stands import release_of, release_told
from app.touch.services import Looked, Services
from app.touch.widgets.buttons import QuietButton
from app.touch.widgets.page import Page
from app.touch.widgets.reason import ruling_card
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import day, part_name, stopped
from inspection_rules.item import Part
from inspection_rules.layout import splice_layout
from inspection_rules.words import Answer

FEW_PHOTOS = 4
LARGEST_TYPE = 0.055  # in box widths: the words at both ends still fit


class PartPage(Page):
    """One part of one item."""

    def __init__(self, services: Services, app: Any, looked: Looked, part: str, **kwargs: Any) -> None:
        super().__init__(heading=f"{looked.item.tag} · {part_name(looked.item, part)}", **kwargs)
        self._services, self._app, self._looked, self._part = services, app, looked, looked.item.part(part)
        self.under = say(str(self._part.splice or self._part.fitting or self._part.kind))
        self._unfolded = False
        self._build()

    def _build(self) -> None:
        looked, part = self._looked, self._part
        series = [one for one in looked.series if one.part == part.id]
        content: list[Widget] = [*self._rulings()]
        scaled = scaled_splice(looked, part)
        if scaled is not None:
            content += [Title(text=say("To scale along the rope")), ScaledView(scaled, self._app.theme)]
        lines = "\n".join(f"{name}: {text}" for name, text in about_part(part))
        content.append(Words(text=lines, type_size=16))
        if splice_layout(looked.item, part):
            content.append(self._button(say("The layout it should have"), self._layout))
        for one in series[:1]:
            content += chart_of(one, looked, self._app.theme)
        if len(series) > 1:
            text = say("All {count} charts", count=len(series))
            content.append(self._button(text, lambda: self._charts(series, say("Charts"))))
        if any(reading.part == part.id for one in looked.judged for reading in one.inspection.readings):
            content.append(self._button(say("Readings as they were taken"), self._readings))
        content += self._photos()
        self.fill(*content)

    def _rulings(self) -> list[Widget]:
        looked, part = self._looked, self._part
        content: list[Widget] = [
            ruling_card(one.ruling, looked.item, since=one.on)
            for one in looked.standing.open
            if one.ruling.part == part.id
        ]
        if not looked.judged:
            return [*content, Quiet(text=say("Nothing is recorded yet."))]
        told = {(one.ruling.rule, one.ruling.pack) for one in looked.standing.open if one.ruling.part == part.id}
        latest = looked.judged[-1]
        rulings = [one for one in latest.judgement.rulings if one.part == part.id]
        rulings = [one for one in rulings if (one.rule, one.pack) not in told]
        for one in (ruling for ruling in rulings if ruling.answer is not Answer.SERVICEABLE):
            release = release_of(looked, one.rule, part.id) if stopped(one.answer) else None
            content.append(ruling_card(one, looked.item, released=release_told(release) if release else ""))
        fine = [one for one in rulings if one.answer is Answer.SERVICEABLE]
        if fine:
            on = day(latest.inspection.on)
            count = say_many(
                "{count} check on {day}: nothing wrong found",
                "{count} checks on {day}: nothing wrong found",
                len(fine),
                day=on,
            )
            content.append(self._button(count, self._fold))
            if self._unfolded:
                content += [ruling_card(one, looked.item) for one in fine]
        if not content:
            content.append(Quiet(text=say("The latest inspection says nothing of this part.")))
        return content

    def _photos(self) -> list[Widget]:
        item = self._looked.item
        taken = [one for one in shots(self._looked.past, item, self._looked.book) if one.part == self._part.id]
        if not taken:
            return []
        content: list[Widget] = [Title(text=say("Photographs"))]
        content += by_day(self._services, self, item, taken, FEW_PHOTOS)
        if len(taken) > FEW_PHOTOS:
            text = say("All {count} photographs", count=len(taken))
            page = partial(PhotosPage, self._services, item, taken, self._part.id)
            content.append(self._button(text, lambda: self.manager.push(page())))
        return content

    def _layout(self) -> None:
        from app.touch.screens.enter.layout import LayoutPage  # it draws with this folder's charts

        self.manager.push(LayoutPage(self._services, self._app, self._looked.item, self._part))

    def _readings(self) -> None:
        read = list(as_read(self._looked.judged, self._looked.item, self._part.id))
        self._charts(read, say("Readings as they were taken"))

    def _charts(self, series: list[Any], heading: str) -> None:
        self.manager.push(ChartsPage(self._app, self._looked, series, heading=heading))

    def _fold(self) -> None:
        self._unfolded = not self._unfolded
        self._build()

    def _button(self, text: str, act: Callable[[], None]) -> Widget:
        button = QuietButton(text=text)
        button.bind(on_release=lambda _one: act())
        return button


def scaled_splice(looked: Looked, part: Part) -> Callable[[float], Figure] | None:
    """Return what draws this part's splice to scale for a size of type; None where no length of it is known."""
    bury = next((one for one in looked.series if one.part == part.id and _is_bury(one.latest)), None)
    read = bury.taken[-1].value if bury is not None and bury.unit == "mm" else None
    if splice_to_scale(part, read, LARGEST_TYPE) is None:
        return None

    def draw(size: float) -> Figure:
        figure = splice_to_scale(part, read, min(size, LARGEST_TYPE))
        if figure is None:
            raise ValueError(f"part {part.id} has no length")
        return figure

    return draw


def _is_bury(ruling: Any) -> bool:
    return ruling is not None and ruling.measure == "remaining_bury"
