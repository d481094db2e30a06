"""How rectangles are sewn together: straight seams through all of a part, as far as there are any.

In a rectangle any straight seam through leaves both sides as easy to part as before, so the first one found will do to
tell whether there is a way. Which way is nicest is settled after (see `nicest`).
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import lcm
from typing import Literal

from piecewright.geometry.shapes import Rect
from piecewright.sewing.lists import Bounds, Lists, Members
from piecewright.sewing.nicest import Bunch, Leaf, Node, Row, box_of, joined
from piecewright.sewing.unwieldy import largest_groups
from piecewright.sewing.walls import KnotSeam, knot_seams

Axis = Literal["across", "down"]


@dataclass(frozen=True, slots=True)
class Piece:
    """One of the rectangles, by its index."""

    index: int
    box: Rect


@dataclass(frozen=True, slots=True)
class Section:
    """Parts sewn in a row, from left to right ("across") or from top to bottom ("down")."""

    axis: Axis
    parts: "tuple[Assembly, ...]"
    box: Rect

    @property
    def seams(self) -> int:
        """How many seams join the parts."""
        return len(self.parts) - 1

    @property
    def seam_length(self) -> Fraction:
        """How long each of them is, finished inches."""
        return Fraction(self.box.height if self.axis == "across" else self.box.width)


@dataclass(frozen=True, slots=True)
class Knot:
    """Parts without a straight seam through: they can only be sewn with partial seams.

    `seams` are in the order of sewing, empty where gaps among the parts leave that open; their numbers are those of
    `parts`.
    """

    parts: "tuple[Assembly, ...]"
    box: Rect
    seams: tuple[KnotSeam, ...]


Assembly = Piece | Section | Knot
"""A part of the whole; sewn, it is a rectangle wherever the pieces leave no gap."""


def assemble(rects: Sequence[Rect]) -> Assembly:
    """How to sew some rectangles together: straight seams through, the shorter kind first, all of it at once.

    So the longest seam of all is as short as can be; of seams equally long, those between rows come first. The
    rectangles are finished, in exact inches, and do not overlap. Gaps are taken to be filled with pieces that part as
    the others do. At least one rectangle, else ValueError.
    """
    if not rects:
        raise ValueError("nothing to sew together")
    steps, bounds = _in_steps(rects)
    return _told(_tree(bounds), rects, steps)


def _in_steps(rects: Sequence[Rect]) -> tuple[int, list[Bounds]]:
    """The steps of an inch that all edges are whole multiples of, and the rectangles in them."""
    ratios = [
        (
            rect.left.as_integer_ratio(),
            rect.top.as_integer_ratio(),
            rect.right.as_integer_ratio(),
            rect.bottom.as_integer_ratio(),
        )
        for rect in rects
    ]
    steps = lcm(*{below for box in ratios for _, below in box})
    if steps == 1:
        return 1, [(a, b, c, d) for (a, _), (b, _), (c, _), (d, _) in ratios]
    return steps, [
        (a * (steps // e), b * (steps // f), c * (steps // g), d * (steps // h))
        for (a, e), (b, f), (c, g), (d, h) in ratios
    ]


@dataclass(slots=True)
class _Branch:
    """A part found: which way it is parted, and its own parts by their number among all; or one rectangle."""

    kind: Literal["leaf", "upright", "level", "bunch"]
    index: int = -1
    parts: list[int] = field(default_factory=list)


def _tree(bounds: Sequence[Bounds]) -> Node:
    """The nicest tree over some rectangles."""
    branches = _grown(bounds)
    nodes: dict[int, Node] = {}
    for number in range(len(branches) - 1, -1, -1):
        branch = branches[number]
        if branch.kind == "leaf":
            nodes[number] = Leaf(bounds[branch.index], branch.index)
        elif branch.kind == "bunch":
            parts = tuple(nodes[part] for part in branch.parts)
            nodes[number] = Bunch(box_of([part.box for part in parts]), parts)
        else:
            nodes[number] = joined(branch.kind == "upright", [nodes[part] for part in branch.parts])
    return nodes[0]


def _grown(bounds: Sequence[Bounds]) -> list[_Branch]:
    """All parts, each before its own; a part of a row is never a row the same way."""
    lists = Lists(bounds)
    branches: list[_Branch] = []
    waiting: list[tuple[Members, int | None]] = [(lists.all(), None)]
    while waiting:
        some, parent = waiting.pop()
        branch, sides = _parted(lists, some, bounds)
        row = parent is not None and branch.kind != "bunch" and branches[parent].kind == branch.kind
        here = parent if row else len(branches)
        if not row:
            if parent is not None:
                branches[parent].parts.append(len(branches))
            branches.append(branch)
        waiting += [(side, here) for side in reversed(sides)]
    return branches


def _parted(lists: Lists, some: Members, bounds: Sequence[Bounds]) -> tuple[_Branch, Sequence[Members]]:
    """A part without its own parts yet, and what these are made of."""
    if some.count == 1:
        return _Branch("leaf", some.heads[0]), ()
    split = lists.split(some)
    if split is not None:
        return _Branch("upright" if split.upright else "level"), split.parts
    numbers = lists.numbers(some)
    groups = largest_groups([bounds[number] for number in numbers])
    return _Branch("bunch"), [lists.of([numbers[place] for place in group]) for group in groups]


def _told(tree: Node, rects: Sequence[Rect], steps: int) -> Assembly:
    """The tree in inches; each part after its own, for trees may be deep."""
    inches: dict[int, Fraction] = {}

    def edge(step: int) -> Fraction:
        found = inches.get(step)
        if found is None:
            found = inches[step] = Fraction(step, steps)
        return found

    order: list[Node] = [tree]
    for node in order:
        if not isinstance(node, Leaf):
            order.extend(node.parts)
    told: dict[int, Assembly] = {}
    for node in reversed(order):
        if isinstance(node, Leaf):
            told[id(node)] = Piece(node.index, rects[node.index])
            continue
        parts = tuple(told[id(part)] for part in node.parts)
        box = Rect(*(edge(step) for step in node.box))
        if isinstance(node, Row):
            told[id(node)] = Section("across" if node.upright else "down", parts, box)
        else:
            told[id(node)] = Knot(parts, box, knot_seams([part.box for part in node.parts], steps))
    return told[id(tree)]


@dataclass(frozen=True, slots=True)
class SeamCount:
    """The seams of an assembly: how many, how many of them in two goes, their length together and the longest's.

    Finished inches. A knot whose order is open counts one seam less than its parts, without length.
    """

    seams: int
    partial: int
    length: Fraction
    longest: Fraction


def seam_count(assembly: Assembly) -> SeamCount:
    """Every seam of an assembly."""
    seams = partial = 0
    lengths: list[tuple[int, Fraction]] = [(0, Fraction(0))]
    for part in parts_in_order(assembly):
        if isinstance(part, Section):
            lengths.append((part.seams, part.seam_length))
            seams += part.seams
        elif isinstance(part, Knot):
            lengths += [(1, seam.length) for seam in part.seams if seam.doing != "finish"]
            partial += sum(seam.doing == "begin" for seam in part.seams)
            seams += sum(seam.doing != "finish" for seam in part.seams) or len(part.parts) - 1
    total = sum((count * length for count, length in lengths), Fraction(0))
    return SeamCount(seams, partial, total, max(length for _, length in lengths))


def parts_in_order(assembly: Assembly) -> list[Assembly]:
    """Every part in the order of sewing: each after its own parts, these in their order, the whole last."""
    order: list[Assembly] = []
    waiting = [assembly]
    while waiting:
        part = waiting.pop()
        order.append(part)
        if not isinstance(part, Piece):
            waiting.extend(part.parts)
    return order[::-1]
