"""The touch app: a window made for gloves, glare and night.

Importing this package loads no Kivy: the command line imports it to know whether a window can be opened.
"""

from app.touch.window import WindowUnavailable

__all__ = ["WindowUnavailable"]
