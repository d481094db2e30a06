"""Names for what is new: the one wanted, or with a number where it is taken."""

from collections.abc import Iterable
from itertools import count

from piecewright.model.limits import LONGEST_NAME
from piecewright.words.message import message

_ROOM = 12


def free_name(wanted: str, taken: Iterable[str]) -> str:
    """The wanted name, or the first of "name (2)", "name (3)", ... that nothing has yet, in whatever case."""
    known = {name.casefold() for name in taken}
    if wanted.casefold() not in known:
        return wanted
    short = wanted[: LONGEST_NAME - _ROOM]
    names = (str(message("shelf.copy-name", name=short, number=number)) for number in count(2))
    return next(name for name in names if name.casefold() not in known)
