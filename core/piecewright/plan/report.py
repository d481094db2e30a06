"""The materials as JSON.

Every length exact as text and as a decimal, every size with its word, every sum in words.
"""

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from piecewright.errors import Finding
from piecewright.plan.backing import Panels
from piecewright.plan.batches import Batch
from piecewright.plan.bias_square import BiasSquare
from piecewright.plan.borders import BorderPlan, Run
from piecewright.plan.cloth import Cloth
from piecewright.plan.keys import UNCHOSEN, FabricsByLetter, Lane
from piecewright.plan.materials import Materials, fabric_name, sets_in_order
from piecewright.plan.packing import SetCuts
from piecewright.plan.parts import Joined, PartPlan
from piecewright.plan.real_size import RealSize
from piecewright.plan.sets import StripSet
from piecewright.plan.trade import Package
from piecewright.units.measure import Measure
from piecewright.units.scale import YARD
from piecewright.units.sizes import Size

VERSION = 1
Names = Callable[[str], str]
_EXACT = Measure()


def materials_report(materials: Materials) -> dict[str, Any]:
    """JSON-able, fresh.

    Lengths are `{"text": "6 1/2", "inches": 6.5}`, in inches; ids are those of the design.
    """

    def name(fabric: str) -> str:
        return str(fabric_name(materials, fabric))

    settings = materials.settings
    return {
        "materials": VERSION,
        "name": materials.name,
        "arrangement": materials.arrangement,
        "settings": {
            "seam": _length(settings.seam),
            "usable": _length(settings.usable),
            "trim_first": _length(settings.trim_first),
            "trim_again": _length(settings.trim_again),
            "trim_every": settings.trim_every,
            "yardage": settings.yardage,
            "margin": _length(settings.margin),
            "lengths": settings.lengths,
            "country": settings.country,
            "shrinkage": {
                "cloth": float(settings.shrinkage.cloth),
                "batting": float(settings.shrinkage.batting),
                "take_up": float(settings.shrinkage.take_up),
                "way": settings.shrinkage.way,
            },
        },
        "size": _size_report(materials),
        "blocks": _blocks_report(materials),
        "made": materials.made_count,
        "to_make": materials.to_make,
        "batches": [_batch_report(batch) for batch in materials.batches],
        "sets": [_set_report(found, name) for found in sets_in_order(materials)],
        "borders": [_border_report(border, name) for border in materials.borders],
        "parts": [_part_report(part, name) for part in materials.parts],
        "joined": [_joined_report(joined, name) for joined in materials.joined],
        "binding": _binding_report(materials),
        "backing": _backing_report(materials),
        "batting": _batting_report(materials),
        "cloth": [_cloth_report(cloth, name) for cloth in materials.cloth],
        "cost": None if materials.cost is None else float(materials.cost),
        "bias": [
            {"fabric": _chosen(line.fabric), "outer": line.outer, "band": line.band, "inches": line.length}
            for line in materials.bias
        ],
        "missing": materials.missing,
        "findings": [finding_report(finding) for finding in materials.findings],
    }


def finding_report(finding: Finding) -> dict[str, Any]:
    """A finding as JSON."""
    return {
        "code": finding.code,
        "severity": finding.severity,
        "where": finding.where,
        "text": str(finding.message),
        "hint": None if finding.hint is None else str(finding.hint),
    }


def _length(inches: Fraction) -> dict[str, Any]:
    return {"text": _EXACT.bare(inches), "inches": float(inches)}


def _size(size: Size) -> dict[str, Any]:
    return {
        "word": size.word,
        "width": _length(Fraction(size.width)),
        "height": _length(Fraction(size.height)),
    }


def _size_report(materials: Materials) -> dict[str, Any]:
    size = materials.size
    return {
        "center": _size(size.center),
        "finished": _size(size.finished),
        "unfinished": _size(size.unfinished),
        "washed": _size(materials.washed),
        "with_your_seam": _real_report(materials.real),
        "why": str(size.why),
    }


def _real_report(real: RealSize | None) -> dict[str, Any] | None:
    if real is None or real.least is None or real.most is None:
        return None
    return {"least": _size(real.least), "most": _size(real.most)}


def _fabrics(fabrics: FabricsByLetter) -> dict[str, list[str | None]]:
    return {letter: [_chosen(fabric) for fabric in ids] for letter, ids in fabrics}


def _chosen(fabric: str) -> str | None:
    return None if fabric.startswith(UNCHOSEN) else fabric


def _blocks_report(materials: Materials) -> list[dict[str, Any]]:
    return [
        {
            "block": alike.key.block,
            "kind": alike.key.kind,
            "layer": alike.key.layer,
            "fabrics": _fabrics(alike.key.fabrics),
            "count": alike.count,
        }
        for alike in materials.blocks
    ]


def _batch_report(batch: Batch) -> dict[str, Any]:
    return {
        "block": batch.block,
        "name": batch.name,
        "fabrics": _fabrics(batch.key.fabrics),
        "blocks": batch.blocks,
        "batches": batch.batches,
        "per_batch": batch.per_batch,
        "over": batch.over,
        "why": str(batch.why),
    }


def _lane(lane: Lane, name: Names) -> dict[str, Any]:
    return {
        "fabric": _chosen(lane.fabric),
        "name": name(lane.fabric),
        "cut_width": _length(lane.width),
        "grain": lane.grain,
    }


def _set_report(found: StripSet, name: Names) -> dict[str, Any]:
    return {
        "strips": [_lane(lane, name) for lane in found.lanes],
        "sets": found.sets,
        "usable": _length(found.usable),
        "cuts": [_cuts_report(cuts) for cuts in found.cuts],
        "blocks": found.blocks,
        "blocks_per_set": found.per_set,
        "to_spare": _length(found.to_spare),
        "tight": found.tight,
        "why": str(found.why),
    }


def _cuts_report(cuts: SetCuts) -> dict[str, Any]:
    return {
        "sets": cuts.sets,
        "segments": [{"length": _length(length), "count": count} for length, count in cuts.segments],
        "truing": _length(cuts.truing),
        "to_spare": _length(cuts.to_spare),
    }


def _border_report(border: BorderPlan, name: Names) -> dict[str, Any]:
    return {
        "fabric": border.fabric,
        "name": name(border.fabric),
        "finished_width": _length(border.finished_width),
        "cut_width": _length(border.width),
        "first": border.first,
        "sides": {"count": 2, "size": _size(border.sides)},
        "ends": {"count": 2, "size": _size(border.ends)},
        "strips": border.strips,
        "corners": border.corners,
        "piece": None if border.piece is None else _size(border.piece),
        "side_pieces": _run_report(border.side_run),
        "end_pieces": _run_report(border.end_run),
        "why": str(border.why),
    }


def _run_report(run: Run | None) -> dict[str, Any] | None:
    return None if run is None else {"pieces": run.pieces, "coping": _length(run.coping)}


def _joined_report(joined: Joined, name: Names) -> dict[str, Any]:
    return {
        "part": joined.part,
        "fabric": _chosen(joined.strips.fabric),
        "name": name(joined.strips.fabric),
        "cut_width": _length(joined.strips.width),
        "strips": joined.count,
        "total": _length(joined.total),
    }


def _part_report(part: PartPlan, name: Names) -> dict[str, Any]:
    finished = part.finished
    return {
        "part": part.part,
        "border": part.where or None,
        "fabric": _chosen(part.fabric),
        "name": name(part.fabric),
        "count": part.count,
        "finished": {"width": float(finished.width), "height": float(finished.height)},
        "cut": {"count": part.cuts, "size": _size(part.cut), "yields": part.yields},
        "trim": part.trim,
        "why": str(part.why),
    }


def _binding_report(materials: Materials) -> dict[str, Any]:
    binding = materials.binding
    return {
        "fabric": binding.fabric,
        "cut_width": _length(binding.width),
        "around": _length(binding.around),
        "strips": binding.strips,
        "gives": _length(binding.gives),
        "to_spare": _length(binding.to_spare),
        "squares": _squares(binding.squares),
        "why": str(binding.why),
    }


def _squares(squares: BiasSquare | None) -> dict[str, Any] | None:
    if squares is None:
        return None
    return {
        "count": squares.count,
        "side": _length(squares.side),
        "rounds": squares.rounds,
        "length": _length(squares.length),
    }


def _panels(panels: Panels) -> dict[str, Any]:
    return {
        "seams": panels.seams,
        "panels": panels.count,
        "length": _length(panels.length),
        "spread": _length(panels.spread),
        "cloth": _length(panels.cloth),
        "strip": {"count": panels.pieces, "width": _length(panels.strip)} if panels.pieces else None,
    }


def _backing_report(materials: Materials) -> dict[str, Any]:
    backing = materials.backing
    return {
        "fabric": backing.fabric,
        "size": _size(backing.size),
        **_panels(backing.panels),
        "other_way": _panels(backing.other),
        "ways": [{"lie": way.lie, **_panels(way)} for way in backing.ways],
        "directional": backing.directional,
        "pieces": [
            {"part": piece.part, "size": _size(piece.size), "strips": piece.strips, "why": str(piece.why)}
            for piece in materials.back_pieces
        ],
        "why": str(backing.why),
    }


def _batting_report(materials: Materials) -> dict[str, Any]:
    batting = materials.batting
    return {
        "size": _size(batting.size),
        "package": _package(batting.package),
        "larger": _package(batting.larger),
        "roll": None
        if batting.roll is None
        else {"width": _length(batting.roll.width), "length": _length(batting.roll.length)},
        "why": str(batting.why),
    }


def _package(package: Package | None) -> dict[str, Any] | None:
    if package is None:
        return None
    return {"name": package.name, "width": _length(package.width), "height": _length(package.height)}


def _cloth_report(cloth: Cloth, name: Names) -> dict[str, Any]:
    return {
        "fabric": _chosen(cloth.fabric),
        "name": name(cloth.fabric),
        "usable": _length(cloth.usable),
        "uses": [
            {
                "part": use.part,
                "count": use.count,
                "size": _length(use.size),
                "run": _length(use.run) if use.run else None,
                "grain": use.grain,
                "cloth": _length(use.inches),
            }
            for use in cloth.uses
        ],
        "cloth": _length(cloth.inches),
        "buy": _length(cloth.buy),
        "buy_yards": {"text": _EXACT.bare(cloth.buy / YARD), "yards": float(cloth.buy / YARD)},
        "cost": None if cloth.cost is None else float(cloth.cost),
        "why": str(cloth.why),
    }
