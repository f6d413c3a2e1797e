"""Draw the demo workshop's pictures into photos/*.jpg: `python -m samples.draw_photos`.

They are drawings, say so in the picture, and carry the EXIF time and offset that a phone would write.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image, ImageDraw, ImageFilter, ImageFont

HERE = Path(__file__).resolve().parent
SIZE = (1600, 1200)
Draw = ImageDraw.ImageDraw
INK = (46, 40, 36)


def bench(seed: int) -> Image.Image:
    """Return a plank bench under a lamp, with grain."""
    random = np.random.default_rng(seed)
    y, x = np.mgrid[0 : SIZE[1], 0 : SIZE[0]]
    light = 1.05 - 0.55 * (np.hypot(x - 900, y - 420) / 1400)
    grain = np.repeat(random.normal(0, 6, (SIZE[1] // 4, 1)), 4, axis=0) + random.normal(0, 3, (SIZE[1], SIZE[0]))
    board = np.where((y // 150) % 2 == 0, 0, -8) - 40 * ((y % 150) < 4)
    base = np.array([148, 118, 86])[None, None, :] + (grain + board)[..., None]
    return Image.fromarray(np.clip(base * light[..., None], 0, 255).astype(np.uint8))


def fan(draw: Draw, centre: tuple[int, int], radius: int, colours: tuple[Any, Any], flutes: int = 11) -> None:
    """Draw a scallop shell: flutes fanned out from a hinge, each with a lit and a shaded side."""
    cx, cy = centre
    for k in range(flutes):
        a, b = (math.pi * (1.06 + 0.88 * (k + d) / flutes) for d in (0, 1))
        middle, reach = (a + b) / 2, radius * (1 + 0.07 * math.sin(math.pi * (k + 0.5) / flutes))
        tip = [(cx + reach * 1.05 * math.cos(middle), cy + reach * 1.05 * math.sin(middle))]
        left = (cx + reach * math.cos(a), cy + reach * math.sin(a))
        right = (cx + reach * math.cos(b), cy + reach * math.sin(b))
        draw.polygon([(cx, cy), left, *tip], fill=colours[0], outline=INK)
        draw.polygon([(cx, cy), *tip, right], fill=colours[1], outline=INK)
    draw.ellipse([cx - 46, cy - 40, cx + 46, cy + 40], fill=colours[0], outline=INK, width=4)


def scroll(draw: Draw, centre: tuple[int, int], turn: int, colour: Any) -> None:
    """Draw a scroll as a thick spiral; `turn` is 1 or -1."""
    points = [
        (centre[0] + turn * r * math.cos(t), centre[1] + r * math.sin(t))
        for t, r in ((i / 12, 12 + i * 0.95) for i in range(110))
    ]
    draw.line(points, fill=INK, width=46, joint="curve")
    draw.line(points, fill=colour, width=38, joint="curve")


def niche(image: Image.Image, colours: tuple[Any, Any], flange: Any = None) -> None:
    """Draw the niche: shell, two scrolls and, when given, a flange around it."""
    draw = ImageDraw.Draw(image)
    if flange:
        draw.rounded_rectangle([270, 130, 1330, 1090], 60, fill=flange, outline=INK, width=5)
    draw.rounded_rectangle([350, 200, 1250, 1020], 50, fill=colours[1], outline=INK, width=5)
    fan(draw, (800, 860), 560, colours)
    scroll(draw, (470, 880), 1, colours[0])
    scroll(draw, (1130, 880), -1, colours[0])


def glass(image: Image.Image, area: tuple[int, int, int, int], seed: int) -> None:
    """Lay strands of mat over an area."""
    random, veil = np.random.default_rng(seed), Image.new("RGBA", SIZE)
    draw = ImageDraw.Draw(veil)
    for _ in range(2600):
        x, y, a = (
            random.uniform(area[0], area[2]),
            random.uniform(area[1], area[3]),
            random.uniform(0, math.pi),
        )
        draw.line([x, y, x + 50 * math.cos(a), y + 50 * math.sin(a)], fill=(235, 245, 235, 110), width=2)
    image.paste(veil, (0, 0), veil)


def bare(image: Image.Image) -> None:
    """The pattern, shellacked."""
    niche(image, ((196, 150, 92), (164, 118, 66)))


def gel_coated(image: Image.Image) -> None:
    """The left half under gel coat."""
    niche(image, ((196, 150, 92), (164, 118, 66)), flange=(120, 92, 62))
    left = image.copy()
    niche(left, ((214, 224, 226), (176, 190, 194)), flange=(150, 162, 166))
    image.paste(left.crop((0, 0, 800, SIZE[1])), (0, 0))


def glassed(image: Image.Image) -> None:
    """The left half under mat."""
    gel_coated(image)
    glass(image, (280, 140, 790, 1080), 3)


def soft(image: Image.Image) -> None:
    """The failed half: gel coat torn at the hinge, dull at the scroll."""
    niche(image, ((214, 224, 226), (176, 190, 194)), flange=(150, 162, 166))
    draw = ImageDraw.Draw(image)
    tear = [(790, 700), (770, 760), (800, 800), (760, 850), (800, 910), (830, 850), (812, 800), (830, 750)]
    draw.polygon(tear, fill=(96, 70, 48), outline=INK)
    draw.ellipse([380, 800, 560, 980], outline=(190, 60, 40), width=8)


def opened(image: Image.Image) -> None:
    """The mould that worked."""
    niche(image, ((188, 204, 176), (146, 166, 136)), flange=(128, 148, 120))


def laminated(image: Image.Image) -> None:
    """The epoxy half under cloth."""
    niche(image, ((98, 122, 150), (76, 98, 126)), flange=(84, 100, 120))
    draw = ImageDraw.Draw(image)
    for k in range(300, 1330, 14):
        draw.line([k, 140, k, 1080], fill=(150, 170, 190), width=1)
        draw.line([280, k - 160, 1320, k - 160], fill=(150, 170, 190), width=1)


def paw(image: Image.Image) -> None:
    """The lion paw inside its clay wall."""
    draw = ImageDraw.Draw(image)
    draw.rounded_rectangle([330, 260, 1270, 1010], 40, fill=(122, 132, 116), outline=INK, width=6)
    draw.rounded_rectangle([400, 330, 1200, 940], 30, fill=(92, 72, 54), outline=INK, width=4)
    draw.ellipse([560, 360, 1040, 720], fill=(206, 176, 132), outline=INK, width=5)
    for k in range(4):
        x = 520 + k * 150
        draw.ellipse([x, 620, x + 160, 860], fill=(216, 188, 144), outline=INK, width=5)
        draw.polygon([(x + 50, 830), (x + 80, 900), (x + 110, 830)], fill=(240, 232, 214), outline=INK)


def cast_paw(image: Image.Image) -> None:
    """A casting of the paw with a bubble on a toe."""
    paw(image)
    ImageDraw.Draw(image).ellipse([560, 700, 592, 732], fill=(80, 56, 40), outline=(190, 60, 40), width=6)


def cornice(image: Image.Image) -> None:
    """The plaster run on the bench."""
    draw = ImageDraw.Draw(image)
    for k, (top, tone) in enumerate(((380, 236), (450, 214), (500, 244), (600, 206), (660, 232), (760, 196))):
        draw.rectangle([120, top, 1480, top + 110], fill=(tone, tone - 4, tone - 14), outline=INK, width=3 + k % 2)


PICTURES: dict[str, Callable[[Image.Image], None]] = {
    "bare": bare, "gel": gel_coated, "glass": glassed, "soft": soft, "open": opened,
    "cloth": laminated, "paw": paw, "cast": cast_paw, "cornice": cornice,
}  # fmt: skip


def caption(image: Image.Image, words: str) -> None:
    """Say what it shows, and that it is drawn."""
    draw = ImageDraw.Draw(image)
    draw.rectangle([0, SIZE[1] - 64, SIZE[0], SIZE[1]], fill=(28, 26, 24))
    font = ImageFont.load_default(size=34)
    draw.text((24, SIZE[1] - 52), f"{words} - a drawing, not a photograph", fill=(240, 236, 226), font=font)


def save(image: Image.Image, path: Path, taken_at: datetime) -> None:
    """Write a JPEG with the EXIF time, its offset, and no position."""
    exif = Image.Exif()
    exif[0x0132] = taken_at.strftime("%Y:%m:%d %H:%M:%S")
    offset = taken_at.strftime("%z")
    exif.get_ifd(0x8769).update(
        {0x9003: exif[0x0132], 0x9011: f"{offset[:3]}:{offset[3:]}", 0x9010: f"{offset[:3]}:{offset[3:]}"}
    )
    image.save(path, quality=72, optimize=True, exif=exif)


def main() -> None:
    """Draw every photo that workshop.toml lists."""
    (HERE / "photos").mkdir(exist_ok=True)
    for number, photo in enumerate(tomllib.loads((HERE / "workshop.toml").read_text(encoding="utf-8"))["photos"]):
        image = bench(number)
        PICTURES[photo["drawn"]](image)
        image = image.filter(ImageFilter.GaussianBlur(0.6))
        caption(image, photo["shows"])
        save(image, HERE / "photos" / photo["file"], datetime.fromisoformat(photo["at"]))
        print(photo["file"])


if __name__ == "__main__":
    main()
