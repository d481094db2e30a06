"""The pressing plan of the block in hand, in its own fabrics where a seam is pressed toward the darker."""

from piecewright.making.darker import darker_of, leaves_to_fabrics
from piecewright.making.pressing_plan import PressingPlan, plan_of
from piecewright.plan.pressing_of_block import shelf_lights
from piecewright_qt.sewing_table.numbers.reckoner import Question


def plan_for(question: Question) -> PressingPlan:
    """The same one for the same values. Raises RecipeError and MakingError as `plan_of` does."""
    recipe, given = question.recipe, question.given
    if not leaves_to_fabrics(recipe):
        return plan_of(recipe, given)
    return plan_of(recipe, given, darker_of(recipe, given, shelf_lights(question.design, question.block)))
