"""Handing on a copy of a report that was written."""

from collections.abc import Callable
from pathlib import Path

from app.device import Unavailable
from app.language import say, told
from app.touch.services import Services
from app.touch.wording import broken


def hand_on(services: Services, path: Path, tell: Callable[[str], None]) -> None:
    """Hand a copy on the way the device does it, and tell where it went or why it could not."""

    def shared(answer: str | Unavailable) -> None:
        if isinstance(answer, Unavailable):
            tell(told(answer.reason))
        else:
            tell(say("A copy was handed on: {place}", place=broken(answer)))

    services.pictures.do(lambda: services.device.share(path), shared)
