"""A label printer, the dirt of a workshop, and a hand scanner: codes as they are read off a raster."""

import random
from collections.abc import Iterable, Iterator
from math import cos, pi, sin

import numpy as np
import pypdfium2
import zxingcpp
from PIL import Image, ImageDraw, ImageFilter

from pinchrod.job import Shop
from pinchrod.papers import Papers, Sheet, write_pdf
from pinchrod.papers.labels.label_sheet import label_places

DOTS_PER_INCH = 203
DOTS_PER_MM = DOTS_PER_INCH / 25.4
CORNER = 27  # mm, upper right of a label: where the code stands
SEEN = 2  # of a scanner's own dots to a dot of the printer


SPECK = 4  # dots of the scanner: a third of a square of the built-in label's code


def printed(sheets: Iterable[Sheet], dots_per_inch: int = DOTS_PER_INCH) -> Iterator[Image.Image]:
    """Every sheet as a printer of so many dots an inch puts it on paper: black or white."""
    document = pypdfium2.PdfDocument(write_pdf(Papers(title="labels", sheets=tuple(sheets))))
    for page in document:
        grey = page.render(scale=dots_per_inch / 72, grayscale=True).to_pil()
        yield grey.point(lambda shade: 255 if shade > 127 else 0)


def torn_off(sheet: Image.Image, shop: Shop) -> list[Image.Image]:
    """The labels of a printed sheet one by one."""
    scale = sheet.height / float(shop.labels.page_height)
    return [
        sheet.crop(
            (
                round(place.left * scale),
                sheet.height - round(place.top * scale),
                round(place.right * scale),
                sheet.height - round(place.bottom * scale),
            )
        )
        for place in label_places(shop.labels)
    ]


def dirtied(label: Image.Image, dice: random.Random) -> Image.Image:
    """The label after a day in the shop: dust on all of it, and a scratch where the code stands."""
    picture = label.convert("L").resize((label.width * SEEN, label.height * SEEN), Image.Resampling.NEAREST)
    _dust(picture, dice)
    _scratch(picture, dice)
    return picture


def held(picture: Image.Image, dice: random.Random) -> Image.Image:
    """The corner with the code as a scanner sees it: askew, bent, not quite still, in poor light."""
    corner = round(CORNER * SEEN * DOTS_PER_MM)
    picture = picture.crop((picture.width - corner, 0, picture.width, corner))
    picture = picture.rotate(dice.uniform(-10, 10), Image.Resampling.BICUBIC, expand=True, fillcolor=255)
    picture = _bent(picture, dice).filter(ImageFilter.GaussianBlur(dice.uniform(0.8, 2.0)))
    return _dim(picture, dice)


def _dust(picture: Image.Image, dice: random.Random) -> None:
    """Ten specks to a square centimetre, 0.1 to 0.3 mm across, light or dark."""
    draw = ImageDraw.Draw(picture)
    mm = SEEN * DOTS_PER_MM
    for _ in range(round(10 * picture.width * picture.height / (10 * mm) ** 2)):
        x, y, radius = (
            dice.uniform(0, picture.width),
            dice.uniform(0, picture.height),
            dice.uniform(0.05, 0.15) * mm,
        )
        draw.ellipse((x - radius, y - radius, x + radius, y + radius), fill=dice.choice((60, 230)))


def _scratch(picture: Image.Image, dice: random.Random) -> None:
    """A white scratch 10 mm long and 0.1 to 0.3 mm wide, its middle anywhere in the corner with the code."""
    mm = SEEN * DOTS_PER_MM
    x, y = picture.width - dice.uniform(0, CORNER) * mm, dice.uniform(0, CORNER) * mm
    angle = dice.uniform(0, pi)
    across, up = 5 * mm * cos(angle), 5 * mm * sin(angle)
    width = round(dice.uniform(0.1, 0.3) * mm)
    ImageDraw.Draw(picture).line([(x - across, y - up), (x + across, y + up)], fill=255, width=width)


def _bent(picture: Image.Image, dice: random.Random) -> Image.Image:
    """Seen a little from one side."""
    wide, high = picture.size
    slip = dice.uniform(-0.05, 0.05) * high
    quad = (0, max(slip, 0), 0, high - max(slip, 0), wide, high + min(slip, 0), wide, -min(slip, 0))
    return picture.transform(
        picture.size, Image.Transform.QUAD, quad, Image.Resampling.BICUBIC, fillcolor=255
    )


def _dim(picture: Image.Image, dice: random.Random) -> Image.Image:
    """Grey on grey, as by poor light, with the noise of the scanner's eye."""
    noise = np.random.default_rng(dice.getrandbits(32))
    shades = 40 + np.asarray(picture, dtype=float) * 0.7 + noise.normal(0, 8, (picture.height, picture.width))
    return Image.fromarray(np.clip(shades, 0, 255).astype(np.uint8))


def scanned(picture: Image.Image) -> list[str]:
    """What a decoder that is not ours reads, of the picture as it is or with its specks softened.

    As it is, a speck on one of a code's three corner marks is often enough to hide it from this decoder.
    """
    for softened in (picture, picture.filter(ImageFilter.GaussianBlur(SPECK))):
        found = [code.text for code in zxingcpp.read_barcodes(softened)]
        if found:
            return found
    return []
