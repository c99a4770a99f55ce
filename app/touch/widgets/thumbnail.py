"""A stored photograph, small or as it is kept; read and decoded away from the window's thread."""

import io
from collections.abc import Callable
from typing import Any

from kivy.graphics.texture import Texture
from kivy.uix.image import Image

from app.touch.markup import load_markup
from app.touch.services import Services

Pixels = tuple[tuple[int, int], bytes]


class Thumbnail(Image):
    """Shows the small copy of a photograph once it is there; with `large`, the photograph itself.

    `missing` is called when it is not stored.
    """

    def __init__(
        self,
        services: Services,
        sha: str,
        *,
        large: bool = False,
        missing: Callable[[], None] | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(fit_mode="contain", **kwargs)

        def decode(jpeg: bytes | None) -> None:
            if jpeg is not None:
                services.pictures.do(lambda: _pixels(jpeg), self._show)
            elif missing is not None:
                missing()

        read = services.register.picture if large else services.register.thumbnail
        services.records.do(lambda: read(sha), decode)

    def _show(self, pixels: Pixels) -> None:
        size, data = pixels
        texture = Texture.create(size=size, colorfmt="rgb")
        texture.blit_buffer(data, colorfmt="rgb", bufferfmt="ubyte")
        texture.flip_vertical()
        self.texture = texture


def _pixels(jpeg: bytes) -> Pixels:
    from PIL import Image as Pictures

    with Pictures.open(io.BytesIO(jpeg)) as picture:
        plain = picture.convert("RGB")
    return plain.size, plain.tobytes()


load_markup(__file__)
