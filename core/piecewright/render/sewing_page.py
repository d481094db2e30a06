"""The sewing plan of a top as one page: what it comes to, then every step in a figure and words."""

from piecewright.model.design import Design
from piecewright.plan.sewing_order import SewingStep
from piecewright.plan.sewing_report import pressing_of
from piecewright.render.cells import PAGE_WIDTH, SPACE, TALLEST, Cell, draw_cells, fitted_cell
from piecewright.render.layout import Draw
from piecewright.render.pen import Pen
from piecewright.render.pictures import RECIPE_MARGIN
from piecewright.render.sewing_picture import SewingPicture
from piecewright.render.style import LEADING, TEXT, TITLE
from piecewright.render.svg_pen import svg_picture
from piecewright.render.typeface import wrapped
from piecewright.units.measure import Measure
from piecewright.words.message import Message, message

_WHOLE = 3.4
"""Inches that the figure of the whole top may be high."""


def step_words(picture: SewingPicture, step: SewingStep) -> tuple[Message, ...]:
    """What is said of a step: what to sew, its partial seams numbered as they are drawn, the way to press."""
    pressed = pressing_of(step, picture.pressing)
    details = (
        message("sewing.numbered", number=number, said=detail)
        for number, detail in enumerate(step.details, 1)
    )
    return (step.sentence, *details, *((pressed,) if pressed else ()))


def sewing_page(design: Design, measure: Measure) -> Draw:
    """All steps as a drawing in inches of paper, its top left at 0, 0."""
    picture = SewingPicture(design)
    cells = [_cell(picture, index, measure) for index in range(len(picture.order.steps))]
    title = message("sewing.title", name=design.name).text(measure)
    said = (picture.order.summary, *(finding.message for finding in picture.order.findings))

    def draw(pen: Pen) -> None:
        y = TITLE.size
        for line in wrapped(title, TITLE, PAGE_WIDTH):
            pen.text((0.0, y), line, TITLE)
            y += TITLE.size * LEADING
        for line in (line for words in said for line in wrapped(words.text(measure), TEXT, PAGE_WIDTH)):
            pen.text((0.0, y), line, TEXT)
            y += TEXT.size * LEADING
        draw_cells(pen, cells, y + SPACE / 2)

    return draw


def _cell(picture: SewingPicture, index: int, measure: Measure) -> Cell:
    step = picture.order.steps[index]
    words = "\n".join(said.text(measure) for said in step_words(picture, step))
    tallest = _WHOLE if step.kind in ("center", "border") else TALLEST
    return fitted_cell(
        str(index + 1), words, lambda scale: picture.step(index, scale), tallest, wide=bool(step.details)
    )


def sewing_svg(design: Design, measure: Measure) -> str:
    """All steps as an SVG file."""
    title = message("sewing.title", name=design.name).text(measure)
    return svg_picture(sewing_page(design, measure), margin=RECIPE_MARGIN, title=title)
