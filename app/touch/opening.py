"""Finding the register to work on."""

from pathlib import Path

from app.device import Unavailable, this_device
from app.register import Register, RegisterError

REGISTER = "register.db"


def open_register(folder: Path) -> Register:
    """Open the register in a folder; make an empty one where there is none.

    Raises:
        RegisterError: it cannot be opened or made; the message says what to do.
    """
    if (folder / REGISTER).exists() or folder.is_file():
        return Register.open(folder)
    device = this_device().device_id()
    if isinstance(device, Unavailable):
        raise RegisterError(device.reason)
    return Register.create(folder, device)
