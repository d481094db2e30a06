"""A design in greys: every cloth as light as it is measured, and nothing else told of it."""

from functools import lru_cache

from piecewright.colour.value import grey
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric


@lru_cache(maxsize=8)
def greyed(design: Design) -> Design:
    """The same design in grey cloth; the very same one for the same design. Photos give way to their color's grey."""
    return design.changed(fabrics=tuple(grey_cloth(fabric) for fabric in design.fabrics))


@lru_cache(maxsize=2048)
def grey_cloth(fabric: Fabric) -> Fabric:
    """A fabric with ground and inks in the greys that are just as light."""
    drawn = fabric.print and fabric.print.changed(inks=tuple(grey(ink) for ink in fabric.print.inks))
    return fabric.changed(color=grey(fabric.color), print=drawn, picture=None)
