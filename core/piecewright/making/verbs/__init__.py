"""The verbs of a recipe, one file each, in one explicit table."""

from collections.abc import Mapping
from types import MappingProxyType

from piecewright.making.verbs.corner import CORNER
from piecewright.making.verbs.cut import CUT
from piecewright.making.verbs.face import FACE
from piecewright.making.verbs.finish import FINISH
from piecewright.making.verbs.lay import LAY
from piecewright.making.verbs.loop import LOOP
from piecewright.making.verbs.open import OPEN
from piecewright.making.verbs.press import PRESS
from piecewright.making.verbs.sew import SEW
from piecewright.making.verbs.shuffle import SHUFFLE
from piecewright.making.verbs.slice import SLICE
from piecewright.making.verbs.square import SQUARE
from piecewright.making.verbs.turn import TURN
from piecewright.making.verbs.unpick import UNPICK
from piecewright.making.verbs.use import USE
from piecewright.making.verbs.verb import Verb

_VERBS = (LAY, SEW, CUT, SLICE, TURN, SHUFFLE, SQUARE, CORNER, FACE, OPEN, LOOP, UNPICK, FINISH, USE, PRESS)

VERBS: Mapping[str, Verb] = MappingProxyType({verb.word: verb for verb in _VERBS})
"""Every verb by the key that names it in a step."""
