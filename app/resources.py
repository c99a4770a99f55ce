"""The one way to the files that ship with the app: fonts, icons, figures, example cases, kv files.

The same call finds them in a wheel, in an editable install and inside an Android package, since all
of them are package data of `assets` and `app`.
"""

from importlib.resources import files
from pathlib import Path


def asset(name: str) -> Path:
    """Return the path of a file or folder under `assets/`, for instance `fonts/Inter-Regular.ttf`.

    Raises:
        FileNotFoundError: it does not ship; the message names it.
    """
    return _shipped("assets", name)


def touch_file(name: str) -> Path:
    """Return the path of a file of the touch app, for instance `today/today.kv`."""
    return _shipped("app.touch", name)


def _shipped(package: str, name: str) -> Path:
    path = Path(str(files(package).joinpath(name)))
    if not path.exists():
        raise FileNotFoundError(f"{package}: {name} does not ship with this installation ({path})")
    return path
