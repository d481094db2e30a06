"""Our own icon set: line drawings on a 24 grid, inked in the theme's colors at whatever sharpness the screen has."""

from functools import cache
from importlib.resources import files

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from piecewright_qt.theme.tokens import Theme

_GRID = 24
_SHARPNESS = (1, 2, 3)


@cache
def _drawing(name: str) -> str:
    return files("piecewright_data").joinpath("icons", f"{name}.svg").read_text(encoding="utf-8")


def icon_names() -> tuple[str, ...]:
    """The names of all icons, sorted."""
    return tuple(
        sorted(
            entry.name[:-4]
            for entry in files("piecewright_data").joinpath("icons").iterdir()
            if entry.name.endswith(".svg")
        )
    )


def inked(name: str, color: str, side: int = _GRID, sharpness: float = 1) -> QPixmap:
    """The drawing in one color, `side` device-independent pixels square."""
    pixmap = QPixmap(round(side * sharpness), round(side * sharpness))
    pixmap.setDevicePixelRatio(sharpness)
    pixmap.fill(Qt.GlobalColor.transparent)
    renderer = QSvgRenderer(QByteArray(_drawing(name).replace("currentColor", color).encode()))
    painter = QPainter(pixmap)
    renderer.render(painter, QRectF(0, 0, side, side))
    painter.end()
    return pixmap


@cache
def icon(name: str, theme: Theme) -> QIcon:
    """An icon for buttons and menus, sharp at 1, 2 and 3 device pixels, paler when disabled."""
    made = QIcon()
    for sharpness in _SHARPNESS:
        made.addPixmap(inked(name, theme.text, sharpness=sharpness))
        made.addPixmap(inked(name, theme.outline, sharpness=sharpness), QIcon.Mode.Disabled)
    return made
