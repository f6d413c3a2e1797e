"""Every colour of text on its ground is legible: contrast 4.5:1 or better (WCAG 2.2, 1.4.3), in both schemes."""

from __future__ import annotations

import re

import pytest

from api.pages.shell import STATIC

SCHEMES = re.findall(r":root \{(.*?)\}", (STATIC / "style.css").read_text(), re.DOTALL)
PAIRS = (
    ("ink", "paper"), ("ink", "sheet"), ("faint", "paper"), ("faint", "sheet"), ("dye", "paper"), ("dye", "sheet"),
    ("on-dye", "dye"), ("on-lit", "lit"), ("on-query", "query"), ("stop", "sheet"), ("on-stop", "stop"),
    ("good", "sheet"), ("faint", "query"),
)  # fmt: skip
EDGES = (("edge", "paper"), ("edge", "sheet"), ("query-edge", "query"), ("query-edge", "sheet"))


def colours(scheme: int) -> dict[str, str]:
    return dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6})", SCHEMES[scheme]))


def luminance(colour: str) -> float:
    """Return the relative luminance as WCAG 2.2 defines it."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_is_reckoned_as_the_standard_says() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # the well-known near miss; from memory


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize(("text", "ground"), PAIRS)
def test_text_stands_out_from_its_ground(scheme: int, text: str, ground: str) -> None:
    named = colours(scheme)
    assert contrast(named[text], named[ground]) >= 4.5


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize(("edge", "ground"), EDGES)
def test_edges_of_controls_can_be_seen(scheme: int, edge: str, ground: str) -> None:
    named = colours(scheme)
    assert contrast(named[edge], named[ground]) >= 3  # WCAG 2.2, 1.4.11
