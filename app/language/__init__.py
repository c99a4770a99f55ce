"""Every sentence on the screens in the person's language: the English text is its own key in a gettext catalogue."""

from app.language.dates import day_text
from app.language.speaking import LANGUAGES, drawn, mark, say, say_many, spoken, told, use

__all__ = ["LANGUAGES", "day_text", "drawn", "mark", "say", "say_many", "spoken", "told", "use"]
