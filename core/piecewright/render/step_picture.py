"""The steps of a making as one calm page: heading, fabrics, every step in a figure and words, the block."""

from collections.abc import Mapping

from piecewright.errors import MakingError, PiecewrightError, RecipeError
from piecewright.geometry.motion import Motion
from piecewright.making.cloth import Pile
from piecewright.making.facts import Facts, Kind
from piecewright.making.run import Making, facts
from piecewright.making.table import Outcome
from piecewright.model.fabric import Fabric
from piecewright.render.block_picture import draw_block
from piecewright.render.cells import (
    HALF,
    INDENT,
    PAGE_WIDTH,
    SPACE,
    TALLEST,
    Cell,
    cell,
    draw_cells,
    fitted_cell,
)
from piecewright.render.cloth import Letters, fabric_of, patch_fabrics
from piecewright.render.layout import Draw, beside, largest
from piecewright.render.pen import ClothFill, Pen
from piecewright.render.piece_picture import Look
from piecewright.render.step_figures import Scene, step_figure
from piecewright.render.style import GAP, LEADING, RAW_EDGE, SMALL, TEXT, TITLE
from piecewright.render.typeface import text_width, wrapped
from piecewright.units.measure import Measure
from piecewright.words.message import message


def draw_steps(making: Making, fabrics: Letters, pen: Pen, measure: Measure) -> None:
    """Draw the page of a making, its top left at 0, 0 and `PAGE_WIDTH` inches wide."""
    y = _draw_heading(making, fabrics, pen, measure)
    draw_cells(pen, step_cells(making, fabrics, measure), y)


def step_cells(making: Making, fabrics: Letters, measure: Measure) -> list[Cell]:
    """The places of a page in order: every step done, then the finished block where all of them were."""
    piles: dict[str, Pile] = {}
    cells: list[Cell] = []
    for outcome in making.outcomes:
        piles.update(outcome.made)
        cells.append(_step_cell(making, outcome, dict(piles), fabrics, measure))
    made = _facts_or_fault(making)
    return [*cells, _block_cell(made, fabrics, measure)] if isinstance(made, Facts) else cells


def _facts_or_fault(making: Making) -> Facts | PiecewrightError:
    """What comes out, or what stops it: a step that can not be done, or blocks that are none."""
    if making.fault is not None:
        return making.fault
    try:
        return facts(making.recipe, making.given)
    except (MakingError, RecipeError) as fault:
        return fault


def _step_cell(
    making: Making, outcome: Outcome, piles: Mapping[str, Pile], fabrics: Letters, measure: Measure
) -> Cell:
    def build(scale: float) -> Draw:
        look = Look(fabrics, making.recipe.stack, float(making.names["seam"]), scale)
        return step_figure(Scene(outcome, piles, look, measure))

    return fitted_cell(str(outcome.step_index + 1), outcome.sentence.text(measure), build)


def _block_cell(made: Facts, fabrics: Letters, measure: Measure) -> Cell:
    """The blocks that come out, finished: one of each look that the kinds and layers of the stack give."""
    words = message(
        "render.finished-block", count=made.blocks, unfinished=made.unfinished, finished=made.finished
    )
    looks = {
        (kind.patches, cloth): kind
        for kind in made.kinds
        for layer in kind.layers
        for cloth in (patch_fabrics(kind, fabrics, made.stack, layer),)
    }

    def build(scale: float) -> Draw:
        return beside([_finished(kind, cloth, scale) for (_, cloth), kind in looks.items()], GAP)

    wide = len(looks) > 1
    figure, _ = largest(build, (PAGE_WIDTH if wide else HALF) - INDENT, TALLEST)
    return cell("", words.text(measure), figure, wide)


def _finished(kind: Kind, fabrics: tuple[Fabric, ...], scale: float) -> Draw:
    def draw(pen: Pen) -> None:
        with pen.framed(scale):
            draw_block(kind, fabrics, pen, words=SMALL.size / scale)

    return draw


def _draw_heading(making: Making, fabrics: Letters, pen: Pen, measure: Measure) -> float:
    """Title, sizes, what the recipe says of itself and the fabrics; the height they take."""
    y = TITLE.size
    for line in wrapped(making.recipe.name, TITLE, PAGE_WIDTH):
        pen.text((0.0, y), line, TITLE)
        y += TITLE.size * LEADING
    for words in (_sizes(making, measure), making.recipe.about):
        for line in wrapped(words, TEXT, PAGE_WIDTH):
            pen.text((0.0, y), line, TEXT)
            y += TEXT.size * LEADING
    return _draw_fabrics(making, fabrics, pen, y) + SPACE


def _sizes(making: Making, measure: Measure) -> str:
    made = _facts_or_fault(making)
    if isinstance(made, PiecewrightError):
        return made.sentence(measure)
    sizes = message("render.block-sizes", unfinished=made.unfinished, finished=made.finished, seam=made.seam)
    return sizes.text(measure)


def _draw_fabrics(making: Making, fabrics: Letters, pen: Pen, y: float) -> float:
    """A swatch with letter and name for every fabric; layers of a stack in their order."""
    x, side = 0.0, 0.26
    for letter in making.recipe.letters:
        count = min(making.recipe.stack, len(fabrics.get(letter, ())) or making.recipe.stack)
        chosen = [fabric_of(fabrics, letter, layer) for layer in range(count)]
        name = ", ".join(dict.fromkeys(fabric.name for fabric in chosen))
        words = letter if name == letter else message("render.fabric", letter=letter, name=name).text()
        width = side * count + 0.08 + text_width(words, SMALL) + 0.25
        if x and x + width > PAGE_WIDTH:
            x, y = 0.0, y + side + 0.1
        for index, fabric in enumerate(chosen):
            left = x + index * side
            square = [(left, y), (left + side, y), (left + side, y + side), (left, y + side)]
            with pen.framed(Motion(dx=left, dy=y), 1 / 3):
                pen.polygon([(0, 0), (3 * side, 0), (3 * side, 3 * side), (0, 3 * side)], ClothFill(fabric))
            pen.polygon(square, None, RAW_EDGE)
        pen.text((x + side * count + 0.08, y + side / 2 + SMALL.size * 0.36), words, SMALL)
        x += width
    return y + side
