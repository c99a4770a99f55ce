"""The demo's photographs show what they are asked for, and are photographs to the rest of the app."""

import subprocess
import sys
from datetime import datetime
from functools import cache

import pytest
from PIL import Image, ImageChops, ImageStat

from app.photos import intake
from app.photos.render import (
    Body,
    BuriedEye,
    BuryZone,
    Ground,
    LockStitching,
    Scene,
    Tag,
    TuckedEye,
    WebSling,
    render_scene,
)

from .pictures import decoded

NOON = datetime(2050, 10, 12, 12, 0, 5)
MM = 3.2  # pixels a millimetre in the middle of a buried eye's picture, as its tape measure shows

SCENES: list[Scene] = [
    BuriedEye(12.0),
    LockStitching("whole"),
    LockStitching("broken"),
    LockStitching("leaning"),
    BuryZone("sound"),
    BuryZone("hollow"),
    BuryZone("tail showing"),
    TuckedEye(),
    Body("sound"),
    Body("strand cut"),
    Body("abraded"),
    Tag("ML-04\nBOW SPRING"),
    Tag(None),
    WebSling(edge_cut=False),
    WebSling(edge_cut=True),
]


@pytest.mark.parametrize("scene", SCENES, ids=repr)
def test_every_scene_is_taken_in_like_a_phone_s_photograph(scene: Scene) -> None:
    photo = intake(render_scene(scene, 3, NOON), "scene.jpg")
    assert (photo.width, photo.height, photo.taken_at) == (1600, 1200, "2050-10-12T12:00:05")


@pytest.mark.parametrize("lies_on", ["deck", "bench", "grass"])
def test_no_two_grounds_look_alike(lies_on: Ground) -> None:
    """The mean colour of the lower left corner, where no scene puts anything."""
    expected = {"deck": lambda r, g, b: g > r, "bench": lambda r, g, b: r > g > b, "grass": lambda r, g, b: g > b + 30}
    corner = decoded(render_scene(Body(), 3, NOON, lies_on)).crop((40, 1000, 340, 1160))
    red, green, blue = ImageStat.Stat(corner).mean
    assert expected[lies_on](red, green, blue)


def test_the_same_request_gives_the_same_bytes_in_another_process() -> None:
    code = (
        "import hashlib; from datetime import datetime; from app.photos.render import *;"
        "print(hashlib.sha256(render_scene(WebSling(), 7, datetime(2050, 1, 2), 'bench')).hexdigest())"
    )
    runs = [
        subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
        for _ in range(2)
    ]
    assert runs[0] == runs[1] != ""


def test_another_seed_gives_another_picture() -> None:
    assert render_scene(Body(), 1, NOON) != render_scene(Body(), 2, NOON)


@cache
def small(scene: Scene) -> Image.Image:
    return decoded(render_scene(scene, 5, NOON)).resize((160, 120), Image.Resampling.BOX)


@pytest.mark.parametrize(
    ("sound", "damaged"),
    [
        (LockStitching("whole"), LockStitching("broken")),
        (LockStitching("whole"), LockStitching("leaning")),
        (BuryZone("sound"), BuryZone("hollow")),
        (BuryZone("sound"), BuryZone("tail showing")),
        (Body("sound"), Body("strand cut")),
        (Body("sound"), Body("abraded")),
        (WebSling(edge_cut=False), WebSling(edge_cut=True)),
    ],
    ids=repr,
)
def test_damage_is_seen_in_the_middle_of_the_picture(sound: Scene, damaged: Scene) -> None:
    """At a thumbnail's size, some place in the middle changes by more than 24 of 255 levels."""
    change = ImageChops.difference(small(sound), small(damaged)).convert("L").crop((40, 30, 120, 90))
    _, most = change.getextrema()
    assert isinstance(most, int) and most > 24


def marks(offset_mm: float) -> list[tuple[float, float]]:
    """The middles of the two red marks, upper first, found by their colour."""
    picture = decoded(render_scene(BuriedEye(offset_mm), 21, NOON)).crop((0, 0, 1600, 940))
    red, green, blue = picture.split()
    redder = ImageChops.subtract(red, ImageChops.lighter(green, blue))
    is_red = redder.point([255 * (level > 84) for level in range(256)])
    middles = []
    for top, bottom in ((0, 560), (560, 940)):
        half = is_red.crop((500, top, 900, bottom))
        box = half.getbbox()
        assert box is not None
        middles.append((500 + (box[0] + box[2]) / 2, top + (box[1] + box[3]) / 2))
    return middles


def test_the_tail_leg_s_mark_comes_out_by_the_millimetres_asked_for() -> None:
    """22 mm along the leg; the camera's tilt may change the scale there by a tenth."""
    (standing, tail), (standing_later, tail_later) = marks(0.0), marks(22.0)
    assert standing_later == standing
    moved = ((tail_later[0] - tail[0]) ** 2 + (tail_later[1] - tail[1]) ** 2) ** 0.5
    assert moved == pytest.approx(22 * MM, rel=0.12)
    assert tail_later[0] < tail[0]


def test_drawing_needs_no_array_library() -> None:
    code = (
        "import sys; from datetime import datetime; from app.photos.render import *;"
        "render_scene(TuckedEye(), 1, datetime(2050, 1, 2)); print('numpy' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "False"
