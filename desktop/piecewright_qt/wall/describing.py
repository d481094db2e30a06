"""What lies under the pointer or the cursor, in one sentence for the status line."""

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPolygonF

from piecewright.plan.between import LaidPart
from piecewright.plan.rects import Rect
from piecewright.words.message import Message, message
from piecewright_qt.wall.camera import Box, Inches
from piecewright_qt.wall.items import Item, Items
from piecewright_qt.wall.scene import Scene


def describe_place(scene: Scene, items: Items, place: Inches) -> Message:
    """A place of the quilt: block and patch, border, binding, empty cell, or beside the quilt."""
    item = items.at(place)
    if item is not None:
        spot = items.spot(place)
        block = describe_block(scene, items, item)
        if spot is None:
            return block
        known = spot.fabric.id in scene.design.shelf.fabrics
        fabric = spot.fabric.name if known else message("wall.letter-unchosen")
        return message("wall.described-patch", block=block, letter=spot.patch.fabric, fabric=fabric)
    part = part_under(scene, place)
    if part is not None:
        cloth = scene.design.shelf.fabrics.get(part.fabric)
        said = cloth.name if cloth else message("wall.letter-unchosen")
        return message("wall.part", part=message(f"sewing.part-{part.part}"), fabric=said)
    if scene.is_cell(*scene.cell(place)):
        return describe_cell(scene, items, *scene.cell(place))
    return _describe_round(scene, place)


def describe_cell(scene: Scene, items: Items, column: int, row: int) -> Message:
    """A cell: the block on it, or that it is empty."""
    item = items.at_cell(column, row)
    if item is None:
        return message("wall.empty-cell", column=column + 1, row=row + 1)
    return describe_block(scene, items, item)


def describe_block(scene: Scene, items: Items, item: Item) -> Message:
    """A placed block with its finished size as it lies, and its layer where it is one of a stack."""
    size, placement = items.size(item), item.laid.placement
    if size is None:
        fault = scene.looks.fault(placement)
        return message("wall.cannot-be-made", placed=item.name, why=fault.message if fault else "")
    stack = scene.looks.facts(placement.block).stack
    if stack == 1:
        return message("wall.described", placed=item.name, size=size)
    layer = placement.layer + 1
    return message("wall.described-version", placed=item.name, size=size, layer=layer, layers=stack)


def describe_empty(scene: Scene) -> Message:
    """What to do at a wall with nothing on it: with an empty shelf the first block comes first."""
    return message("wall.empty" if scene.design.blocks else "wall.empty-shelf")


def describe_quilt(scene: Scene) -> Message:
    """The whole quilt: its columns, rows, blocks and size."""
    lattice = scene.design.quilt.lattice
    quilt = message(
        "wall.quilt",
        columns=lattice.columns,
        rows=lattice.rows,
        count=len(scene.hung),
        size=scene.layout.size.finished,
    )
    notes = len(scene.design.quilt.notes)
    return message("wall.quilt-with-notes", quilt=quilt, count=notes) if notes else quilt


def part_under(scene: Scene, place: Inches) -> LaidPart | None:
    """The sash, cornerstone, setting triangle or coping strip that a place lies on."""
    for part in scene.layout.parts_within((*place, *place)):
        outline = QPolygonF([QPointF(float(x), float(y)) for x, y in part.points])
        if outline.containsPoint(QPointF(*place), Qt.FillRule.OddEvenFill):
            return part
    return None


def border_under(scene: Scene, place: Inches) -> int | None:
    """The border, from the inside, that a place lies on."""
    inner = scene.layout.center
    for index, border in enumerate(scene.layout.rounds):
        if _is_within(place, border.ring):
            return None if _is_within(place, inner) else index
        inner = border.ring
    return None


def _is_within(place: Inches, rect: Rect) -> bool:
    return rect.x <= place[0] < rect.x + rect.width and rect.y <= place[1] < rect.y + rect.height


def is_on_binding(scene: Scene, place: Inches, reach: float = 0.0) -> bool:
    """Whether a place lies on the binding, or within `reach` inches outside it."""
    size = scene.layout.size.finished
    finished = (0.0, 0.0, float(size.width), float(size.height))
    return _is_in(place, scene.whole, reach) and not _is_in(place, finished, 0.0)


def _describe_round(scene: Scene, place: Inches) -> Message:
    quilt, fabrics = scene.design.quilt, scene.design.shelf.fabrics
    border = border_under(scene, place)
    if border is not None:
        cloth = quilt.borders[border]
        name = fabrics[cloth.fabric].name
        return message("wall.border", number=border + 1, width=cloth.width, fabric=name)
    if quilt.binding.fabric is not None and is_on_binding(scene, place):
        return message("wall.binding", fabric=fabrics[quilt.binding.fabric].name)
    return message("wall.outside")


def _is_in(place: Inches, box: Box, reach: float) -> bool:
    across = box[0] - reach <= place[0] < box[2] + reach
    return across and box[1] - reach <= place[1] < box[3] + reach
