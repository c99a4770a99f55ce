"""Text that never cuts off: it wraps, and takes the height it needs.

Each class sets its own colour and size: a kv rule and its base's rule both stay bound, so two rules for one
property would fight at the next change of theme.
"""

from kivy.properties import BooleanProperty, NumericProperty
from kivy.uix.label import Label

from app.touch.markup import load_markup


class Text(Label):
    """Base: wraps at its width; a word too long for it is set smaller rather than broken.

    `type_size` is in sp.
    """

    type_size = NumericProperty(17)
    of_head = BooleanProperty(False)


class Words(Text):
    """Running text."""


class Title(Text):
    """The first thing to read on a screen or a card."""


class Quiet(Text):
    """What is worth knowing and not the first thing to read."""


class HeadTitle(Text):
    """The title on the dark head of a page."""


class HeadQuiet(Text):
    """The line below it."""


class Corner(Label):
    """The short text at the right of the head; it does not wrap."""


load_markup(__file__)
