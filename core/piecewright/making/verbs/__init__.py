"""The verbs of a recipe, one file each, in one explicit table."""

from collections.abc import Mapping
from types import MappingProxyType

from piecewright.making.verbs.cut import Cut
from piecewright.making.verbs.lay import Lay
from piecewright.making.verbs.press import Press
from piecewright.making.verbs.sew import Sew
from piecewright.making.verbs.shuffle import Shuffle
from piecewright.making.verbs.slice import Slice
from piecewright.making.verbs.square import Square
from piecewright.making.verbs.turn import Turn
from piecewright.making.verbs.verb import Verb

_VERBS = (
    Verb("lay", Lay),
    Verb("sew", Sew),
    Verb("cut", Cut),
    Verb("slice", Slice),
    Verb("turn", Turn),
    Verb("shuffle", Shuffle),
    Verb("square", Square),
    Verb("press", Press),
)

VERBS: Mapping[str, Verb] = MappingProxyType({verb.word: verb for verb in _VERBS})
"""Every verb by the key that names it in a step."""
