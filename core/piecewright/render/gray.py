"""A design in grays: every cloth as light as it is measured, and nothing else told of it."""

from functools import lru_cache

from piecewright.colour.value import gray
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric


@lru_cache(maxsize=8)
def grayed(design: Design) -> Design:
    """The same design in gray cloth; the very same one for the same design. Photos give way to their color's gray."""
    return design.changed(fabrics=tuple(gray_cloth(fabric) for fabric in design.fabrics))


@lru_cache(maxsize=2048)
def gray_cloth(fabric: Fabric) -> Fabric:
    """A fabric with ground and inks in the grays that are just as light."""
    drawn = fabric.print and fabric.print.changed(inks=tuple(gray(ink) for ink in fabric.print.inks))
    return fabric.changed(color=gray(fabric.color), print=drawn, picture=None)
