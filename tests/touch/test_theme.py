"""Contrast of every theme by WCAG 2.2 (relative luminance and contrast ratio, as defined there)."""

import pytest
from kivy.utils import get_color_from_hex

from app.touch.theme import TABLES

TEXT = 7.0  # WCAG 2.2, SC 1.4.6 (AAA)
OUTLINE = 3.0  # WCAG 2.2, SC 1.4.11

WRITTEN = [(ink, ground) for ground in ("paper", "card", "band", "pressed") for ink in ("ink", "quiet")] + [
    ("solid_ink", "solid"),
    ("head_ink", "head"),
    ("head_quiet", "head"),
]
DRAWN = [(role, ground) for ground in ("paper", "card", "band") for role in ("ink", "line", "focus")]
# Fill, what is drawn on it, and the border that sets it off from its ground.
SIGNS = {
    "serviceable": ("sign_green", "sign_white", "sign_white"),
    "watch": ("sign_yellow", "sign_black", "sign_black"),
    "hold": ("sign_blue", "sign_white", "sign_white"),
    "remove": ("sign_white", "sign_red", "sign_red"),
}


def luminance(colour: str) -> float:
    def linear(c: float) -> float:
        return c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4

    return sum(w * linear(c) for w, c in zip((0.2126, 0.7152, 0.0722), get_color_from_hex(colour)[:3], strict=True))


def contrast(one: str, other: str) -> float:
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_black_on_white_has_the_ratio_of_the_standard() -> None:
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)  # WCAG 2.2, "contrast ratio", note


@pytest.mark.parametrize("theme", TABLES)
def test_text_stands_out_seven_to_one(theme: str) -> None:
    table = TABLES[theme]
    weak = {
        (ink, ground): round(contrast(table[ink], table[ground]), 2)
        for ink, ground in WRITTEN
        if contrast(table[ink], table[ground]) < TEXT
    }
    assert not weak


@pytest.mark.parametrize("theme", TABLES)
def test_outlines_and_the_focus_ring_stand_out_three_to_one(theme: str) -> None:
    table = TABLES[theme]
    weak = {
        pair: round(contrast(table[pair[0]], table[pair[1]]), 2)
        for pair in DRAWN
        if contrast(table[pair[0]], table[pair[1]]) < OUTLINE
    }
    assert not weak


@pytest.mark.parametrize("theme", TABLES)
@pytest.mark.parametrize("sign", SIGNS)
def test_a_sign_stands_out_from_every_ground(theme: str, sign: str) -> None:
    table = TABLES[theme]
    fill, _, border = SIGNS[sign]
    for ground in ("paper", "card", "band", "pressed"):
        assert max(contrast(table[fill], table[ground]), contrast(table[border], table[ground])) >= OUTLINE, ground


@pytest.mark.parametrize("theme", TABLES)
@pytest.mark.parametrize("sign", SIGNS)
def test_what_is_drawn_on_a_sign_stands_out_from_it(theme: str, sign: str) -> None:
    table = TABLES[theme]
    fill, symbol, _ = SIGNS[sign]
    assert contrast(table[fill], table[symbol]) >= OUTLINE


def test_all_themes_name_the_same_roles() -> None:
    assert len({frozenset(table) for table in TABLES.values()}) == 1
