"""Contrast of the two themes, by the contrast ratio of WCAG 2.2 (success criteria 1.4.3 and 1.4.6)."""

import re

import pytest

from counterpoise.drawing import sheet

CSS = sheet()


def theme(selector: str) -> dict[str, str]:
    block = CSS.split(f"{selector} {{", 1)[1].split("}", 1)[0]
    return dict(re.findall(r"--([a-z]+): (#[0-9a-f]{6})", block))


def luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_black_on_white_is_21_to_1() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)


@pytest.mark.parametrize("ink", ["ink", "grey", "accent", "over", "unknown"])
@pytest.mark.parametrize("ground", ["paper", "band", "mark"])
def test_words_stand_out_4_5_to_1_by_day(ink: str, ground: str) -> None:
    day = theme(':root[data-theme="day"]')
    assert contrast(day[ink], day[ground]) >= 4.5


@pytest.mark.parametrize("ink", ["ink", "grey", "accent", "over", "unknown"])
@pytest.mark.parametrize("ground", ["paper", "band"])
def test_words_stand_out_6_5_to_1_in_the_dark(ink: str, ground: str) -> None:
    dark = theme(':root[data-theme="dark"]')
    assert contrast(dark[ink], dark[ground]) >= (7.0 if ground == "paper" else 6.5)


def test_both_ways_into_a_theme_give_the_same_colours() -> None:
    assert theme(":root") == theme(':root[data-theme="day"]')
    assert theme("@media (prefers-color-scheme: dark) { :root") == theme(':root[data-theme="dark"]')
