"""Why the station under the hands has its sign: its reasons, one tap from the question and back."""

from typing import Any

from app.language import say
from app.touch import visit as visits
from app.touch.visit import Visit
from app.touch.widgets.page import Page
from app.touch.widgets.reason import reason_cards
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import place_name
from inspection_rules.judgement import Judgement


class WhyPage(Page):
    """The reasons of one station, worst first; nothing is signed or changed here."""

    def __init__(self, visit: Visit, judgement: Judgement, **kwargs: Any) -> None:
        station = visit.station
        super().__init__(heading=say("Why"), under=place_name(visit.item, station.part, station.name), **kwargs)
        rulings = visits.rulings_at(visit, station, judgement)
        damages = [step.key for step in visit.steps if step.observation.damages]
        cards = reason_cards(rulings, visit.item, visit.inspection, damages=damages)
        left = sum(not visit.answered(step.key) for step in station.steps)
        self.fill(
            *(cards or [Words(text=say("No rule speaks of what was answered here by itself."))]),
            *([Quiet(text=say("Not all of this place is answered yet."))] if left else []),
        )
