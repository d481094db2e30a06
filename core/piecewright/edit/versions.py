"""Which block of those that one batch yields lies in a place: its kind, and its layer of the stack."""

from piecewright.edit.footprint import footprints
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell, edit
from piecewright.edit.wall import Wall
from piecewright.model.design import Design


@edit("set-kind", undo="edit.undo-set-kind")
def set_kind(design: Design, *, cells: tuple[Cell, ...], kind: int) -> Design:
    """Show another kind of the block's batch, counted from 0.

    The layer stays where that kind has it, and else becomes the kind's first.
    """
    sizes = footprints(design)
    wall = Wall(design)
    for laid in wall.all_at(cells):
        kinds = sizes.facts(laid.placement.block).kinds
        if not 0 <= kind < len(kinds):
            refuse("no-such-kind", name=wall.name(laid), kind=kind + 1, count=len(kinds))
        layers = kinds[kind].layers
        layer = laid.placement.layer if laid.placement.layer in layers else layers[0]
        wall.replace(laid, laid.placement.changed(kind=kind, layer=layer))
    return wall.design()


@edit("set-layer", undo="edit.undo-set-layer")
def set_layer(design: Design, *, cells: tuple[Cell, ...], layer: int) -> Design:
    """Show another layer of the stack, counted from 0.

    Where the kind in place has it not, the first kind that has takes its place.
    """
    sizes = footprints(design)
    wall = Wall(design)
    for laid in wall.all_at(cells):
        kinds = sizes.facts(laid.placement.block).kinds
        here = [index for index, kind in enumerate(kinds) if layer in kind.layers]
        if not here:
            known = tuple(sorted({number + 1 for kind in kinds for number in kind.layers}))
            refuse("no-such-layer", name=wall.name(laid), layer=layer + 1, layers=known)
        kind = laid.placement.kind if laid.placement.kind in here else here[0]
        wall.replace(laid, laid.placement.changed(kind=kind, layer=layer))
    return wall.design()
