"""Whole pictures as SVG text: of a recipe's steps, of a quilt."""

from math import ceil

from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import run
from piecewright.model.design import Design
from piecewright.plan.layout import layout
from piecewright.render.cloth import Letters
from piecewright.render.layout import Draw
from piecewright.render.step_picture import draw_steps
from piecewright.render.svg_pen import svg_picture
from piecewright.render.wall_picture import draw_quilt
from piecewright.units.measure import Measure
from piecewright.words.message import message

EXACT = Measure()
RECIPE_MARGIN = 0.5  # inches of paper
QUILT_MARGIN = 1.0  # inches of quilt
_LARGEST = 10  # inches of paper that a quilt's longer side takes at most


def recipe_drawing(
    recipe: Recipe, given: Given, fabrics: Letters | None = None, measure: Measure = EXACT
) -> Draw:
    """Every step of a recipe as a drawing in inches of paper. Raises RecipeError and MakingError as `run`."""
    making = run(recipe, given)
    return lambda pen: draw_steps(making, fabrics or {}, pen, measure)


def recipe_picture(
    recipe: Recipe, given: Given, fabrics: Letters | None = None, measure: Measure = EXACT
) -> str:
    """Every step of a recipe as an SVG file; letters without fabrics get stand-ins. Raises as the drawing."""
    return svg_picture(
        recipe_drawing(recipe, given, fabrics, measure), margin=RECIPE_MARGIN, title=recipe.name
    )


def quilt_drawing(design: Design) -> Draw:
    """The arrangement in view as a drawing in inches of quilt."""
    return lambda pen: draw_quilt(design, pen)


def quilt_scale(design: Design) -> float:
    """Inches of paper per inch of quilt: one to a whole number, the longer side within ten inches."""
    size = layout(design).size.unfinished
    return 1 / max(1, ceil(max(size.width, size.height) / _LARGEST))


def quilt_picture(design: Design, measure: Measure = EXACT) -> str:
    """The arrangement in view as an SVG file."""
    title = message("render.quilt", name=design.name, size=layout(design).size.finished).text(measure)
    return svg_picture(quilt_drawing(design), quilt_scale(design), QUILT_MARGIN, title)
