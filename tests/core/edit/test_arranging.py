"""Hanging blocks anew at once, and locks that hold against every way of moving a block."""

from typing import Any

import pytest

from piecewright.edit.arranging import Hung, arrange_blocks, lock_blocks
from piecewright.edit.footprint import all_laid
from piecewright.edit.registry import apply, call
from piecewright.errors import EditError
from tests.core.edit.quilts import RAILS, at, drawn, laid

MOVES: dict[str, tuple[str, dict[str, Any]]] = {
    "taken off": ("remove-blocks", {"cells": at((0, 0))}),
    "moved": ("move-blocks", {"cells": at((0, 0)), "columns": 3, "rows": 0}),
    "pushed": ("move-blocks", {"cells": at((1, 0)), "columns": -1, "rows": 0}),
    "swapped": ("swap-blocks", {"first": at((1, 0))[0], "second": at((0, 0))[0]}),
    "turned": ("turn-blocks", {"cells": at((0, 0)), "by": 90}),
    "replaced": ("place-block", {"block": RAILS, "cell": at((0, 0))[0], "turn": 90, "replace": True}),
    "arranged": ("arrange-blocks", {"lift": at((0, 0)), "lay": ()}),
}


@pytest.mark.parametrize("way", MOVES)
def test_a_locked_block_stays(way: str) -> None:
    free = laid("ro....", "......")
    name, arguments = MOVES[way]
    locked = lock_blocks(free, cells=at((0, 0)))
    with pytest.raises(EditError, match='"Rails" at column 1, row 1 is locked'):
        apply(locked, call(name, **arguments))
    assert apply(free, call(name, **arguments)) != free
    assert lock_blocks(locked, cells=at((0, 0)), locked=False) == free


def test_blocks_are_hung_anew_at_once() -> None:
    before = laid("rt....", "o-....")
    lifted = all_laid(before, before.quilt)
    hung = tuple(Hung(one.row, one.placement.changed(column=4 - one.column)) for one in lifted)
    after = arrange_blocks(before, lift=at(*(one[:2] for one in lifted)), lay=hung)
    assert drawn(after) == ("...tr.", "...-o.")


def test_what_would_meet_another_is_refused() -> None:
    before = laid("ro....")
    first = all_laid(before, before.quilt)[0]
    with pytest.raises(EditError, match='"Other rails" lies there'):
        arrange_blocks(before, lift=at((0, 0)), lay=(Hung(0, first.placement.changed(column=1)),))
