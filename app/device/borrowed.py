"""Abilities borrowed from plyer, where it has them.

plyer's own proxies print a traceback to stderr when a platform lacks an ability, so its platform
modules are asked directly; some of them also warn while they look for programs.
"""

import importlib
import warnings
from typing import Any

from app.device.abilities import Unavailable


def borrow(ability: str, method: str, **how: Any) -> Any:
    """Call a method of plyer's ability (`borrow("vibrator", "vibrate", time=0.05)`), return its result.

    Returns `Unavailable` whatever goes wrong: the module is missing, a program or a service is not
    there, or the platform's own library raises an error of its own kind.
    """
    with warnings.catch_warnings(action="ignore"):
        try:
            platform = importlib.import_module("plyer.utils").platform
            module = importlib.import_module(f"plyer.platforms.{platform}.{ability}")
            return getattr(module.instance(), method)(**how)
        except Exception as error:  # NotImplementedError, ImportError, OSError, D-Bus and Java errors
            return Unavailable(f"This device offers no {ability} ({error or type(error).__name__}).")
