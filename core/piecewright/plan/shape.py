"""What a shape asks of the sewn cloth, and what is cut away round it."""

from collections.abc import Iterator
from fractions import Fraction

from piecewright.errors import Finding
from piecewright.model.quilt import Quilt
from piecewright.units.sizes import Finished
from piecewright.words.message import message


def shape_findings(quilt: Quilt) -> Iterator[Finding]:
    """The size to cut and what falls off; a warning where the cloth does not reach beyond the margin."""
    shape = quilt.shape
    if shape is None:
        return
    size = quilt.frame.size
    wanted = shape.width + 2 * shape.margin, shape.height + 2 * shape.margin
    if Fraction(size.width) < wanted[0] or Fraction(size.height) < wanted[1]:
        yield Finding(
            "plan.shape-outside",
            "warning",
            message("plan.shape-outside", name=shape.name, size=size, needs=Finished(*wanted)),
            where="quilt",
            hint=message("plan.shape-cover"),
        )
        return
    away = float(size.width) * float(size.height) - float(shape.area)
    yield Finding(
        "plan.shape-cut",
        "note",
        message(
            "plan.shape-cut",
            name=shape.name,
            size=Finished(shape.width, shape.height),
            margin=shape.margin,
            away=round(away, 1),
        ),
        where="quilt",
        hint=message("plan.shape-quilt-first"),
    )
