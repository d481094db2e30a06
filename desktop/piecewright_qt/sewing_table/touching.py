"""What of a piece the pointer is at: its cloth, an edge, a corner, a seam of a tube, the layers that peep out."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot
from typing import Literal

from PySide6.QtCore import QPointF

from piecewright.making.by_hand import Corner
from piecewright_qt.sewing_table.holding import tr
from piecewright_qt.sewing_table.lying import Lying

Kind = Literal["cloth", "left", "right", "top", "bottom", "corner", "fan", "seam"]
_EDGE, _CORNER, _SEAM = 7.0, 9.0, 6.0
_SHARE = 0.22  # of a narrow piece that an edge may take
_LEAST_FOR_CORNERS = 30.0


@dataclass(frozen=True)
class Touch:
    """A place of a piece; `seam` counts a tube's seams from 1."""

    piece: Lying
    kind: Kind
    corner: Corner | None = None
    seam: int = 0

    @property
    def shape(self) -> str:
        """Which pointer tells of it."""
        return self.kind

    @property
    def at_corner(self) -> QPointF:
        """Where its corner is."""
        rect, corner = self.piece.rect, self.corner or "top left"
        x = rect.left() if "left" in corner else rect.right()
        return QPointF(x, rect.top() if "top" in corner else rect.bottom())

    @property
    def hint(self) -> str:
        """What can be done there."""
        if self.kind == "corner":
            return tr("Drag the corner inward to square up.")
        if self.kind == "fan":
            return tr("Pull layers out to shuffle the pile.")
        if self.kind == "seam":
            return tr("Click the seam to unpick it.")
        if self.kind == "cloth":
            state = self.piece.cloth.state
            if state == "faced":
                return tr("Click to open.")
            return "" if state else tr("Drag to an edge to sew, click to turn.")
        return tr("Drag from the edge to cut.")


def touched(pieces: Sequence[Lying], at: QPointF) -> Touch | None:
    """What lies at a point; None where only the table does."""
    for piece in reversed(pieces):
        if piece.whole.adjusted(-_EDGE, -_EDGE, _EDGE, _EDGE).contains(at):
            found = _touch(piece, at)
            if found is not None:
                return found
    return None


def _touch(piece: Lying, at: QPointF) -> Touch | None:
    state = piece.cloth.state
    if state is None:
        corner = _corner(piece, at)
        if corner is not None:
            return Touch(piece, "corner", corner)
    seam = _seam(piece, at) if state == "tube" else 0
    if seam:
        return Touch(piece, "seam", seam=seam)
    rect = piece.rect
    side = piece.nearest_side(at)
    off = piece.off(side, at)
    if piece.fanned and side in ("right", "bottom") and 2 - piece.fanned - _EDGE <= off < -1:
        return Touch(piece, "fan")
    reach = min(_EDGE, _SHARE * min(rect.width(), rect.height()))
    if state is None and -_EDGE <= off <= reach:
        return Touch(piece, side)
    return Touch(piece, "cloth") if off >= 0 else None


def _corner(piece: Lying, at: QPointF) -> Corner | None:
    rect = piece.rect
    if min(rect.width(), rect.height()) < _LEAST_FOR_CORNERS:
        return None
    across = "left" if piece.off("left", at) < piece.off("right", at) else "right"
    down = "top" if piece.off("top", at) < piece.off("bottom", at) else "bottom"
    away = (piece.off(across, at), piece.off(down, at))  # type: ignore[arg-type]
    return f"{down} {across}" if hypot(*away) <= _CORNER else None  # type: ignore[return-value]


def _seam(piece: Lying, at: QPointF) -> int:
    """Which seam across a tube is near, from 1; 0 where none is."""
    cloth = piece.cloth
    along = 0 if cloth.loop == "across" else 1
    places = sorted(
        {
            float(seam.line.start[along])
            for seam in cloth.seams
            if seam.line.start[along] == seam.line.end[along]
        }
    )
    where = piece.inches(at)[along]
    start = float(cloth.box.left if along == 0 else cloth.box.top)
    for number, place in enumerate(places, start=1):
        if abs((place - start - where) * piece.inch) <= _SEAM:
            return number
    return 0
