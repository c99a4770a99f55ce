"""Take in a photograph: bounded, upright, in sRGB, with the chosen metadata only.

A pure function of the file's bytes, meant for a worker thread: the same file always gives the same
stored bytes, so the SHA-256 that a record names can be made again from the original.
"""

import hashlib
import io
import warnings
from dataclasses import dataclass, replace

from PIL import Image, ImageCms, UnidentifiedImageError

from app.photos.exif import chosen_exif, focal_35_of, place_of, taken_at_of, turn_of

FILE_LIMIT = 64 * 1024 * 1024
PIXEL_LIMIT = 120_000_000
LONG_SIDE = 2016  # 4032 / 2 and 8064 / 4: a JPEG decoder reaches it without resampling
THUMBNAIL_SIDE = 320
QUALITY = 85
FORMATS = ("JPEG", "PNG", "WEBP")  # MPO opens as JPEG
STILL_FORMATS = ("JPEG", "MPO", "HEIF")  # more frames there are second views, not a film
HEIF_BRANDS = (b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1", b"heif", b"avif")


@dataclass(frozen=True)
class Photo:
    """A photograph as stored.

    `sha256` is of `jpeg`, the stored bytes; `original_sha256` is of the file that came in. `width` and
    `height` are pixels of `jpeg`. `taken_at` is the camera's own clock, without a time zone, as
    `2050-10-12T09:30:00`; None when the file gives no readable one. `place` is (latitude, longitude) in
    degrees, kept on request only. `original` is the file that came in, untouched, with all that the camera wrote
    into it; None unless it is to be kept.
    """

    sha256: str
    original_sha256: str
    jpeg: bytes
    thumbnail: bytes
    width: int
    height: int
    taken_at: str | None
    place: tuple[float, float] | None
    source_name: str
    source_format: str
    original: bytes | None = None


class PhotoRefused(Exception):  # noqa: N818 - a refusal, not a fault of the program
    """A file that cannot be taken in as a photograph: which one, why, and what to do."""

    def __init__(self, name: str, reason: str, remedy: str) -> None:
        super().__init__(f"{name}: {reason}. {remedy}.")
        self.name = name
        self.reason = reason
        self.remedy = remedy


def intake(data: bytes, name: str, keep_place: bool = False, keep_original: bool = False) -> Photo:
    """Return the photograph in `data` as it is to be stored.

    The long side is at most 2,016 pixels and the thumbnail's at most 320. Of the metadata only the date
    and the focal length stay, which a measurement needs, and the place when `keep_place` asks for it. With
    `keep_original` the file itself goes along.

    Raises:
        PhotoRefused: whatever is wrong with the file; nothing else is raised.
    """
    if not data:
        raise PhotoRefused(name, "the file is empty", "Take or choose the photograph again")
    if len(data) > FILE_LIMIT:
        raise PhotoRefused(
            name,
            f"the file is {len(data) / 2**20:.0f} MiB, the most is {FILE_LIMIT // 2**20}",
            "Take the photograph at a lower resolution",
        )
    # What Pillow has to say about odd metadata concerns nobody at a quay. Before Python 3.14 this
    # silences the other threads too for as long as it lasts, which loses a remark and never an error.
    with warnings.catch_warnings(action="ignore"):
        try:
            photo = _stored(data, name, keep_place)
        except PhotoRefused:
            raise
        except Image.DecompressionBombError:
            raise _too_many_pixels(name) from None
        except MemoryError:
            raise PhotoRefused(
                name, "this device has not enough memory for it", "Take the photograph at a lower resolution"
            ) from None
        except Exception as error:  # decoders fail in many ways on bytes made to hurt them
            raise _damaged(name) from error
    return replace(photo, original=data) if keep_original else photo


def _stored(data: bytes, name: str, keep_place: bool) -> Photo:
    with _opened(data, name) as source:
        if source.width * source.height > PIXEL_LIMIT:
            raise _too_many_pixels(name)
        source_format = str(source.format)
        if getattr(source, "is_animated", False) and source_format not in STILL_FORMATS:
            raise PhotoRefused(name, "it is a moving picture", "Take or choose a still photograph")
        exif = source.getexif()
        taken_at = taken_at_of(exif)
        place = place_of(exif) if keep_place else None
        turn, focal_35 = turn_of(exif), focal_35_of(exif)
        picture = _shrunk(source)
    if turn is not None:
        picture = picture.transpose(turn)
    jpeg = _encoded(picture, chosen_exif(taken_at, place, focal_35))
    width, height = picture.size
    picture.thumbnail((THUMBNAIL_SIDE, THUMBNAIL_SIDE), Image.Resampling.BICUBIC, reducing_gap=2.0)
    return Photo(
        sha256=hashlib.sha256(jpeg).hexdigest(),
        original_sha256=hashlib.sha256(data).hexdigest(),
        jpeg=jpeg,
        thumbnail=_encoded(picture, Image.Exif()),
        width=width,
        height=height,
        taken_at=taken_at,
        place=place,
        source_name=name,
        source_format=source_format,
    )


def _opened(data: bytes, name: str) -> Image.Image:
    """Open lazily: only the header is read, so a limit can refuse before anything is decoded."""
    formats = formats_for(data, name)
    try:
        return Image.open(io.BytesIO(data), formats=formats)
    except UnidentifiedImageError:
        if data.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n")):
            raise _damaged(name) from None
        raise PhotoRefused(
            name, "it is not a photograph of a kind this program reads", "Use a JPEG, PNG or WebP file"
        ) from None


def formats_for(head: bytes, name: str) -> list[str]:
    """Return the kinds of file that may be read, from the first bytes of one.

    Raises:
        PhotoRefused: it is a HEIC file, and its optional reader is not installed.
    """
    formats = list(FORMATS)
    if head[4:8] == b"ftyp" and head[8:12] in HEIF_BRANDS:
        if not _heif_opener():
            raise PhotoRefused(
                name,
                "it is a HEIC photograph, which this installation cannot read",
                "Set the camera to JPEG, or install Throatmark with its heic extra",
            )
        formats.append("HEIF")
    return formats


def _heif_opener() -> bool:
    """Teach Pillow HEIC, where the optional library is installed."""
    try:
        import pillow_heif
    except ImportError:
        return False
    pillow_heif.register_heif_opener()
    return True


def _shrunk(source: Image.Image) -> Image.Image:
    """Return the picture in sRGB, on white, no larger than it is stored; not yet turned upright."""
    profile = source.info.get("icc_profile")
    image = source
    if source.format not in ("JPEG", "MPO"):
        image = _flattened(source)  # a palette cannot be resampled, and see-through needs its white first
    image.thumbnail((LONG_SIDE, LONG_SIDE), Image.Resampling.BICUBIC, reducing_gap=1.0)
    return _in_srgb(image, profile)


def _flattened(source: Image.Image) -> Image.Image:
    if source.mode.startswith("I;16"):
        return source.convert("I").point(lambda level: level * (1 / 256)).convert("L")
    if source.has_transparency_data:
        seen = source.convert("RGBA")
        white = Image.new("RGB", seen.size, "white")
        white.paste(seen, mask=seen.getchannel("A"))
        return white
    return source.convert("RGB")


def _in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    if not profile:
        return image.convert("RGB")
    try:
        own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        if "sRGB" in ImageCms.getProfileDescription(own):
            return image.convert("RGB")
        srgb = ImageCms.createProfile("sRGB")
        return ImageCms.profileToProfile(image, own, srgb, outputMode="RGB") or image.convert("RGB")
    except (ImageCms.PyCMSError, OSError, ImportError):
        # An unreadable profile, or a build without colour management: the colours as they are.
        return image.convert("RGB")


def _encoded(image: Image.Image, exif: Image.Exif) -> bytes:
    out = io.BytesIO()
    image.info = {}  # a comment or a profile of the source must not ride along
    image.save(out, "JPEG", quality=QUALITY, exif=exif)
    return out.getvalue()


def _too_many_pixels(name: str) -> PhotoRefused:
    return PhotoRefused(
        name,
        f"it has more than {PIXEL_LIMIT // 1_000_000} million pixels",
        "Take the photograph at a lower resolution",
    )


def _damaged(name: str) -> PhotoRefused:
    return PhotoRefused(name, "the file is damaged or incomplete", "Take the photograph again, or copy the file again")
