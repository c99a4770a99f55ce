"""The language the device is set to."""

import locale
import os


def device_language() -> str:
    """Return the code of the language the device speaks, `de` for instance; empty where it does not say."""
    if "ANDROID_ARGUMENT" in os.environ:
        from jnius import autoclass

        return str(autoclass("java.util.Locale").getDefault().getLanguage())
    named = (os.environ.get(name, "") for name in ("LC_ALL", "LC_MESSAGES", "LANG"))
    said = next((one for one in named if one), "") or locale.getlocale()[0] or ""
    word = said.partition(".")[0].partition("_")[0].lower()
    return word if len(word) == 2 else locale.locale_alias.get(word, "")[:2]  # one system says "German_Germany"
