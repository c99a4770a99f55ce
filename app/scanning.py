"""Reading the codes of labels on a photograph, where a reader is installed: the optional extra `scan`.

It never runs on the window's thread: decoding a photograph takes some hundred milliseconds. There is no Android build
of the reader.
"""

from importlib.util import find_spec
from io import BytesIO

from PIL import Image

from app.photos import intake

READER = "zxingcpp"
LARGEST = 3000  # px of the longer side: a label that fills a tenth of it is still read
MOST_TEXT = 300  # a tag or an id is shorter; a longer text is no label of ours


class ScanRefused(ValueError):  # noqa: N818 - a refusal, not a fault of the program
    """The picture cannot be read; the message says why and what to do."""


def reader_installed() -> bool:
    """Whether a reader of codes is installed."""
    return find_spec(READER) is not None


def read_codes(image: Image.Image) -> tuple[str, ...]:
    """Return the texts of the codes on an image, from top to bottom, each once; none where none can be read.

    Raises:
        ScanRefused: no reader is installed.
    """
    if not reader_installed():
        raise ScanRefused("No label reader is installed on this device. Type the tag instead.")
    import zxingcpp

    grey = image.convert("L")
    grey.thumbnail((LARGEST, LARGEST))
    found = zxingcpp.read_barcodes(grey)
    ordered = sorted(found, key=lambda one: (one.position.top_left.y, one.position.top_left.x))
    texts = (one.text.strip() for one in ordered)
    return tuple(dict.fromkeys(text for text in texts if text and len(text) <= MOST_TEXT))


def read_file(data: bytes, name: str) -> tuple[str, ...]:
    """Return the texts of the codes on a picture file, which is read as every photograph is; it is not kept.

    Raises:
        PhotoRefused: the file is no picture that can be read; the message says what to do.
        ScanRefused: no reader is installed.
    """
    with Image.open(BytesIO(intake(data, name).jpeg)) as image:
        return read_codes(image)
