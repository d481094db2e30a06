"""Any edits at the table, of all verbs, in any order: a block, or a step that is named; nothing lost or thrown."""

import copy
import json
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import PiecewrightError
from piecewright.making.draft import (
    Draft,
    insert_step,
    loose_pieces,
    move_step,
    remove_step,
    rename_step,
    replace_step,
    with_length,
)
from piecewright.making.given import Given
from piecewright.making.nudging import lengths_of_step
from piecewright.making.run import Making, facts_of
from piecewright.making.suggesting import WAYS, suggested_step
from piecewright.making.verbs import VERBS
from tests.core.making.building import Plain, cut, lay, sew, sliced, turn

DOINGS = [(verb, way) for verb in VERBS for way in (None, *WAYS.get(verb, ()))]
"""Every verb in every way it can be done."""

START: Plain = {
    "recipe": 1,
    "name": "On the table",
    "sizes": {"F": ["6"]},
    "stack": 2,
    "steps": [
        lay("a", "A", "2 1/2", "F"),
        lay("b", "B", "2 1/2", "F"),
        lay("c", "C", "2 1/2", "2 1/2"),
        sew("set", ["a", "b"], "down"),
    ],
    "block": ["set"],
}


def making_before(plain: Plain, at: int) -> Making | None:
    return Draft.of({**plain, "steps": plain["steps"][:at]}).making(Given()) if at else None


def inserted(plain: Plain, at: int, doing: tuple[str, str | None]) -> Plain:
    making = making_before(plain, at)
    step = suggested_step(plain, doing[0], loose_pieces(making), making, doing[1])
    return insert_step(plain, at, step, making)


def length_changed(plain: Plain, at: int, text: str) -> Plain:
    """Another length where the step has its first; the same where it has none or can not be read."""
    shown = Draft.of(plain).shown
    if shown is None or at >= len(shown.steps):
        return plain
    for place, _ in lengths_of_step(shown.steps[at], at):
        return with_length(plain, at, place.key, text, place.index)
    return plain


TEXTS = ["0", "1/8", "1", "2 1/2", "F", "100", "-1", "x", "", "1/0", "usable + 1"]


@st.composite
def edits(draw: st.DrawFn) -> Callable[[Plain], Plain]:
    """One edit at the table, anywhere."""
    doing, share = draw(st.sampled_from(DOINGS)), draw(st.integers(0, 40))
    kind = draw(st.sampled_from(["insert"] * 4 + ["remove", "move", "replace", "rename", "length"]))
    other, text = draw(st.integers(0, 40)), draw(st.sampled_from(TEXTS))

    def edit(plain: Plain) -> Plain:
        count = len(plain["steps"])
        if kind == "insert" or not count:
            # mostly at the end, where pieces lie loose
            return inserted(plain, count if share > 20 else share % (count + 1), doing)
        at, to = share % count, other % count
        changes: dict[str, Callable[[], Plain]] = {
            "remove": lambda: remove_step(plain, at),
            "move": lambda: move_step(plain, at, to),
            "replace": lambda: replace_step(
                plain, at, suggested_step(plain, doing[0], ("a", "set"), None, doing[1])
            ),
            "rename": lambda: rename_step(plain, at, draw_name(text)),
            "length": lambda: length_changed(plain, at, text),
        }
        return changes[kind]()

    return edit


def draw_name(text: str) -> str:
    return "other" if text in ("F", "100") else text


def assert_told(draft: Draft) -> None:
    """The draft is a block, or says at which step or place it is none; what works before that is in view."""
    making = draft.making(Given())
    if draft.fault is not None:
        assert str(draft.fault)
        assert draft.fault_step is None or 0 <= draft.fault_step < len(draft.steps)
        assert draft.fault_step is not None or draft.fault.where
    if making is None:
        return
    if making.fault is not None:
        assert making.fault.where.startswith(f"steps[{len(making.outcomes)}]")
        return
    assert len(making.outcomes) == len(making.recipe.steps)
    if draft.sound is not None:
        assert_block(making)


def assert_block(making: Making) -> None:
    """Blocks that account for all their cloth, or the place in `block` that is none."""
    try:
        ledger = facts_of(making).ledger
    except PiecewrightError as fault:
        if not fault.where.startswith(("block", "finished")):
            raise
    else:
        assert abs(float(ledger.laid - ledger.seen - ledger.allowance - ledger.waste)) < 1e-6


@given(st.lists(edits(), min_size=1, max_size=12))
def test_edits_keep_a_block_or_a_named_step_and_can_be_undone(walk: list[Callable[[Plain], Plain]]) -> None:
    plain = copy.deepcopy(START)
    undo = [(json.dumps(plain), Draft.of(plain))]
    for edit in walk:
        before = json.dumps(plain)
        changed = edit(plain)
        assert json.dumps(plain) == before
        draft = Draft.of(changed)
        assert_told(draft)
        assert draft.plain == changed
        plain = changed
        undo.append((json.dumps(plain), draft))
    for text, draft in reversed(undo):
        assert Draft.of(json.loads(text)) == draft


@pytest.mark.parametrize(("verb", "way"), DOINGS)
def test_a_step_of_every_verb_in_every_way_works_where_it_can(verb: str, way: str | None) -> None:
    """On a table that has what it takes, as suggested, nothing told but the verb."""
    steps: list[Any] = [lay("c", "C", "3", "6"), lay("a", "A", "2 1/2", "8"), lay("b", "B", "2 1/2", "8")]
    if verb == "corner":
        steps.append(lay("s", "S", "2", "2"))
    if verb in ("open", "unpick", "finish"):
        steps.append({"open": _pair(), "unpick": _tube(), "finish": _partial()}[verb])
    if verb == "press":
        steps.append(sew("set", ["a", "b"], "down"))
    if way == "level":
        steps.append(cut("lean", "b", "across", every="2", count="fit", angle=30))
    if way == "edge":
        steps.append(sliced("side", "b", ("top", "3"), ("bottom", "5")))
    if way == "leave":
        steps.append(lay("m", "M", "4", "4"))
    plain = {**START, "steps": steps, "block": ["c"]}
    changed = inserted(plain, len(steps), (verb, way))
    making = Draft.of(changed).making(Given())
    assert making is not None
    if verb == "finish":
        assert making.fault is not None
        assert "making.finish-unlike" in making.fault.message.code
    else:
        assert making.fault is None
        assert len(making.outcomes) == len(steps) + 1


def _pair() -> Plain:
    return {"make": "pair", "face": ["a", "b"], "seams": [{"from": ["left", "1/4"], "to": ["right", "1/4"]}]}


def _tube() -> Plain:
    return {"make": "tube", "loop": "a", "axis": "across"}


def _partial() -> Plain:
    return sew("w", ["a", "c"], "down", leave=["left", "2"])


def test_a_partial_seam_is_finished_as_suggested() -> None:
    steps = [
        lay("c", "C", "3", "3"),
        lay("a", "A", "2 1/2", "5"),
        sew("w", ["a", "c"], "down", leave=["left", "1 1/2"]),
        lay("d", "D", "2 1/2", "3"),
        turn("u", "d", 90),
        sew("x", ["u", "w"], "across"),
    ]
    changed = inserted({**START, "steps": steps, "block": ["x"]}, len(steps), ("finish", None))
    making = Draft.of(changed).making(Given())
    assert making is not None
    assert making.fault is None
    assert changed["block"] == ["finished"]


def test_a_corner_put_in_between_is_what_follows_uses() -> None:
    steps = [lay("a", "A", "2 1/2", "6"), lay("s", "S", "2", "2"), lay("b", "B", "2 1/2", "6")]
    plain = {**START, "steps": [*steps, sew("set", ["a", "b"], "down")]}
    changed = inserted(plain, 2, ("corner", None))
    assert changed["steps"][-1]["sew"] == ["cornered", "b"]
    making = Draft.of(changed).making(Given())
    assert making is not None
    assert making.fault is None


def test_a_new_name_is_used_everywhere() -> None:
    steps = [*START["steps"], {"press": {"seam": "set", "toward": "up"}}]
    steps += [{"make": "p", "cut": "set", "axis": "across", "into": 2}, sew("t", ["p.*"], "across")]
    plain = {**START, "steps": steps, "block": ["t"]}
    changed = rename_step(rename_step(rename_step(plain, 3, "rails"), 5, "half"), 6, "whole")
    assert [step.get("sew") or step.get("cut") or step.get("press") for step in changed["steps"][4:]] == [
        {"seam": "rails", "toward": "up"},
        "rails",
        ["half.*"],
    ]
    assert changed["block"] == ["whole"]
    assert Draft.of(changed).sound is not None
