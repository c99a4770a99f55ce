"""The device the app runs on: camera, files, position, sharing, notifications, vibration.

plyer where it works, Android's own intents where it does not, and a stated fall-back everywhere else.
"""

import os

from app.device.abilities import Cancelled, Device, Position, Unavailable
from app.device.tongue import device_language

__all__ = ["Cancelled", "Device", "Position", "Unavailable", "device_language", "this_device"]


def this_device() -> Device:
    """Return the device at hand; asking costs nothing, the libraries load with the first use."""
    if "ANDROID_ARGUMENT" in os.environ:
        from app.device.android import Android

        return Android()
    from app.device.desktop import Desktop

    return Desktop()
