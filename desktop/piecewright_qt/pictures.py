"""Pictures of a quilt for files, recent designs and samples."""

from piecewright.model.design import Design
from piecewright.plan.layout import layout
from piecewright.render.pictures import QUILT_MARGIN, quilt_drawing, quilt_picture
from piecewright_qt.drawing.png import png_bytes, quilt_png

SMALL = 256


def picture_bytes(design: Design, ending: str) -> bytes:
    """The quilt as SVG or PNG, by the ending of the file's name."""
    return quilt_picture(design).encode() if ending.lower() == ".svg" else quilt_png(design)


def small_picture(design: Design, side: int = SMALL) -> bytes:
    """A small PNG, at most `side` pixels wide and high."""
    size = layout(design).size.unfinished
    return png_bytes(
        quilt_drawing(design), side / (float(max(size.width, size.height)) + 2 * QUILT_MARGIN), QUILT_MARGIN
    )
