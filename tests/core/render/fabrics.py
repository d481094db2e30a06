"""Fabrics that pictures are tested with."""

from fractions import Fraction
from typing import get_args

from piecewright.model.fabric import Fabric, Print, PrintKind

KINDS: tuple[PrintKind, ...] = get_args(PrintKind)

STRIPED = Fabric(
    id="f1",
    name="Ticking",
    color="#f4f0e6",
    print=Print(kind="stripes", inks=("#23405a",), scale=Fraction(1, 2)),
)
PLAIN = Fabric(id="f2", name="Oat", color="#d9c3a0")


def printed(
    kind: PrintKind,
    inks: tuple[str, ...] = ("#b5443c", "#5f7a52", "#d9a441"),
    scale: str = "1",
    turn: int = 0,
) -> Fabric:
    return Fabric(
        id="f3",
        name=kind,
        color="#f4ead8",
        print=Print(kind=kind, inks=inks, scale=Fraction(scale), turn=turn),
    )
