"""What the accounts of the plan are kept by: small frozen keys with an order, hashed once."""

from fractions import Fraction

import msgspec

UNCHOSEN = "?"
"""Begins the stand-in for a fabric that a letter has not been given yet: "?A"."""

FabricsByLetter = tuple[tuple[str, tuple[str, ...]], ...]
"""Letters in order of first use, each with its fabric id in every layer of the stack."""


class Key(msgspec.Struct, frozen=True, order=True, cache_hash=True):
    """Compared field by field."""


class Lane(Key, frozen=True):
    """One strip of a set: fabric id, cut width in inches, grain ("crosswise", "lengthwise", "bias")."""

    fabric: str
    width: Fraction
    grain: str


class SetKey(Key, frozen=True):
    """What strip sets must have in common to be one: the strips in order.

    A set turned end for end is the same set, unless one of its prints is one-way.
    """

    lanes: tuple[Lane, ...]


class BatchKey(Key, frozen=True):
    """One making: recipe id, sizes and draws by name, and the fabric ids of each letter by layer."""

    recipe: str
    sizes: tuple[tuple[str, Fraction], ...]
    draws: tuple[tuple[str, Fraction], ...]
    fabrics: FabricsByLetter


class RoleKey(Key, frozen=True):
    """What a placed block is: block id, which of its batch, and its fabrics, replaced letters included."""

    block: str
    kind: int
    layer: int
    fabrics: FabricsByLetter


class StripKey(Key, frozen=True):
    """Strips that leave the ruler alike.

    Crosswise strips run from selvage to selvage and have no `run`; others are cut `run` inches long.
    """

    fabric: str
    width: Fraction
    grain: str
    run: Fraction


class BiasKey(Key, frozen=True):
    """Bias edges that are told together: fabric id, outer edge of the block or inside, name of the band."""

    fabric: str
    outer: bool
    band: str
