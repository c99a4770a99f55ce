"""The language in use, and saying a sentence in it."""

import gettext
import re
from collections.abc import Mapping

from app.language.telling import Teller, entries
from app.resources import asset

LANGUAGES: Mapping[str, str] = {"en": "English", "de": "Deutsch"}

ON_A_FIGURE = "figure"
_ISO_DAY = re.compile(r"(?<!write it as )\b\d{4}-\d\d-\d\d\b")  # not one that shows how to type a day

_English = gettext.NullTranslations


class _Spoken:
    """The language in use: one for the whole program, since a window speaks one language at a time."""

    name = "en"
    catalogue: gettext.NullTranslations = _English()
    teller: Teller | None = None


def use(language: str) -> None:
    """Speak this language from now on; texts already on a screen stay as they are.

    Raises:
        KeyError: it is none of `LANGUAGES`.
    """
    if language not in LANGUAGES:
        raise KeyError(language)
    if language == "en":
        _Spoken.catalogue, _Spoken.teller = _English(), None
    elif language != _Spoken.name:
        path = asset(f"language/{language}.mo")
        with path.open("rb") as file:
            _Spoken.catalogue = gettext.GNUTranslations(file)
        _Spoken.teller = Teller(entries(path.read_bytes()), _day)
    _Spoken.name = language


def spoken() -> str:
    """Return the language in use, a key of `LANGUAGES`."""
    return _Spoken.name


def say(text: str, /, **values: object) -> str:
    """Return a sentence in the language in use, with `{name}` replaced by the value of that name."""
    if not values:  # in English a day that stands in it is an example of how to type one
        return _Spoken.teller.tell(text).text if _Spoken.teller else text
    return _Spoken.catalogue.gettext(text).format(**values)


def say_many(one: str, many: str, count: int, /, **values: object) -> str:
    """Return the sentence for one or for many, with `{count}` and the other values in it."""
    return _Spoken.catalogue.ngettext(one, many, count).format(count=count, **values)


def told(text: str) -> str:
    """Return a sentence that the rules or the register put together, in the language in use.

    What a person typed, names of documents, numbers and units in it stay as they are. A day is written for people.
    """
    return _Spoken.teller.tell(text).text if _Spoken.teller else _ISO_DAY.sub(lambda found: _day(found[0]), text)


def drawn(text: str) -> str:
    """Return the word on a figure in the language in use: short, and often one line of several."""
    return _Spoken.catalogue.pgettext(ON_A_FIGURE, text)


def mark(text: str) -> str:
    """Return a constant unchanged; it is said with `say` where it is shown, and found here for the catalogue."""
    return text


def _day(iso: str) -> str:
    from datetime import date

    from app.language.dates import day_text

    try:
        return day_text(date.fromisoformat(iso))
    except ValueError:
        return iso
