"""Photos: what they are, when taken, whether they will serve, and copies that are safe to show.

The original bytes are never altered; copies are upright and carry no metadata, so that the place
where a photo was taken does not leave with them.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, tzinfo
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import ExifTags, Image, ImageCms, ImageOps, UnidentifiedImageError
from pillow_heif import register_heif_opener

from journal.capture.kind import TAKEN_IN, CaptureError, choose_time, size_and_digest
from journal.record import Photo

register_heif_opener()
# Pillow warns of large pictures at a size of its own; ours is a setting, checked before any pixel is read.
Image.MAX_IMAGE_PIXELS = None

# MPO: a JPEG with further pictures behind it, as phones write; its plugin is JPEG's.
READERS = ("JPEG", "PNG", "WEBP", "HEIF")
MEDIA_TYPES = {
    "JPEG": "image/jpeg",
    "MPO": "image/jpeg",
    "PNG": "image/png",
    "WEBP": "image/webp",
    "HEIF": "image/heic",
}
THUMBNAIL_PX = 320
PAGE_PX = 1600
# Sharpness is judged at one size, in the sharpest of 4 by 4 tiles: a shallow focus is no blur.
JUDGED_PX = 1024
TILES = 4
# Variance of the Laplacian of an 8-bit picture (Pech-Pacheco and others, 2000); threshold: common practice.
SHARP_VARIANCE = 60.0
DARK_MEAN, BRIGHT_MEAN = 45.0, 225.0
CLIPPED_SHARE = 0.4


@dataclass(frozen=True, slots=True)
class PhotoLimits:
    """The largest photo that is taken in, in bytes and in pixels."""

    max_bytes: int = 100_000_000
    max_pixels: int = 80_000_000


@dataclass(frozen=True, slots=True)
class Copies:
    """Upright WebP copies without any metadata: at most 1600 and 320 pixels on the long side."""

    page: bytes
    thumbnail: bytes


def take_photo(
    source: bytes | Path,
    limits: PhotoLimits,
    given: datetime | None,
    arrival: datetime,
    zone: tzinfo,
) -> Photo:
    """Return the photo's record: `given` is the client's time for it, `zone` the shop's.

    All pixels are read, so that a photo that was cut short is refused. Raises CaptureError with one
    line that says what is wrong and what to do.
    """
    size, digest = size_and_digest(source, limits.max_bytes)
    with _opened(source, limits.max_pixels) as image:
        taken_at, time_source = choose_time(given, exif_time(image), arrival, zone)
        media_type = MEDIA_TYPES[image.format or ""]
        upright = _upright(image)
    return Photo(
        sha256=digest,
        media_type=media_type,
        size_bytes=size,
        width=upright.width,
        height=upright.height,
        taken_at=taken_at,
        time_source=time_source,
        warnings=quality_warnings(upright),
    )


def make_copies(source: bytes | Path, limits: PhotoLimits) -> Copies:
    """Return the copies that pages show. Raises CaptureError."""
    with _opened(source, limits.max_pixels) as image:
        upright = _upright(image)
    return Copies(_webp(upright, PAGE_PX), _webp(upright, THUMBNAIL_PX))


def exif_time(image: Image.Image) -> datetime | None:
    """Return when EXIF says that the picture was taken; without a zone when it gives no offset.

    Exif 3.0 (CIPA DC-008), tags DateTimeOriginal and OffsetTimeOriginal, else those of digitising.
    """
    tags = image.getexif().get_ifd(ExifTags.IFD.Exif)
    for time_tag, offset_tag in (
        (ExifTags.Base.DateTimeOriginal, ExifTags.Base.OffsetTimeOriginal),
        (ExifTags.Base.DateTimeDigitized, ExifTags.Base.OffsetTimeDigitized),
    ):
        when, offset = _exif_text(tags.get(time_tag)), _exif_text(tags.get(offset_tag))
        for text, form in ((when + offset, "%Y:%m:%d %H:%M:%S%z"), (when, "%Y:%m:%d %H:%M:%S")):
            try:
                return datetime.strptime(text, form)  # noqa: DTZ007 - EXIF may lack the offset
            except ValueError:
                continue
    return None


def quality_warnings(image: Image.Image) -> tuple[str, ...]:
    """Return what may make a picture useless as evidence: blur, darkness, glare."""
    small = image.convert("L")
    small.thumbnail((JUDGED_PX, JUDGED_PX))
    grey = np.asarray(small, dtype=np.float32)
    signs = (
        (sharpness(grey) < SHARP_VARIANCE, "looks blurred"),
        (grey.mean() < DARK_MEAN or (grey <= 4).mean() > CLIPPED_SHARE, "looks too dark"),
        (grey.mean() > BRIGHT_MEAN or (grey >= 251).mean() > CLIPPED_SHARE, "looks too bright"),
    )
    return tuple(sign for is_so, sign in signs if is_so)


def sharpness(grey: NDArray[np.float32]) -> float:
    """Return the variance of the Laplacian in the sharpest of 4 by 4 tiles of a grey picture, 0 to 255."""
    if min(grey.shape) < 3:
        return 0.0
    centre = grey[1:-1, 1:-1]
    laplacian = grey[:-2, 1:-1] + grey[2:, 1:-1] + grey[1:-1, :-2] + grey[1:-1, 2:] - 4 * centre
    tiles = (t for rows in np.array_split(laplacian, TILES) for t in np.array_split(rows, TILES, axis=1))
    return max(float(tile.var()) for tile in tiles if tile.size)


@contextmanager
def _opened(source: bytes | Path, max_pixels: int) -> Iterator[Image.Image]:
    try:
        with Image.open(io.BytesIO(source) if isinstance(source, bytes) else source, formats=READERS) as image:
            if image.width * image.height > max_pixels:
                raise CaptureError(
                    f"The photo has {image.width * image.height / 1e6:.0f} million pixels and the limit is "
                    f"{max_pixels / 1e6:.0f} million: send a smaller one, or raise MOULDBOOK_MAX_PIXELS."
                )
            yield image
    except UnidentifiedImageError as error:
        raise CaptureError(f"This is no photo that can be read: {TAKEN_IN}.") from error
    except (OSError, SyntaxError, ValueError) as error:
        raise CaptureError("The photo is damaged or cut short: send it again.") from error


def _upright(image: Image.Image) -> Image.Image:
    """Return the picture turned as EXIF says, in sRGB, with nothing but its pixels."""
    profile = image.info.get("icc_profile")
    upright = ImageOps.exif_transpose(image)
    if profile and upright.mode == "RGB":
        upright = _in_srgb(upright, profile)
    clean = Image.new("RGB", upright.size, "white")
    if upright.has_transparency_data:
        upright = upright.convert("RGBA")
        clean.paste(upright, mask=upright.getchannel("A"))
    else:
        clean.paste(upright.convert("RGB"))
    return clean


def _in_srgb(image: Image.Image, profile: bytes) -> Image.Image:
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        turned = ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"))
    except (ImageCms.PyCMSError, OSError):
        return image  # a broken profile only costs a little colour
    return turned or image


def _webp(image: Image.Image, longest_px: int) -> bytes:
    small = image.copy()
    small.thumbnail((longest_px, longest_px), Image.Resampling.LANCZOS)
    out = io.BytesIO()
    small.save(out, "WEBP", quality=82, method=4)
    return out.getvalue()


def _exif_text(value: object) -> str:
    return value.strip("\0 ") if isinstance(value, str) else ""
