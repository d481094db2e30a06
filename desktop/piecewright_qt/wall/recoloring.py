"""A fabric held over the wall: which patch, border or binding it would recolor."""

from dataclasses import dataclass

from PySide6.QtGui import QPolygonF

from piecewright.edit.registry import Cell, EditCall, call
from piecewright.errors import EditError
from piecewright.words.message import Message, message
from piecewright_qt.wall.camera import Inches
from piecewright_qt.wall.carrying import Host
from piecewright_qt.wall.describing import border_under, is_on_binding
from piecewright_qt.wall.items import Items, Spot
from piecewright_qt.wall.scene import Scene


@dataclass(frozen=True)
class Target:
    """An edit that a fabric would make, what it does in words, and the outline of the patch aimed at."""

    call: EditCall
    said: Message
    outline: QPolygonF | None = None


class FabricOver:
    """A fabric on the pointer. Every new aim is previewed."""

    def __init__(self, host: Host, fabric: str) -> None:
        self._host = host
        self.fabric = fabric
        self.target: Target | None = None
        self.refusal: EditError | None = None

    def aim(self, place: Inches, whole: bool, reach: float) -> None:
        """Point at a place; `whole`: all like fabric of the block; `reach`: inches round the binding that count."""
        target = target_at(self._host, self.fabric, place, whole, reach)
        if target == self.target:
            return
        document = self._host.document
        before, self.target = self.target, target
        if target is None:
            self.refusal = None
            document.drop_preview()
        elif before is None or target.call != before.call:
            document.preview(target.call)
            self.refusal = document.preview_refusal

    def settle(self) -> bool:
        """Recolor what is aimed at, as one step to undo. False where there is nothing to recolor."""
        target = self.target
        self._host.document.drop_preview()
        return target is not None and self._host.document.perform(target.call)

    def leave(self) -> None:
        """Nowhere for now."""
        self.target, self.refusal = None, None
        self._host.document.drop_preview()

    @property
    def said(self) -> Message | EditError:
        """What would happen, or why nothing would."""
        if self.refusal is not None:
            return self.refusal
        return message("wall.no-patch-here") if self.target is None else self.target.said


def target_at(host: Host, fabric: str, place: Inches, whole: bool, reach: float) -> Target | None:
    """What a fabric would recolor at a place of the quilt; None where there is no cloth."""
    scene = host.still
    known = scene.design.shelf.fabrics.get(fabric)
    if known is None:
        return None
    spot = Items(scene).spot(place)
    if spot is not None:
        return _patch_target(host, spot, fabric, known.name, whole)
    return _border_target(scene, place, fabric, known.name, reach)


def _patch_target(host: Host, spot: Spot, fabric: str, name: str, whole: bool) -> Target:
    cells: tuple[Cell, ...] = host.selection.cells if spot.item.id in host.selection else (spot.item.id,)
    count = len(cells)
    if whole and spot.fabric.id in host.still.design.shelf.fabrics:
        edit = call("recolor-blocks", cells=cells, fabric=spot.fabric.id, to=fabric)
        said = message("wall.would-recolor-like", fabric=name, other=spot.fabric.name, count=count)
        return Target(edit, said, spot.outline)
    layer = None if whole else spot.patch.layer
    edit = call("recolor-letter", cells=cells, letter=spot.patch.fabric, fabric=fabric, layer=layer)
    said = message("wall.would-recolor", fabric=name, letter=spot.patch.fabric, count=count)
    return Target(edit, said, spot.outline)


def _border_target(scene: Scene, place: Inches, fabric: str, name: str, reach: float) -> Target | None:
    quilt, border = scene.design.quilt, border_under(scene, place)
    if border is not None:
        wanted = quilt.borders[border].changed(fabric=fabric)
        said = message("wall.would-recolor-border", fabric=name, number=border + 1)
        return Target(call("change-border", index=border, border=wanted), said)
    if is_on_binding(scene, place, reach):
        edit = call("set-binding", binding=quilt.binding.changed(fabric=fabric))
        return Target(edit, message("wall.would-recolor-binding", fabric=name))
    return None
