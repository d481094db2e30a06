"""Units made anew from the cut sizes that are published for them, one function for each way of making."""

from fractions import Fraction
from itertools import pairwise
from math import atan2, cos, dist, sin, sqrt
from typing import Any

from shapely import Polygon  # type: ignore[import-untyped]  # it ships without types

from piecewright.making.cloth import Cloth
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts, run

Plain = dict[str, Any]


def made(steps: list[Plain], block: list[str], seam: str = "1/4") -> Facts:
    """What comes out of steps."""
    plain = {"recipe": 1, "name": "Published", "seam": seam, "steps": steps, "block": block}
    return facts(Recipe.from_plain(plain), Given())


def text(length: float) -> str:
    """A length as a recipe writes it, to far below what a ruler shows."""
    return f"{length:.12f}"


def square(name: str, fabric: str, side: float) -> Plain:
    """Lay a square."""
    return {"make": name, "lay": {"fabric": fabric, "width": text(side), "length": text(side)}}


def finished(found: Facts) -> tuple[float, float]:
    """Finished width and height, inches."""
    return float(found.finished.width), float(found.finished.height)


def half_squares(cut: float) -> Facts:
    """Two half-square triangles from two squares."""
    falling = {"from": ["top", "0"], "to": ["bottom", text(cut)]}
    steps: list[Plain] = [
        square("a", "A", cut),
        square("b", "B", cut),
        {"make": "pair", "face": ["a", "b"], "seams": [{**falling, "beside": "seam"}]},
        {"make": "half", "slice": "pair", **falling},
        {"make": "unit", "open": "half.*"},
    ]
    return made(steps, ["unit.*"])


def eight_half_squares(cut: float) -> Facts:
    """Eight half-square triangles from two squares, sewn on both sides of both diagonals."""
    half, side = text(cut / 2), text(cut)
    seams = [
        {"from": ["top", "0"], "to": ["bottom", side], "beside": "seam"},
        {"from": ["top", side], "to": ["bottom", "0"], "beside": "seam"},
    ]
    ends = {"q1.1": ("0", "right"), "q1.2": (half, "left"), "q2.1": (half, "left"), "q2.2": ("0", "right")}
    steps: list[Plain] = [
        square("a", "A", cut),
        square("b", "B", cut),
        {"make": "pair", "face": ["a", "b"], "seams": seams},
        {"make": "row", "cut": "pair", "axis": "down", "every": half, "count": 2},
        {"make": "q1", "cut": "row.1", "axis": "across", "every": half, "count": 2},
        {"make": "q2", "cut": "row.2", "axis": "across", "every": half, "count": 2},
        *(
            {"make": f"t{n}", "slice": quarter, "from": ["top", start], "to": [side_name, half]}
            for n, (quarter, (start, side_name)) in enumerate(ends.items())
        ),
        *({"make": f"u{n}", "open": f"t{n}.*"} for n in range(4)),
    ]
    return made(steps, [f"u{n}.*" for n in range(4)])


def quarter_squares(cut: float) -> Facts:
    """Four quarter-square triangles: half-square units faced again, seams across each other, sewn, cut, opened."""
    unit = cut - sqrt(2) / 4
    falling = {"from": ["top", "0"], "to": ["bottom", text(cut)]}
    rising = {"from": ["top", text(unit)], "to": ["bottom", "0"]}
    steps: list[Plain] = [
        square("a", "A", cut),
        square("b", "B", cut),
        {"make": "pair", "face": ["a", "b"], "seams": [{**falling, "beside": "seam"}]},
        {"make": "half", "slice": "pair", **falling},
        {"make": "unit", "open": "half.*"},
        {"make": "over", "turn": "unit.2", "by": 270},
        {"make": "two", "face": ["unit.1", "over"], "seams": [{**rising, "beside": "seam"}]},
        {"make": "quarter", "slice": "two", **rising},
        {"make": "block", "open": "quarter.*"},
    ]
    return made(steps, ["block.*"])


def goose_of_triangles(large: float, small: float) -> Facts:
    """A goose sewn from a quarter of a large square and two halves of a small one, tips trimmed as they come."""
    half = text(large / 2)
    steps: list[Plain] = [
        square("a", "A", large),
        {"make": "q", "slice": "a", "from": ["top", "0"], "to": ["bottom", text(large)]},
        {"make": "t", "slice": "q.1", "from": ["bottom", "0"], "to": ["right", half]},
        square("b", "B", small),
        {"make": "h", "slice": "b", "from": ["top", "0"], "to": ["bottom", text(small)]},
        {
            "make": "one",
            "sew": ["t.1", "h.1"],
            "axis": "across",
            "edge": "cut",
            "align": "end",
            "flush": True,
        },
        {"make": "goose", "sew": ["one", "h.2"], "axis": "across", "edge": "cut", "align": "end"},
    ]
    return made(steps, ["goose"])


def square_of_triangles(center: float, corner: float) -> Facts:
    """A square with half a smaller square on each side, turned to stand on its side."""
    steps: list[Plain] = [square("p0", "A", center)]
    for number in range(2):
        steps += [
            square(f"c{number}", "B", corner),
            {
                "make": f"h{number}",
                "slice": f"c{number}",
                "from": ["top", "0"],
                "to": ["bottom", text(corner)],
            },
        ]
    for number, triangle in enumerate(("h0.1", "h0.2", "h1.1", "h1.2")):
        sewn = {"sew": [f"p{number}", triangle], "axis": "across", "edge": "cut", "align": "centre"}
        steps.append({"make": f"s{number}", **sewn, "flush": number < 2})
        turn = 90 if number == 1 else 45 if number == 3 else 180
        steps.append({"make": f"p{number + 1}", "turn": f"s{number}", "by": turn})
    return made(steps, ["p4"])


def half_rectangles(cut: tuple[float, float], size: tuple[float, float]) -> Facts:
    """Two triangles of rectangles cut from corner to corner, sewn so that finished corners meet, squared up."""
    width, height = cut
    slope = atan2(height, width)
    shift = 0.25 * (1 / cos(slope) - 1 / sin(slope))
    steps: list[Plain] = []
    for name, fabric in (("a", "A"), ("b", "B")):
        laid = {"fabric": fabric, "width": text(height), "length": text(width)}
        corners = {"from": ["top", "0"], "to": ["bottom", text(width)]}
        steps += [{"make": name, "lay": laid}, {"make": f"{name}s", "slice": name, **corners}]
    steps += [
        {
            "make": "joined",
            "sew": ["as.1", "bs.2"],
            "axis": "across",
            "edge": "cut",
            "align": "centre",
            "step": f"{shift:.12f}",
        },
        {"make": "block", "square": "joined", "width": text(size[0] + 0.5), "height": text(size[1] + 0.5)},
    ]
    return made(steps, ["block"])


def goose(width: float, height: float, left: float, right: float) -> Facts:
    """One flying goose: a rectangle with a square sewn over two corners."""
    steps: list[Plain] = [
        {"make": "a", "lay": {"fabric": "A", "width": text(width), "length": text(height)}},
        square("l", "B", left),
        square("r", "B", right),
        {"make": "half", "corner": "a", "with": "l", "at": "top left"},
        {"make": "goose", "corner": "half", "with": "r", "at": "top right"},
    ]
    return made(steps, ["goose"])


def square_in_a_square(side: float, corner: float) -> Facts:
    """A square with a smaller one sewn over each corner."""
    steps: list[Plain] = [square("p0", "A", side)]
    for number, at in enumerate(("top left", "top right", "bottom right", "bottom left")):
        steps.append(square(f"c{number}", "B", corner))
        steps.append({"make": f"p{number + 1}", "corner": f"p{number}", "with": f"c{number}", "at": at})
    return made(steps, ["p4"])


def log_cabin(center: float, strips: list[float], logs: int) -> tuple[Facts, list[Fraction]]:
    """A square with logs round it, two to a side's turn; the length that each log has to be cut, center first.

    `strips` are the widths of the four sides' logs: right, bottom, left, top.
    """
    steps: list[Plain] = [square("p0", "A", center)]
    width = height = Fraction(text(center))
    lengths = [width]
    for number in range(logs):
        strip = Fraction(text(strips[number % 4]))
        along = height if number % 2 == 0 else width
        lengths.append(along)
        steps.append(
            {"make": f"l{number}", "lay": {"fabric": "B", "width": str(strip), "length": str(along)}}
        )
        log = f"l{number}"
        if number % 2 == 0:
            steps.append({"make": f"t{number}", "turn": log, "by": 90})
            log, width = f"t{number}", width + strip - Fraction(1, 2)
        else:
            height += strip - Fraction(1, 2)
        pieces = [f"p{number}", log] if number % 4 < 2 else [log, f"p{number}"]
        axis = "across" if number % 2 == 0 else "down"
        steps.append({"make": f"p{number + 1}", "sew": pieces, "axis": axis})
    return made(steps, [f"p{logs}"]), lengths


def rails(width: float, count: int) -> Facts:
    """Strips sewn side by side, cut as high as the set."""
    high = count * (Fraction(text(width)) - Fraction(1, 2)) + Fraction(1, 2)
    laid = [
        {"make": f"s{n}", "lay": {"fabric": "A", "width": text(width), "length": str(high)}}
        for n in range(count)
    ]
    return made([*laid, {"make": "set", "sew": [f"s{n}" for n in range(count)], "axis": "down"}], ["set"])


def diamonds(strip: float, every: float) -> Cloth:
    """The second of three diamonds of 60 degrees from a strip."""
    laid = {"fabric": "A", "width": text(strip), "length": "20"}
    cuts = {"cut": "a", "axis": "across", "every": text(every), "count": 3, "angle": 30}
    plain = {"recipe": 1, "name": "Diamonds", "steps": [{"make": "a", "lay": laid}, {"make": "d", **cuts}]}
    (cloth,) = run(Recipe.from_plain({**plain, "block": ["d.2"]}), Given()).table.piles["d.2"]
    return cloth


def one_patch(steps: list[Plain], name: str) -> Polygon:
    """The outline of a piece of one patch."""
    plain = {"recipe": 1, "name": "Published", "steps": steps, "block": [name]}
    (cloth,) = run(Recipe.from_plain(plain), Given()).table.piles[name]
    (patch,) = cloth.patches
    return Polygon(patch.seen.points)


def height_inside(shape: Polygon, seam: float = 0.25) -> float:
    """How high a patch is once every edge of it is sewn."""
    _, top, _, bottom = shape.buffer(-seam, join_style="mitre").bounds
    return float(bottom - top)


def snowball(size: float, leg: float) -> list[float]:
    """The finished sides of a square whose corners, `leg` long when finished, are sewn over."""
    steps: list[Plain] = [square("p0", "A", size + 0.5)]
    for number, at in enumerate(("top left", "top right", "bottom right", "bottom left")):
        steps.append(square(f"c{number}", "B", leg + 0.5))
        steps.append({"make": f"p{number + 1}", "corner": f"p{number}", "with": f"c{number}", "at": at})
    (kind,) = made(steps, ["p4"]).kinds
    (center,) = (patch for patch in kind.patches if patch.fabric == "A")
    return [dist(*ends) for ends in pairwise((*center.points, center.points[0]))]
