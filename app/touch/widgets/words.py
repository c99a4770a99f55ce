"""Text that never cuts off: it wraps, and takes the height it needs."""

from kivy.uix.label import Label

from app.touch.markup import load_markup


class Words(Label):
    """Running text."""


class Title(Words):
    """The first thing to read on a screen or a card."""


class Quiet(Words):
    """What is worth knowing and not the first thing to read."""


load_markup(__file__)
