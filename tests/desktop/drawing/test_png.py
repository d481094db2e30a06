"""Pictures as PNG: at the size asked for, with the shipped typeface, and as they were judged good."""

import struct
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtGui import QFont, QFontInfo, QFontMetricsF, QGuiApplication, QImage

from piecewright.files.design_file import load_design
from piecewright.making.given import Given
from piecewright.render.pen import Flat, TextStyle
from piecewright.render.typeface import FAMILY, text_width
from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.drawing.png import painted, png_bytes, quilt_png, recipe_png
from tests.core.render.recipes import RECIPES
from tests.desktop.drawing.golden import GOLDEN, pictures
from tests.desktop.drawing.pixels import pixels


def test_a_png_has_its_size_and_says_its_dots(qapp: QGuiApplication) -> None:
    square = ((0, 0), (2, 0), (2, 1), (0, 1))
    data = png_bytes(lambda pen: pen.polygon(square, Flat("#ff8800")), 100, dots=200)
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    assert struct.unpack(">II", data[16:24]) == (200, 100)
    place = data.index(b"pHYs") + 4
    assert struct.unpack(">IIB", data[place : place + 9]) == (7874, 7874, 1)  # 200 to the inch, in meters
    image = QImage.fromData(data)
    assert image.pixelColor(100, 50).name() == "#ff8800"


def test_the_shipped_typeface_is_the_one_that_is_shown(qapp: QGuiApplication) -> None:
    register_fonts()
    assert QFontInfo(QFont(FAMILY)).family() == FAMILY


@pytest.mark.parametrize(
    "words", ["Cut the set into 3 segments 13 1/2 in wide", "8.611 × 8 1/2 in unfinished", "180°"]
)
@pytest.mark.parametrize(("weight", "qt_weight"), [(400, QFont.Weight.Normal), (600, QFont.Weight.DemiBold)])
def test_text_is_as_wide_on_the_screen_as_it_was_measured_without_one(
    qapp: QGuiApplication, words: str, weight: int, qt_weight: QFont.Weight
) -> None:
    register_fonts()
    font = QFont(FAMILY)
    font.setPixelSize(100)
    font.setWeight(qt_weight)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    measured = text_width(words, TextStyle(1.0, "#000000", weight))  # type: ignore[arg-type]
    shown = QFontMetricsF(font).horizontalAdvance(words) / 100
    assert shown <= measured + 0.02
    assert shown == pytest.approx(measured, rel=0.03)


def test_whole_pictures_can_be_had_as_png(qapp: QGuiApplication) -> None:
    page = QImage.fromData(recipe_png(RECIPES["rail-fence-of-two"], Given(), dots=50))
    assert page.width() == pytest.approx(8.2 * 50, abs=6)
    example = files("piecewright_data").joinpath("examples", "breakfast-mats.piecewright")
    design = load_design(Path(str(example))).design
    wall = QImage.fromData(quilt_png(design, dots=50))
    assert wall.width() > wall.height() > 100


@pytest.mark.parametrize("name", sorted(path.stem for path in GOLDEN.glob("*.png")))
def test_pictures_look_as_they_did_when_they_were_judged(qapp: QGuiApplication, name: str) -> None:
    """Run tests/tools/write_golden_pictures.py, look at what it writes, and keep it only if it is better."""
    draw, per_inch = pictures()[name]
    now, before = pixels(painted(draw, per_inch, 0.1)), pixels(QImage(str(GOLDEN / f"{name}.png")))
    assert now.shape == before.shape
    unlike = np.abs(now - before).max(axis=2)
    assert float((unlike > 32).mean()) < 0.002
    assert float(unlike.mean()) < 0.5


def test_every_golden_picture_is_drawn_and_every_drawing_kept() -> None:
    assert {path.stem for path in GOLDEN.glob("*.png")} == set(pictures())
