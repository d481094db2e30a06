"""A walk of real edits for the tests of journals, each with the design that it gives."""

from collections.abc import Callable
from fractions import Fraction
from random import Random

from piecewright.edit.registry import EditCall, apply, call
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Batting, Binding, Border


def random_edits(design: Design, count: int, random: Random) -> list[tuple[EditCall, Design]]:
    """`count` edits, one after the other, that all change something."""
    walk: list[tuple[EditCall, Design]] = []
    while len(walk) < count:
        try:
            made = random.choice(_EDITS)(random)
            after = apply(design, made)
        except EditError:
            continue
        if after != design:
            walk.append((made, after))
            design = after
    return walk


def _fabric(random: Random) -> str:
    return f"f{random.randint(1, 4)}"


def _length(random: Random) -> Fraction:
    return Fraction(random.randint(1, 99), random.choice([1, 3, 8]))


_EDITS: tuple[Callable[[Random], EditCall], ...] = (
    lambda random: call(
        "change-fabric", fabric=Fabric(_fabric(random), f"Grün {random.randint(1, 9)}", "#00aa00")
    ),
    lambda random: call("switch-arrangement", index=random.randint(0, 1)),
    lambda random: call("set-binding", binding=Binding(_fabric(random), _length(random))),
    lambda random: call("set-batting", batting=Batting(_length(random))),
    lambda random: call("add-border", border=Border(_fabric(random), _length(random))),
    lambda random: call("remove-border", index=random.randint(0, 3)),
    lambda random: call("swap-fabrics", first=_fabric(random), second=_fabric(random)),
    lambda random: call("set-favorite", block="b6", favorite=random.random() < 0.5),
)
