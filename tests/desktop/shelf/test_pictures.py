"""Pictures on the shelf: true to the cloth, drawn once and when there is time."""

from fractions import Fraction

import numpy as np
import pytest
from PySide6.QtCore import QSize, QSizeF
from PySide6.QtGui import QColor, QImage, QPixmap
from pytestqt.qtbot import QtBot

from piecewright.model.fabric import Fabric, Print
from piecewright_qt.shelf.cards import block_cards
from piecewright_qt.shelf.pictures import CLOTH_SCALE, Pictures, pinked_outline
from tests.desktop.shelf.designs import small_design
from tests.desktop.shelf.test_photos import picture

pytestmark = pytest.mark.usefixtures("qapp")
STRIPES = Fabric("f1", "Stripes", "#ffffff", Print("stripes", ("#000000",), Fraction(1)))


def rows_of(pixmap: QPixmap) -> np.ndarray:
    """The red of every pixel."""
    image = pixmap.toImage().convertToFormat(QImage.Format.Format_RGBX8888)
    pixels = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.bytesPerLine())
    return pixels[:, : image.width() * 4].reshape(image.height(), image.width(), 4)[:, :, 0].astype(float)


@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0, 3.0])
def test_cloth_is_shown_at_one_scale_on_every_screen(ratio: float) -> None:
    """One repeat of 1 in measures 48 device-independent pixels: the picture is like itself that far along."""
    pixmap = Pictures().cloth(STRIPES, None, QSize(240, 40), ratio, CLOTH_SCALE)
    assert (pixmap.width(), pixmap.height()) == (240 * ratio, 40 * ratio)
    line = rows_of(pixmap)[5]
    step = round(CLOTH_SCALE * ratio)
    assert np.abs(line[step:] - line[:-step]).max() < 3
    assert np.abs(line[step // 2 :] - line[: -(step // 2)]).max() > 100


def test_stripes_run_down_along_the_lengthwise_thread() -> None:
    red = rows_of(Pictures().cloth(STRIPES, None, QSize(96, 96), 1.0, CLOTH_SCALE))
    assert np.ptp(red, axis=0).max() < 3
    turned = STRIPES.changed(print=Print("stripes", ("#000000",), Fraction(1), 90))
    red = rows_of(Pictures().cloth(turned, None, QSize(96, 96), 1.0, CLOTH_SCALE))
    assert np.ptp(red, axis=1).max() < 3


def test_a_photo_fills_the_swatch() -> None:
    fabric = Fabric("f1", "Photo", "#000000", picture="roll.png")
    red = rows_of(Pictures().cloth(fabric, picture("PNG", (80, 20), (200, 10, 10)), QSize(60, 60), 2.0, 48.0))
    assert red.shape == (120, 120)
    assert red.min() > 190


def test_pinked_edges_stay_inside_and_leave_the_middle_whole() -> None:
    outline = pinked_outline(QSizeF(100, 60))
    assert outline.boundingRect().adjusted(-0.01, -0.01, 0.01, 0.01).contains(outline.controlPointRect())
    assert outline.boundingRect().width() == pytest.approx(100)
    assert outline.boundingRect().height() == pytest.approx(60)
    red = Pictures().swatch(Fabric("f1", "Red", "#ff0000"), None, QSize(100, 60), 1.0).toImage()
    assert red.pixelColor(50, 30) == QColor("#ff0000")
    assert red.pixelColor(0, 0).alpha() == 0


def test_a_block_keeps_its_proportions_within_its_square() -> None:
    halves = next(card for card in block_cards(small_design()) if card.block.name == "Halves")
    pixmap = Pictures().block(halves.faces[0].look, 72, 2.0)
    assert (pixmap.width(), pixmap.height()) == (72, 144)  # 6 x 12 in


def test_pictures_come_later_once_and_tell_everyone_who_asked(qtbot: QtBot) -> None:
    pictures, told = Pictures(), list[str]()
    look = block_cards(small_design())[0].faces[0].look

    def ask(who: str) -> QPixmap | None:
        return pictures.block_later(look, 72, 1.0, who, lambda: told.append(who))

    assert ask("one") is None
    assert ask("one") is None
    assert ask("two") is None
    assert pictures.drawn == 0
    qtbot.waitUntil(lambda: pictures.drawn == 1)
    assert told == ["one", "two"]
    assert ask("three") is not None
    assert pictures.drawn == 1


def test_a_new_name_price_or_note_draws_nothing_anew() -> None:
    pictures = Pictures()
    pictures.swatch(STRIPES, None, QSize(40, 40), 1.0)
    pictures.swatch(
        STRIPES.changed(id="f2", name="Other", price=Fraction(3), note="!"), None, QSize(40, 40), 1.0
    )
    assert pictures.drawn == 1
    pictures.swatch(STRIPES.changed(color="#fefefe"), None, QSize(40, 40), 1.0)
    assert pictures.drawn == 2
