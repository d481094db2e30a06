"""Proof that the checks bite: wherever a seam, a sign or a turn is flipped in the engine, one of them fails."""

from collections.abc import Callable, Iterator
from fractions import Fraction
from inspect import signature
from typing import Any

import pytest

from piecewright.geometry import carrying, half, shapes
from piecewright.geometry.motion import Motion
from piecewright.making import (
    cloth,
    edge_joining,
    end_to_end,
    finishing,
    joining,
    kinds,
    leaving,
    partial_seams,
    pressing,
    rulers,
)
from piecewright.making.verbs import corner, face, lay, loop, sew, shuffle, square, turn, unpick, use
from piecewright.making.verbs import cut as cutting
from piecewright.making.verbs import open as opening
from piecewright.making.verbs import slice as slicing
from tests.core.making import (
    test_outcomes,
    test_values,
    test_verbs,
    test_verbs_corner,
    test_verbs_cutting,
    test_verbs_edges,
    test_verbs_face,
    test_verbs_join,
    test_verbs_leaning,
    test_verbs_loop,
    test_verbs_partial,
    test_verbs_turning,
    test_verbs_use,
)
from tests.core.making.building import forget

MODULES = (
    test_values,
    test_verbs,
    test_verbs_cutting,
    test_outcomes,
    test_verbs_corner,
    test_verbs_edges,
    test_verbs_face,
    test_verbs_join,
    test_verbs_leaning,
    test_verbs_loop,
    test_verbs_partial,
    test_verbs_turning,
    test_verbs_use,
)
"""Whose tests must bite; those with random examples are left out, for a flip may break anything in any way."""

Replace = Callable[[Any], Any]


@pytest.fixture(autouse=True)
def _made_anew() -> Iterator[None]:
    """No making from before a flip is taken for one after it, or the other way round."""
    forget()
    yield
    forget()


def checks() -> Iterator[Callable[[], None]]:
    """Every test of values, verbs and outcomes, once for each of its parameters."""
    for module in MODULES:
        for name, check in vars(module).items():
            if name.startswith("test_") and not (hasattr(check, "hypothesis") or _asks_for_patches(check)):
                yield from (lambda check=check, given=given: check(**given) for given in parameters(check))


def _asks_for_patches(check: Callable[..., None]) -> bool:
    return "monkeypatch" in signature(check).parameters


def parameters(check: Callable[..., None]) -> Iterator[dict[str, Any]]:
    """The arguments that pytest would call a check with."""
    marks = [mark for mark in getattr(check, "pytestmark", ()) if mark.name == "parametrize"]
    if not marks:
        yield {}
    for mark in marks:
        names, rows = mark.args
        for row in rows:
            yield {names: row} if isinstance(names, str) else dict(zip(names, row, strict=True))


def failing() -> int:
    """How many checks fail now."""
    count = 0
    for check in checks():
        forget()
        try:
            check()
        except (Exception, pytest.fail.Exception):  # noqa: BLE001 - a flip may break anything
            count += 1
    return count


def test_nothing_fails_as_it_is() -> None:
    assert failing() == 0


def backward(join: Any) -> Any:
    """Sew downward pieces from the last to the first."""

    def flipped(cloths: Any, plan: Any, hand: Any) -> Any:
        return join(cloths[::-1] if plan.axis == "down" else cloths, plan, hand)

    return flipped


def other_end(align: Any) -> Any:
    ends = {"start": "end", "end": "start"}
    return lambda *edges: align(*edges[:4], ends.get(edges[4], edges[4]))


def without_slant(_shift: Any) -> Any:
    return lambda _edge, plan: 2 * plan.depth


def reversed_corner(place: Any) -> Any:
    """Find the corner to measure from on the other side."""
    corners = {"top left": "bottom right", "bottom right": "top left"}

    def flipped(step: Any, piece: Any, name: Any, hand: Any) -> Any:
        start = corners.get(step.from_, step.from_)
        fields = {key: getattr(step, key) for key in ("make", "square", "width", "height")}
        return place(square.Square(**fields, from_=start), piece, name, hand)

    return flipped


def other_side(seam: Any) -> Any:
    """Take the corner for the body of the piece."""

    def flipped(rect: Any, at: str) -> Any:
        line, body = seam(rect, at)
        return line, body.opposite

    return flipped


FLIPS: dict[str, tuple[object, str, Replace]] = {
    "a seam gives cloth instead of taking it": (half.Half, "shrunk", lambda f: lambda self, by: f(self, -by)),
    "pieces are moved apart by a seam": (joining, "seam_shift", lambda f: lambda edge, plan: -f(edge, plan)),
    "one allowance is taken, not two": (
        joining,
        "_next_to",
        lambda f: (
            lambda *given: tuple(
                move + (given[3].depth if axis == 0 else 0) for axis, move in enumerate(f(*given))
            )
        ),
    ),
    "a turn runs counterclockwise": (turn, "turned", lambda f: lambda piece, by: f(piece, -by)),
    "a turn is left out": (turn, "turned", lambda _f: lambda piece, _by: piece),
    "a turn forgets the thread": (shapes.Placing, "motion", lambda _f: lambda _self, came: came),
    "start and end are exchanged": (joining, "aligned", other_end),
    "a step goes backward": (
        joining.Plan,
        "step",
        lambda f: property(lambda self: f.__get__(self) and -f.__get__(self)),
    ),
    "a shuffle moves the bottom to the top": (
        shuffle,
        "restacked",
        lambda f: lambda pile, by, stack: f(pile, (stack - by) % stack, stack),
    ),
    "a shuffle leaves the fabrics where they were": (
        shuffle,
        "lowered",
        lambda _f: lambda piece, _by, _stack: piece,
    ),
    "parts of a slice are exchanged": (slicing, "_first_part", lambda f: lambda *given: f(*given).opposite),
    "matched points are moved square to the seam": (joining, "seam_shift", without_slant),
    "a strip has its thread the other way": (
        lay,
        "_THREADS",
        lambda _threads: {"crosswise": 0, "lengthwise": 90, "bias": 135},
    ),
    "y runs up": (sew, "join", backward),
    "the first cut is made at the far end": (
        cutting,
        "_cut_up",
        lambda f: lambda *given: (f(*given)[0][::-1], f(*given)[1]),
    ),
    "a corner is measured from the other one": (square, "_placed", reversed_corner),
    "the outer allowance stays in sight": (
        finishing,
        "hidden",
        lambda _f: lambda patches, _line: (patches, []),
    ),
    "the angle to the thread is that to the seam": (
        kinds,
        "off_thread",
        lambda f: lambda start, end, _grain: f(start, end, 30),
    ),
    "pressing is not turned with the cloth": (pressing, "_turned", lambda _f: lambda way, _seam: way),
    "in and out are exchanged": (
        pressing,
        "settled",
        lambda f: lambda toward, *given: f({"in": "out", "out": "in"}.get(toward, toward), *given),
    ),
    "a corner is folded toward the piece": (corner, "_seam", other_side),
    "a corner's square is laid face up": (
        corner,
        "carried_cloth",
        lambda f: lambda cloth, motion: f(cloth, Motion(dx=motion.dx - cloth.box.width, dy=motion.dy)),
    ),
    "a corner is trimmed in the seam": (
        corner,
        "_fold",
        lambda f: lambda *given: (lambda fold: fold._replace(kept=fold.body))(f(*given)),
    ),
    "the seam of a corner is pressed to the other side": (
        corner,
        "Sewn",
        lambda f: lambda lines, out: f(lines, out={"left": "right", "right": "left"}[out]),
    ),
    "cuts lean counterclockwise": (
        cutting,
        "leaning_ruler",
        lambda f: lambda cloth, axis, lean: f(cloth, axis, -lean),
    ),
    "widths are measured along the edge": (
        rulers.LeaningRuler,
        "before",
        lambda f: lambda self, place: f(self, self.start + (place - self.start) * self.normal[self.along]),
    ),
    "a leaning cut begins at the very corner": (rulers, "max", lambda _f: min),
    "a turn by degrees runs counterclockwise": (
        turn,
        "_lying",
        lambda f: lambda piece, by, rest: f(piece, by, -rest),
    ),
    "the far end of a slanted edge is brought up": (
        turn,
        "outward_degrees",
        lambda f: lambda edge: -f(edge),
    ),
    "a leaning part forgets which edges were cut": (
        rulers.LeaningRuler,
        "line",
        lambda _f: lambda *_given: None,
    ),
    "a piece is turned the wrong way to fit an edge": (
        edge_joining,
        "outward_degrees",
        lambda f: lambda edge: -f(edge),
    ),
    "the wrong side of a flush end is trimmed": (
        edge_joining,
        "_side_at",
        lambda f: lambda *given: (lambda side: side and side.opposite)(f(*given)),
    ),
    "flush ends are left long": (
        edge_joining,
        "_flushed",
        lambda _f: lambda cloth, line, *_given: (cloth, line, []),
    ),
    "upper and lower ends are exchanged": (edge_joining, "aligned", other_end),
    "a recipe used keeps its own letters": (use._Renaming, "letter", lambda _f: lambda _self, inner: inner),
    "strips of a recipe used are numbered from nothing": (
        use,
        "Table",
        lambda f: lambda context, **_strips: f(context),
    ),
    "what a recipe used leaves over is forgotten": (use, "_left_over", lambda _f: lambda *_given: [[]]),
    "a join takes nothing": (lay, "taken_by_a_join", lambda _f: lambda *_given: Fraction(0)),
    "a diagonal seam rises": (
        end_to_end,
        "_line",
        lambda f: (
            lambda start, width, taken, how: f(
                start + width if how == "diagonal" else start,
                -width if how == "diagonal" else width,
                taken,
                how,
            )
        ),
    ),
    "a tube takes no seam": (loop, "hidden", lambda _f: lambda patches, _half: (patches, [])),
    "an unpicked seam gives nothing back": (
        unpick,
        "reopened",
        lambda _f: lambda patch, *_given: patch.seen,
    ),
    "what lies before the unpicked seam stays first": (
        unpick._Opening,
        "shift",
        lambda f: lambda self, before: f(self, before=not before),
    ),
    "the other piece is folded back at a partial seam": (
        leaving,
        "_first_is_body",
        lambda f: lambda *given: not f(*given),
    ),
    "a seam is left open at its other end": (
        leaving,
        "_from_side",
        lambda f: lambda line, side: f(line, side)[::-1],
    ),
    "a finished seam takes no cloth": (
        partial_seams,
        "hidden",
        lambda _f: lambda patches, _half: (list(patches), []),
    ),
    "a seam at the sewn end leaves the folded piece out": (
        joining,
        "catches",
        lambda _f: lambda *_given: False,
    ),
    "a seam at the open end is taken for one at the sewn end": (
        partial_seams,
        "role_of",
        lambda f: lambda *given: {"open": "sewn", "sewn": "open"}.get(f(*given), f(*given)),
    ),
    "the second piece is laid face up": (
        face,
        "carried_cloth",
        lambda f: lambda cloth, _motion: f(cloth, Motion()),
    ),
    "a seam beside a line is sewn on the line": (
        face,
        "_moved_aside",
        lambda _f: lambda line, _by: line,
    ),
    "pieces are opened the wrong way": (
        opening,
        "_larger_side",
        lambda f: lambda *given: (lambda body: body and body.opposite)(f(*given)),
    ),
    "pieces are opened without being folded back": (
        opening,
        "turned_over",
        lambda _f: lambda _line: Motion(),
    ),
    "cloth is folded over the other diagonal": (
        carrying,
        "_diagonal",
        lambda f: lambda run, rise: 180 - f(run, rise),
    ),
    "cloth that falls out of a seam is forgotten": (
        cloth,
        "_part_patch",
        lambda f: lambda patch, line, raw, kept, _loose: f(patch, line, raw, kept, []),
    ),
}


@pytest.mark.parametrize("flip", FLIPS)
def test_a_flip_is_found(flip: str, monkeypatch: pytest.MonkeyPatch) -> None:
    owner, name, replace = FLIPS[flip]
    monkeypatch.setattr(
        owner,
        name,
        replace(vars(owner)[name] if isinstance(owner, type) else getattr(owner, name, None)),
        raising=False,
    )
    assert failing() > 0
