"""All cloth of a quilt's top that is neither block nor plain border, put together for the materials."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.errors import Finding, PiecewrightError
from piecewright.model.quilt import Border, Quilt
from piecewright.plan.account import Account, advanced
from piecewright.plan.batches import Ask
from piecewright.plan.between import between, rect_plan
from piecewright.plan.borders import BorderPlan, around, border_placements
from piecewright.plan.layout import Layout
from piecewright.plan.parts import Joined, PartPlan, parts_demand
from piecewright.plan.roles import changes_of
from piecewright.plan.stage import stage
from piecewright.plan.workroom import Workroom
from piecewright.units.sizes import Finished
from piecewright.words.message import message


@dataclass(frozen=True, slots=True)
class Fillings:
    """Parts as cut, what they and the pieces of borders ask of strips, and what is wrong with them."""

    plans: tuple[PartPlan, ...]
    asks: tuple[Ask, ...]
    joined: tuple[Joined, ...]
    findings: tuple[Finding, ...]


def fillings(
    room: Workroom,
    quilt: Quilt,
    laid: Layout,
    borders: tuple[BorderPlan, ...],
    oversize: Fraction = Fraction(0),
) -> Fillings:
    """The fillings of an arrangement laid out, its borders planned; what has bias is cut larger by `oversize`."""
    seam = room.settings.seam
    gaps = tuple(_gap_plans(laid, seam))
    triangles = (
        quilt.triangles.changed(spare=quilt.triangles.spare + oversize) if oversize else quilt.triangles
    )
    fixed = between(quilt.frame, triangles, seam, laid.center.x, laid.center.y).plans
    found = _fillings(room, fixed, gaps, borders)
    unfit = tuple(_unfit(room, quilt))
    return Fillings(found.plans, found.asks, found.joined, (*found.findings, *unfit)) if unfit else found


def _gap_plans(laid: Layout, seam: Fraction) -> Iterator[PartPlan]:
    """The coping strips by their sizes."""
    if laid.coping is None:
        return
    counts = Counter((max(cells[2:]), min(cells[2:])) for cells in laid.gap_cells)
    unit = laid.lattice.unit  # no gap reaches over a sash
    for (long, short), count in sorted(counts.items()):
        yield replace(rect_plan("coping-strip", laid.coping, long * unit, short * unit, seam), count=count)


@stage(keep=32)
def _fillings(
    room: Workroom,
    fixed: tuple[PartPlan, ...],
    gaps: tuple[PartPlan, ...],
    borders: tuple[BorderPlan, ...],
) -> Fillings:
    plans = (*fixed, *gaps, *(part for border in borders for part in border.parts))
    demand = parts_demand(room, plans)
    pieces = tuple(ask for border in borders for ask in border.asks)
    short = tuple(finding for ask in pieces if (finding := _too_short(room, ask)) is not None)
    asks = (*demand.asks, *(ask for ask in pieces if _too_short(room, ask) is None))
    return Fillings(plans, asks, demand.joined, (*demand.findings, *dict.fromkeys(short)))


def _too_short(room: Workroom, ask: Ask) -> Finding | None:
    """The finding that the cloth of a pieced border is narrower than its strips are long."""
    capacity, needs = room.capacity(ask.sets), ask.kit.needs(room.truing)
    if capacity is None or needs <= capacity:
        return None
    code = "plan.border-strips-short"
    said = message(code, needs=needs, usable=capacity)
    return Finding(code, "error", said, "border", message("plan.widen-cloth", least=needs))


def with_borders(room: Workroom, counted: Account, quilt: Quilt, center: Finished) -> Account:
    """The account that also has the blocks of borders pieced of blocks."""
    inner = center
    for border in quilt.borders:
        placements = [one for side in border_placements(border, inner) for one in side]
        if placements:
            counted = advanced(counted, counted.rows, changes_of(room, placements, 1))
        inner = around(inner, border)
    return counted


def _unfit(room: Workroom, quilt: Quilt) -> Iterator[Finding]:
    """Borders pieced of a block whose size is not that of the border."""
    for number, border in enumerate(quilt.borders, 1):
        size = _block_size(room, border)
        if size is None or border.pieced is None:
            continue
        length, width = size
        if (length, width) != (border.pieced.length, border.width):
            said = message(
                "plan.border-unfit",
                number=number,
                block=room.design.shelf.blocks[border.pieced.block or ""].name,
                size=Finished(length, width),
                wanted=Finished(border.pieced.length, border.width),
            )
            yield Finding(
                "plan.border-unfit", "error", said, f"border {number}", message("plan.border-refit")
            )


def _block_size(room: Workroom, border: Border) -> tuple[Fraction, Fraction] | None:
    """Length along the border and width across it of the block it is pieced of, as it lies in the top border."""
    pieced = border.pieced
    if pieced is None or pieced.block is None:
        return None
    made = room.work(pieced.block).outcome
    if isinstance(made, PiecewrightError):
        return None
    size = made.finished
    wide, high = Fraction(size.width), Fraction(size.height)
    return (high, wide) if pieced.turn in (90, 270) else (wide, high)
