"""Prints on the screen: without seams between repeats, at true scale at every zoom, bounded in memory."""

from fractions import Fraction
from math import log2

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtGui import QColor, QGuiApplication, QImage, QPainter

from piecewright.geometry.motion import STILL, Motion
from piecewright.model.fabric import PrintKind
from piecewright.render.pen import ClothFill, Pen
from piecewright.render.prints import tile_of
from piecewright.render.recording_pen import replay
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.drawing.png import painted
from piecewright_qt.drawing.qt_pen import QtPen
from tests.core.render.fabrics import KINDS, printed
from tests.desktop.drawing.pixels import Pixels, pixels


def _field(kind: PrintKind, inches: int, per_inch: float, came: Motion = STILL, scale: str = "1") -> Pixels:
    square = ((0, 0), (inches, 0), (inches, inches), (0, inches))
    return pixels(
        painted(lambda pen: pen.polygon(square, ClothFill(printed(kind, scale=scale), came)), per_inch)
    )


@pytest.mark.parametrize("kind", KINDS)
def test_repeats_follow_each_other_without_a_seam(qapp: QGuiApplication, kind: PrintKind) -> None:
    """Against one drawing of a field of three repeats: the print as a texture has the same pixels."""
    texture = _field(kind, 3, 96)
    assert np.array_equal(texture[:96, :96], texture[96:192, 96:192])
    image = QImage(288, 288, QImage.Format.Format_RGB32)
    image.fill(QColor("#f4ead8"))
    painter = QPainter(image)
    found = printed(kind).print
    assert found is not None
    replay(tile_of("#f4ead8", found).repeated(3), QtPen(painter, 96))
    painter.end()
    assert float(np.abs(texture - pixels(image)).max()) <= 4  # of 255


@pytest.mark.parametrize("per_inch", [12.0, 24.0, 41.5, 110.0, 333.0])
@pytest.mark.parametrize("scale", ["1/2", "2/3", "2"])
def test_a_repeat_is_as_long_as_it_should_be(qapp: QGuiApplication, per_inch: float, scale: str) -> None:
    """The strongest period of checks across the picture, by FFT; a repeat of checks holds two of them."""
    picture = _field("checks", 12 if per_inch < 100 else 5, per_inch, scale=scale).mean(axis=(0, 2))
    wave = picture - picture.mean()
    strength = np.abs(np.fft.rfft(wave, 16 * wave.size))
    least = 4 * 16  # at least four of them are in view
    period = 16 * wave.size / (least + int(np.argmax(strength[least:])))
    true = float(Fraction(scale)) * per_inch / 2
    assert abs(log2(period / true)) < (0.03 if true > 8 else 0.12)


@given(st.integers(-50, 50), st.integers(-50, 50), st.sampled_from(["florals", "stripes", "rings"]))
def test_cloth_moved_by_whole_repeats_looks_the_same(dx: int, dy: int, kind: PrintKind) -> None:
    here, there = _field(kind, 2, 64), _field(kind, 2, 64, Motion(dx=Fraction(dx), dy=Fraction(dy)))
    assert np.array_equal(here, there)


def test_the_cache_of_textures_is_bounded_and_kept(qapp: QGuiApplication) -> None:
    image = QImage(64, 64, QImage.Format.Format_RGB32)
    brushes = Brushes(limit=5)
    painter = QPainter(image)
    pen = QtPen(painter, 32, brushes)
    for _ in range(2):
        for kind in KINDS:
            pen.polygon(((0, 0), (1, 0), (1, 1)), ClothFill(printed(kind)))
            assert len(brushes) <= 5
    painter.end()
    assert len(brushes) == 5


def test_the_cache_of_textures_stays_within_its_bytes(qapp: QGuiApplication) -> None:
    image = QImage(64, 64, QImage.Format.Format_RGB32)
    brushes = Brushes(most_bytes=400_000)
    painter = QPainter(image)
    for scale in range(20, 200, 10):
        painter.save()
        QtPen(painter, scale, brushes).polygon(
            ((0, 0), (1, 0), (1, 1)), ClothFill(printed(KINDS[scale % 12]))
        )
        painter.restore()
        assert brushes.bytes <= 400_000
        assert len(brushes) >= 1
    painter.end()


@pytest.mark.parametrize("kind", KINDS)
def test_from_far_a_print_is_the_mean_of_what_is_seen_of_it_near(
    qapp: QGuiApplication, kind: PrintKind
) -> None:
    near = _field(kind, 1, 64).reshape(-1, 3).mean(axis=0)
    far = Brushes().far(printed(kind))
    assert np.abs(near - (far.red(), far.green(), far.blue())).max() < 4


def test_drawing_leaves_the_painter_as_it_was_but_for_its_scale(qapp: QGuiApplication) -> None:
    image = QImage(64, 64, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    pen: Pen = QtPen(painter, 32)
    before = painter.worldTransform()
    with pytest.raises(ValueError, match="stop"), pen.framed(Motion(quarters=1, dx=1), 2.0):
        raise ValueError("stop")
    assert painter.worldTransform() == before
    painter.end()
