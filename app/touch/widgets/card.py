"""A card: a sign beside a title and a few lines; the heavy one heads what must not be used."""

from kivy.properties import BooleanProperty, ListProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from app.touch.markup import load_markup
from app.touch.widgets.words import Quiet, Words


class Card(BoxLayout):
    """Shows an answer and its reason.

    Attributes:
        lines: each a line of running text; empty ones are left out.
        small: what is written smaller below: the source.
    """

    answer = StringProperty("")
    heavy = BooleanProperty(False)
    large = BooleanProperty(False)
    narrow = BooleanProperty(False)
    title = StringProperty("")
    lines = ListProperty([])
    small = ListProperty([])

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**kwargs)
        self.bind(lines=self._write, small=self._write)
        self._write()

    def _write(self, *_changed: object) -> None:
        said = self.ids.said
        said.clear_widgets()
        for line in self.lines:
            if line:
                said.add_widget(Words(text=line, type_size=18 if self.heavy or self.large else 16))
        for line in self.small:
            if line:
                said.add_widget(Quiet(text=line, type_size=14))


load_markup(__file__)
