"""The facts of a block as plain JSON: the keys of the recipe format's "What comes out", numbers in inches."""

from collections.abc import Iterable

from piecewright.geometry.motion import Number, Point
from piecewright.making.facts import Facts, Kind
from piecewright.units.sizes import Size

_PLACES = 9


def report(facts: Facts) -> dict[str, object]:
    """The facts as dicts and lists; whole numbers stay whole, others are floats to 1e-9."""
    return {
        "name": facts.name,
        "sizes": {name: _number(value) for name, value in facts.sizes.items()},
        "seam": _number(facts.seam),
        "unfinished": _size(facts.unfinished),
        "finished": _size(facts.finished),
        "blocks": facts.blocks,
        "strips": [
            {
                "fabric": strip.fabric,
                "width": _number(strip.width),
                "length": _number(strip.length),
                "count": strip.count,
                "grain": strip.grain,
                "least": strip.least,
            }
            for strip in facts.strips
        ],
        "kinds": [_kind(kind) for kind in facts.kinds],
        "ledger": {
            key: _number(getattr(facts.ledger, key)) for key in ("laid", "seen", "allowance", "waste")
        },
        "warnings": [
            {"code": warning.code, "step": warning.step, "text": str(warning.message)}
            for warning in facts.warnings
        ],
    }


def _kind(kind: Kind) -> dict[str, object]:
    return {
        "blocks": list(kind.blocks),
        "layers": list(kind.layers),
        "patches": [
            {
                "fabric": patch.fabric,
                "layer": patch.layer,
                "points": _points(patch.points),
                "grain_deg": _number(patch.grain_deg),
            }
            for patch in kind.patches
        ],
        "area_by_fabric": {letter: _number(area) for letter, area in kind.area_by_fabric.items()},
        "bias_edges": [
            {
                "fabric": edge.fabric,
                "length": _number(edge.length),
                "degrees": _number(edge.degrees),
                "outer": edge.outer,
            }
            for edge in kind.bias_edges
        ],
        "seams": [
            {"step": seam.step, "length": _number(seam.length), "pressed": seam.pressed}
            for seam in kind.seams
        ],
    }


def _points(points: Iterable[Point]) -> list[list[int | float]]:
    return [[_number(x), _number(y)] for x, y in points]


def _size(size: Size) -> list[int | float]:
    return [_number(size.width), _number(size.height)]


def _number(value: Number) -> int | float:
    """A number as JSON has it; rounding noise past a slant is not shown."""
    near = round(float(value), _PLACES) if isinstance(value, float) else float(value)
    return int(near) if near.is_integer() else near
