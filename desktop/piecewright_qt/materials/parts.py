"""The rows of what lies between the blocks and in the borders: sashes, cornerstones, triangles, coping strips."""

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication

from piecewright.plan.back_pieces import BackPiece
from piecewright.plan.parts import PartPlan
from piecewright.plan.text import cut_said
from piecewright_qt.materials.rows import Amount, Note, Row, Section

if TYPE_CHECKING:
    from piecewright_qt.materials.lister import Lister


def between_rows(lister: "Lister") -> Iterator[Row]:
    """The section of the parts between the blocks, its heading first; nothing where there are none."""
    parts = [part for part in lister.materials.parts if not part.where]
    if parts:
        total = sum(part.count for part in parts)
        title = _say("Between the blocks")
        yield Row("heading:between", "between", "heading", title, str(total), Amount(total))
    yield from part_rows(lister, "between", 0)


def part_rows(lister: "Lister", section: Section, where: int) -> Iterator[Row]:
    """The rows of the parts of a border, counted from 1, or of the center."""
    seen: dict[object, int] = {}
    for part in lister.materials.parts:
        if part.where == where:
            alike = part.part, part.fabric, part.finished
            seen[alike] = place = seen.get(alike, 0) + 1
            yield lister.kept(part, partial(_part, lister, section, part, place), place)


def back_rows(lister: "Lister") -> Iterator[Row]:
    """A sleeve and a label."""
    for piece in lister.materials.back_pieces:
        yield lister.kept(piece, partial(_back_piece, lister, piece), lister.materials.backing.fabric)


def _part(lister: "Lister", section: Section, part: PartPlan, place: int) -> Row:
    size = lister.say("plan.size", size=part.finished)
    trimmed = () if part.trim is None else (Note(lister.say("plan.part-trim", least=part.trim)),)
    return Row(
        ("part", part.part, part.fabric, part.finished, part.where, place),
        section,
        "line",
        _names()[part.part],
        str(part.count),
        Amount(part.count),
        (Note(lister.name(part.fabric)), Note(size), Note(cut_said(part).text(lister.measure)), *trimmed),
        part.why,
        (part.fabric,),
        alike=(part.part, part.fabric, part.where),
    )


def _back_piece(lister: "Lister", piece: BackPiece) -> Row:
    backing = lister.materials.backing.fabric
    cloth = () if backing is None else (backing,)
    notes = [Note(lister.say("plan.size", size=piece.size))]
    if piece.strips > 1:
        notes.append(Note(_say("joined of {n} strips").format(n=piece.strips)))
    label = _say("Sleeve") if piece.part == "sleeve" else _say("Label")
    return Row(piece.part, "round", "line", label, "1", Amount(1), tuple(notes), piece.why, cloth)


def _names() -> dict[str, str]:
    return {
        "sash": _say("Sashing"),
        "cornerstone": _say("Cornerstones"),
        "edge-cornerstone": _say("Cornerstones at the edge"),
        "side-triangle": _say("Side triangles"),
        "corner-triangle": _say("Corner triangles"),
        "coping-strip": _say("Coping strips"),
        "corner-square": _say("Corner squares"),
    }


def _say(text: str) -> str:
    return QCoreApplication.translate("materials", text)
