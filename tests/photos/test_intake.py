"""A photograph comes in bounded, upright, in sRGB and with the chosen metadata only."""

import hashlib
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageCms, ImageStat

from app.photos import Photo, PhotoRefused, intake

from .pictures import decoded, encoded, png, textured

DATE_TIME_ORIGINAL, MAKE, ORIENTATION, EXIF_IFD, GPS_IFD = 0x9003, 0x010F, 0x0112, 0x8769, 0x8825

# Exif 2.32 (CIPA DC-008-2019), 4.6.4 A, Orientation: where the stored picture's 0th row and 0th column are seen.
SEEN = {
    1: ("top", "left"),
    2: ("top", "right"),
    3: ("bottom", "right"),
    4: ("bottom", "left"),
    5: ("left", "top"),
    6: ("right", "top"),
    7: ("right", "bottom"),
    8: ("left", "bottom"),
}


def edge(image: Image.Image, side: str) -> tuple[int, ...]:
    """The colour in the middle of one edge."""
    w, h = image.size
    middle = {"top": (w // 2, 4), "bottom": (w // 2, h - 5), "left": (4, h // 2), "right": (w - 5, h // 2)}
    colour = image.getpixel(middle[side])
    assert isinstance(colour, tuple)
    return colour


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("orientation", SEEN)
def test_the_picture_stands_upright_whichever_way_the_camera_was_held(kind: str, orientation: int) -> None:
    stored = Image.new("RGB", (160, 120), "white")
    stored.paste("red", (0, 0, 160, 16))
    stored.paste("blue", (0, 16, 16, 120))
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    seen = decoded(intake(encoded(stored, kind, exif=exif), "held.jpg").jpeg)
    row, column = SEEN[orientation]
    red, _, blue = edge(seen, row)
    assert red > 200 and blue < 60
    red, _, blue = edge(seen, column)
    assert red < 60 and blue > 200


@pytest.mark.parametrize("scene", ["landscape", "portrait"])
def test_eight_camera_files_of_one_scene_look_the_same(photos_folder: Path, scene: str) -> None:
    """The eight files were compressed one by one: 8 of 255 levels on average is what that may cost."""

    def small(orientation: int) -> Image.Image:
        path = photos_folder / "orientation" / f"{scene}_{orientation}.jpg"
        return decoded(intake(path.read_bytes(), path.name).jpeg).resize((60, 60), Image.Resampling.BOX)

    first = small(1)
    for orientation in range(2, 9):
        difference = ImageStat.Stat(ImageChops.difference(first, small(orientation))).mean
        assert max(difference) < 8, f"orientation {orientation} differs by {difference}"


def test_a_large_photograph_is_brought_to_its_bounds() -> None:
    photo = intake(encoded(textured((4032, 3024))), "large.jpg")
    assert (photo.width, photo.height) == decoded(photo.jpeg).size == (2016, 1512)
    assert decoded(photo.thumbnail).size == (320, 240)


def test_a_small_photograph_keeps_its_size() -> None:
    photo = intake(encoded(textured((300, 200))), "small.jpg")
    assert decoded(photo.jpeg).size == decoded(photo.thumbnail).size == (300, 200)


def test_a_strip_one_pixel_wide_keeps_its_pixel() -> None:
    assert decoded(intake(encoded(Image.new("RGB", (1, 9000))), "strip.jpg").thumbnail).size == (1, 320)


def test_both_hashes_are_of_what_they_say() -> None:
    data = encoded(textured())
    photo = intake(data, "hashed.jpg")
    assert photo.original_sha256 == hashlib.sha256(data).hexdigest()
    assert photo.sha256 == hashlib.sha256(photo.jpeg).hexdigest()


def test_the_same_file_gives_the_same_bytes_in_another_process(tmp_path: Path) -> None:
    (tmp_path / "same.jpg").write_bytes(data := encoded(textured()))
    code = "import sys, app.photos as p; print(p.intake(open(sys.argv[1], 'rb').read(), 'same.jpg').sha256)"
    run = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path / "same.jpg")], capture_output=True, text=True, check=True
    )
    assert run.stdout.strip() == intake(data, "same.jpg").sha256


def test_of_the_metadata_only_the_date_stays() -> None:
    exif = Image.Exif()
    exif[MAKE] = "somebody's camera"
    exif.get_ifd(EXIF_IFD).update({DATE_TIME_ORIGINAL: "2050:10:12 09:30:00", 0xA431: "serial number"})
    exif.get_ifd(GPS_IFD).update({1: "N", 2: (57.0, 30.0, 0.0), 3: "W", 4: (7.0, 15.0, 0.0)})
    data = encoded(textured(), exif=exif, comment=b"a remark", dpi=(300, 300))
    photo = intake(data, "talkative.jpg")
    kept = decoded(photo.jpeg)
    assert photo.taken_at == "2050-10-12T09:30:00" and photo.place is None
    assert dict(kept.getexif().get_ifd(EXIF_IFD)) == {DATE_TIME_ORIGINAL: "2050:10:12 09:30:00"}
    assert set(kept.getexif()) == {EXIF_IFD}
    assert "comment" not in kept.info and "icc_profile" not in kept.info
    assert not decoded(photo.thumbnail).getexif()


def test_a_camera_s_place_is_dropped_unless_asked_for(photos_folder: Path) -> None:
    data = (photos_folder / "position" / "DSCN0010.jpg").read_bytes()
    dropped = intake(data, "DSCN0010.jpg")
    assert dropped.place is None
    assert not decoded(dropped.jpeg).getexif().get_ifd(GPS_IFD)


def test_a_camera_s_place_is_kept_when_asked_for(photos_folder: Path) -> None:
    """43° 28' 2.814" N, 11° 53' 6.456" E, as ImageMagick's `identify` prints the GPS block."""
    data = (photos_folder / "position" / "DSCN0010.jpg").read_bytes()
    kept = intake(data, "DSCN0010.jpg", keep_place=True)
    assert kept.place == pytest.approx((43 + 28 / 60 + 2.814 / 3600, 11 + 53 / 60 + 6.456 / 3600), abs=1e-6)
    gps = decoded(kept.jpeg).getexif().get_ifd(GPS_IFD)
    assert (gps[1], gps[3]) == ("N", "E")
    assert [float(part) for part in gps[2]] == pytest.approx([43, 28, 2.814], abs=1e-4)


def test_another_colour_space_is_turned_into_srgb() -> None:
    """A profile whose red primary is sRGB's blue and the other way round: its red is seen as blue."""
    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    red, blue = profile.index(b"rXYZ"), profile.index(b"bXYZ")
    profile[red : red + 4], profile[blue : blue + 4] = b"bXYZ", b"rXYZ"
    swapped = bytes(profile).replace("sRGB".encode("utf-16-be"), "swap".encode("utf-16-be"))
    data = encoded(Image.new("RGB", (64, 64), (255, 0, 0)), icc_profile=swapped)
    seen = edge(decoded(intake(data, "wide.jpg").jpeg), "top")
    assert seen[0] < 40 and seen[2] > 215


def test_an_unreadable_profile_leaves_the_colours() -> None:
    data = encoded(Image.new("RGB", (64, 64), (255, 0, 0)), icc_profile=b"not a profile" * 20)
    seen = edge(decoded(intake(data, "odd.jpg").jpeg), "top")
    assert seen[0] > 240 and seen[2] < 20


def test_a_build_without_colour_management_leaves_the_colours(tmp_path: Path) -> None:
    """Pillow on Android comes without Little CMS."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    (tmp_path / "phone.jpg").write_bytes(encoded(textured((64, 48)), icc_profile=profile))
    code = """
import sys
sys.modules["PIL._imagingcms"] = None
from app.photos import intake
print(intake(open(sys.argv[1], "rb").read(), "phone.jpg").width)
"""
    run = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path / "phone.jpg")], capture_output=True, text=True, check=True
    )
    assert (run.stdout.strip(), run.stderr) == ("64", "")


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_see_through_places_come_in_white(kind: str) -> None:
    photo = intake(encoded(Image.new("RGBA", (64, 64), (255, 0, 0, 0)), kind), "clear")
    assert min(edge(decoded(photo.jpeg), "top")) > 250


def test_a_palette_with_transparency_comes_in_white() -> None:
    image = Image.new("P", (64, 64), 0)
    image.putpalette([255, 0, 0, 0, 0, 255])
    photo = intake(encoded(image, "PNG", transparency=b"\x00\xff"), "palette.png")
    assert min(edge(decoded(photo.jpeg), "top")) > 250


def test_sixteen_bits_of_grey_keep_their_tone() -> None:
    """0x8080 of 0xffff is 128.5 of 255."""
    data = png(64, 64, 16, (b"\x00" + b"\x80\x80" * 64) * 64)
    assert edge(decoded(intake(data, "deep.png").jpeg), "top") == pytest.approx((128, 128, 128), abs=2)


def test_a_print_picture_comes_in_as_colours() -> None:
    photo = intake(encoded(Image.new("CMYK", (64, 64), (0, 255, 255, 0))), "print.jpg")
    red, green, _ = edge(decoded(photo.jpeg), "top")
    assert red > 220 and green < 60


def test_a_picture_of_two_views_gives_the_main_one() -> None:
    main, second = Image.new("RGB", (640, 480), "red"), Image.new("RGB", (160, 120), "blue")
    photo = intake(encoded(main, "MPO", save_all=True, append_images=[second]), "views.mpo")
    assert photo.source_format == "MPO"
    assert (photo.width, photo.height) == (640, 480)


@pytest.mark.parametrize("name", ["iphone_13_pro_max.HEIC", "samplefilehub.heif"])
def test_heic_is_taken_where_it_can_be_read(photos_folder: Path, name: str) -> None:
    pytest.importorskip("pillow_heif", reason="HEIC needs the optional pillow-heif (extra heic)")
    photo = intake((photos_folder / name).read_bytes(), name)
    assert photo.source_format == "HEIF" and max(photo.width, photo.height) <= 2016


def test_full_size_phone_photographs_are_taken(photos_folder: Path) -> None:
    taken = {name: taken_in(photos_folder / name) for name in ("jolla.jpg", "rotated_phone.jpg")}
    assert taken["jolla.jpg"].taken_at == "2014-09-21T16:00:56"
    assert (taken["rotated_phone.jpg"].width, taken["rotated_phone.jpg"].height) == (1512, 2016)


def test_damaged_camera_files_are_stored_whole_or_refused_by_name(photos_folder: Path) -> None:
    for path in sorted((photos_folder / "broken").iterdir()):
        try:
            decoded(taken_in(path).jpeg)
        except PhotoRefused as refusal:
            assert refusal.name == path.name and refusal.reason and refusal.remedy


def taken_in(path: Path) -> Photo:
    return intake(path.read_bytes(), path.name)


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="reads the peak memory from /proc")
def test_a_48_megapixel_photograph_is_never_decoded_whole(tmp_path: Path) -> None:
    """Decoded whole it takes 8064 × 6048 × 3 bytes = 139 MiB; the peak may grow by 110.

    The peak is read from /proc because ru_maxrss starts at the parent's.
    """
    (tmp_path / "48.jpg").write_bytes(encoded(Image.radial_gradient("L").resize((8064, 6048)).convert("RGB")))
    code = """
import sys
from pathlib import Path
from app.photos import intake

def peak():
    lines = Path("/proc/self/status").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("VmHWM"))

data = Path(sys.argv[1]).read_bytes()
before = peak()
photo = intake(data, "48.jpg")
print(photo.width, photo.height, (peak() - before) // 1024)
"""
    run = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path / "48.jpg")], capture_output=True, text=True, check=True
    )
    width, height, grown = map(int, run.stdout.split())
    assert (width, height) == (2016, 1512)
    assert grown < 110
