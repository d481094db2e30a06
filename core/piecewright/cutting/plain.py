"""Plain cutting, the trade's habit: each size in strips of its own, the better of its allowed turns."""

from piecewright.cutting.levels import on_sheets
from piecewright.cutting.problem import Face, Fill, Group, Lie, Problem, Solution, fill_of


def plain_solution(problem: Problem) -> Solution:
    """Each size in strips of its own from the source that costs; on sheets the better way of first cuts."""
    return min((_on_face(problem, index) for index in problem.open_faces), key=problem.score)


def _on_face(problem: Problem, index: int) -> Solution:
    face = problem.faces[index]
    fills = [
        strips
        for item, count in enumerate(problem.demand)
        if count
        for strips in _own_strips(face, item, count)
    ]
    return on_sheets(index, face, fills)


def _own_strips(face: Face, item: int, count: int) -> list[tuple[Fill, int]]:
    def cloth(lie: Lie) -> tuple[int, int]:
        return -(-count // (face.width // lie.across)) * lie.along, lie.along

    lie = min(face.lies_by_item[item], key=cloth)
    full, rest = divmod(count, face.width // lie.across)
    strips = []
    if full:
        strips.append((_strip(lie, face.width // lie.across), full))
    if rest:
        strips.append((_strip(lie, rest), 1))
    return strips


def _strip(lie: Lie, count: int) -> Fill:
    return fill_of([Group(lie.item, lie.across, lie.along, 1, count)])
