"""The rows of what goes round the quilt and behind it: borders, binding, backing, batting."""

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication

from piecewright.plan.backing import WIDE, BackingPlan
from piecewright.plan.batting import BattingPlan
from piecewright.plan.binding import BindingPlan
from piecewright.plan.borders import BorderPlan
from piecewright.plan.why import Subject
from piecewright.words.message import Message
from piecewright_qt.materials.parts import back_rows, part_rows
from piecewright_qt.materials.rows import Amount, Note, Row

if TYPE_CHECKING:
    from piecewright_qt.materials.lister import Lister


def around_rows(lister: "Lister") -> Iterator[Row]:
    """The section, its heading first."""
    plan = lister.materials
    yield Row("heading:round", "round", "heading", _say("Round the quilt and behind it"))
    for number, border in enumerate(plan.borders, 1):
        yield lister.kept(border, partial(_border, lister, number, border), number)
        yield from part_rows(lister, "round", number)
    yield lister.kept(plan.binding, partial(_binding, lister, plan.binding))
    yield lister.kept(plan.backing, partial(_backing, lister, plan.backing))
    yield from back_rows(lister)
    yield lister.kept(plan.batting, partial(_batting, lister, plan.batting))


def _border(lister: "Lister", number: int, border: BorderPlan) -> Row:
    pairs = [border.sides, border.ends] if border.first == "sides" else [border.ends, border.sides]
    notes = (
        Note(lister.name(border.fabric)),
        Note(_say("{width} finished").format(width=lister.length(border.finished_width))),
        *_corners(border),
        *(Note(lister.say("plan.border-line", size=size)) for size in pairs),
        *_pieces(lister, border),
    )
    count, value = border.strips, _strips(border.strips)
    if border.side_run is not None and border.end_run is not None:
        count = 2 * (border.side_run.pieces + border.end_run.pieces)
        value = _say("1 piece") if count == 1 else _say("{n} pieces").format(n=count)
    label = _say("Border {n}").format(n=number)
    return _row(("border", number), label, value, count, notes, border.why, (border.fabric,))


def _corners(border: BorderPlan) -> Iterator[Note]:
    if border.corners == "mitered":
        yield Note(_say("mitered"))


def _pieces(lister: "Lister", border: BorderPlan) -> Iterator[Note]:
    """Of a pieced border: the piece, and how many come out along each side."""
    side, end = border.side_run, border.end_run
    if side is None or end is None:
        return
    if border.piece is not None:
        yield Note(_say("each piece {size}").format(size=lister.say("plan.size", size=border.piece)))
    yield Note(_say("{n} along each side").format(n=side.pieces))
    yield Note(_say("{n} along top and bottom").format(n=end.pieces))


def _binding(lister: "Lister", binding: BindingPlan) -> Row:
    cut = Note(_say("{width} cut").format(width=lister.length(binding.width)))
    why, cloth = binding.why, _known(binding.fabric)
    spare = _say("{spare} to spare").format(spare=lister.length(binding.to_spare))
    tight = any(found.code == "plan.binding-tight" for found in binding.findings)
    notes = (*_named(lister, binding.fabric), cut, Note(spare, "warn" if tight else ""))
    squares = binding.squares
    if squares is None:
        count, value = binding.strips, _strips(binding.strips)
    else:
        count = squares.count
        value = _say("1 bias square") if count == 1 else _say("{n} bias squares").format(n=count)
    return _row("binding", _say("Binding"), value, count, notes, why, cloth)


def _backing(lister: "Lister", backing: BackingPlan) -> Row:
    panels = backing.panels
    size = Note(_say("{size} when joined").format(size=lister.say("plan.size", size=backing.size)))
    cut = Note(_say("{length} cut off the bolt").format(length=lister.length(panels.length)))
    value = _say("1 panel") if panels.count == 1 else _say("{n} panels").format(n=panels.count)
    notes = (
        *_named(lister, backing.fabric),
        *_lying(backing),
        cut,
        *_strip(lister, backing),
        size,
        *_wide(lister, backing),
    )
    why, cloth = backing.why, _known(backing.fabric)
    return _row("backing", _say("Backing"), value, panels.count, notes, why, cloth)


def _lying(backing: BackingPlan) -> Iterator[Note]:
    seams = backing.panels.seams
    if seams != "none":
        yield Note(_say("seams up the quilt") if seams == "up" else _say("seams across the quilt"))


def _strip(lister: "Lister", backing: BackingPlan) -> Iterator[Note]:
    panels = backing.panels
    if panels.pieces:
        text = _say("and a strip {width} cut, joined of {n}")
        yield Note(text.format(width=lister.length(panels.strip), n=panels.pieces))


def _wide(lister: "Lister", backing: BackingPlan) -> Iterator[Note]:
    """What it would take of a wide backing."""
    if backing.wide is not None:
        text = _say("or one piece: {length} cut off a wide backing of {width}")
        yield Note(text.format(length=lister.length(backing.wide.length), width=lister.length(WIDE)))


def _batting(lister: "Lister", batting: BattingPlan) -> Row:
    size = Note(lister.say("plan.size", size=batting.size))
    why, package, opens = batting.why, batting.package, Subject("batting")
    rolled = tuple(_off_the_roll(lister, batting))
    if package is None:
        said, notes = _say("off the roll"), (size, *rolled)
        return Row("batting", "round", "line", _say("Batting"), said, None, notes, why, subject=opens)
    of = lister.measure.size(package.width, package.height)
    notes = (size, Note(_say("from a package of {size}").format(size=of)), *rolled)
    said = _say("1 package")
    return Row("batting", "round", "line", _say("Batting"), said, None, notes, why, subject=opens)


def _off_the_roll(lister: "Lister", batting: BattingPlan) -> Iterator[Note]:
    """The next package, for more to trim, and what it takes off a roll."""
    larger, roll = batting.larger, batting.roll
    if larger is not None:
        size = lister.measure.size(larger.width, larger.height)
        yield Note(_say("the next larger package is {size}").format(size=size))
    if roll is not None:
        length, width = lister.length(roll.length), lister.length(roll.width)
        yield Note(_say("or {length} cut off a roll of {width}").format(length=length, width=width))


def _row(
    key: object,
    label: str,
    value: str,
    count: int,
    notes: tuple[Note, ...],
    why: Message,
    fabrics: tuple[str, ...],
) -> Row:
    return Row(key, "round", "line", label, value, Amount(count), notes, why, fabrics, subject=_opens(key))


def _opens(key: object) -> Subject | None:
    """The number that a row opens to."""
    match key:
        case ("border", int() as number):
            return Subject("border", number - 1)
        case "binding":
            return Subject("binding")
        case "backing":
            return Subject("backing")
    return None


def _strips(count: int) -> str:
    return _say("1 strip") if count == 1 else _say("{n} strips").format(n=count)


def _named(lister: "Lister", fabric: str | None) -> tuple[Note, ...]:
    return (Note(_say("fabric not chosen yet") if fabric is None else lister.name(fabric)),)


def _known(fabric: str | None) -> tuple[str, ...]:
    return () if fabric is None else (fabric,)


def _say(text: str) -> str:
    return QCoreApplication.translate("materials", text)
