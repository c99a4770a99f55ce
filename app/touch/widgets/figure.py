"""A figure on its ground: where to look, or how to hold the tape."""

from kivy.properties import ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from app.touch.markup import load_markup


class FigureCard(BoxLayout):
    """Shows a figure as large as the page has room for, and never too small to be read."""

    figure = ObjectProperty(None, allownone=True)


load_markup(__file__)
