"""Every sentence on the screens in the person's language: the English text is its own key in a gettext catalogue."""

import gettext
from collections.abc import Mapping

from app.resources import asset

DOMAIN = "throatmark"
LANGUAGES: Mapping[str, str] = {"en": "English"}

_English = gettext.NullTranslations


class _Spoken:
    """The language in use: one for the whole program, since a window speaks one language at a time."""

    name = "en"
    catalogue: gettext.NullTranslations = _English()


def use(language: str) -> None:
    """Speak this language from now on; texts already on a screen stay as they are.

    Raises:
        KeyError: it is none of `LANGUAGES`.
    """
    if language not in LANGUAGES:
        raise KeyError(language)
    _Spoken.name, _Spoken.catalogue = language, _read(language)


def spoken() -> str:
    """Return the language in use, a key of `LANGUAGES`."""
    return _Spoken.name


def say(text: str, /, **values: object) -> str:
    """Return a sentence in the language in use, with `{name}` replaced by the value of that name."""
    said = _Spoken.catalogue.gettext(text) if text else ""
    return said.format(**values) if values else said


def say_many(one: str, many: str, count: int, /, **values: object) -> str:
    """Return the sentence for one or for many, with `{count}` and the other values in it."""
    return _Spoken.catalogue.ngettext(one, many, count).format(count=count, **values)


def told(text: str) -> str:
    """Return a sentence that the rules or the register put together, in the language in use."""
    return say(text)


def mark(text: str) -> str:
    """Return a constant unchanged; it is said with `say` where it is shown, and found here for the catalogue."""
    return text


def _read(language: str) -> gettext.NullTranslations:
    if language == "en":
        return _English()
    with asset(f"language/{language}.mo").open("rb") as file:
        return gettext.GNUTranslations(file)
