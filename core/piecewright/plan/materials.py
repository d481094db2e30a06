"""Everything a quilt takes, in numbers one can cut and shop by: from a design, by pure stages."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from piecewright.edit.facts_of import usable_width
from piecewright.errors import Finding
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Backing, Border, Quilt
from piecewright.model.settings import Settings
from piecewright.plan.account import Account, BlockCount, account, advanced, also_asked
from piecewright.plan.back_pieces import BackPiece, label_plan, sleeve_plan
from piecewright.plan.backing import BackingPlan, backing_plan
from piecewright.plan.batches import Batch
from piecewright.plan.batting import BattingPlan, batting_plan
from piecewright.plan.bias import BiasLine, bias_line
from piecewright.plan.binding import BindingPlan, binding_plan
from piecewright.plan.borders import BorderPlan, around, border_plan
from piecewright.plan.cautions import border_stretches
from piecewright.plan.cloth import Cloth, Use, cloth, strip_use
from piecewright.plan.fillings import Fillings, fillings, with_borders
from piecewright.plan.keys import UNCHOSEN, StripKey
from piecewright.plan.layout import lay_out
from piecewright.plan.packing import NOTHING
from piecewright.plan.parts import Joined, PartPlan
from piecewright.plan.real_size import RealSize, real_size
from piecewright.plan.roles import RoleChanges
from piecewright.plan.sets import StripSet
from piecewright.plan.shape import shape_findings
from piecewright.plan.size import QuiltSize
from piecewright.plan.stage import stage
from piecewright.plan.tray import Tray, trays
from piecewright.plan.workroom import workroom_of
from piecewright.units.sizes import Finished
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class Round:
    """All that goes round and behind the blocks."""

    borders: tuple[BorderPlan, ...]
    binding: BindingPlan
    backing: BackingPlan
    batting: BattingPlan
    back_pieces: tuple[BackPiece, ...]


@dataclass(frozen=True, slots=True)
class Materials:
    """What one arrangement takes.

    Lengths are exact inches; every size is a `Cut`, `Unfinished` or `Finished`.

    `blocks` are the placed ones by what they are; `batches` how they are sewn; `sets` the strip sets to sew,
    single strips among them as sets of one; `cloth` every fabric with its strips and what to buy, in the
    design's order, those not chosen yet last; `parts` are sashes, setting triangles, coping strips and corner squares,
    whose strips are among the sets, or where they are longer than the cloth is wide among the `joined`; `missing`
    counts cells without a block; `real` is the top as the quilter's own seam makes it. Each part has its `why`.
    """

    name: str
    arrangement: str
    settings: Settings
    fabrics: tuple[Fabric, ...]
    size: QuiltSize
    blocks: tuple[BlockCount, ...]
    batches: tuple[Batch, ...]
    sets: tuple[StripSet, ...]
    cloth: tuple[Cloth, ...]
    borders: tuple[BorderPlan, ...]
    parts: tuple[PartPlan, ...]
    joined: tuple[Joined, ...]
    binding: BindingPlan
    backing: BackingPlan
    batting: BattingPlan
    back_pieces: tuple[BackPiece, ...]
    bias: tuple[BiasLine, ...]
    missing: int
    findings: tuple[Finding, ...]
    real: RealSize | None = None
    trays: tuple[Tray, ...] = ()

    @property
    def made_count(self) -> int:
        """Blocks that are sewn so far, of all on the shelf."""
        return sum(tray.made for tray in self.trays)

    @property
    def to_make(self) -> int:
        """Blocks on the wall that are not made yet."""
        return sum(tray.to_make for tray in self.trays)

    @property
    def block_count(self) -> int:
        """Blocks on the wall."""
        return sum(alike.count for alike in self.blocks)

    @property
    def set_count(self) -> int:
        """Strip sets to sew; single strips are not sewn and not counted."""
        return sum(alike.sets for alike in self.sets if len(alike.lanes) > 1)

    @property
    def strip_count(self) -> int:
        """Strips to cut for blocks, borders and binding."""
        return sum(use.count for each in self.cloth for use in each.uses if use.is_strip)

    @property
    def washed(self) -> Finished:
        """The bound quilt once quilting and the first wash have drawn it in."""
        shrinkage, size = self.settings.shrinkage, self.size.unfinished
        return Finished(
            shrinkage.after(Fraction(size.width), shrinkage.take_up),
            shrinkage.after(Fraction(size.height), shrinkage.take_up),
        )

    @property
    def cost(self) -> Fraction | None:
        """The price of all cloth that has a price; None where none has."""
        costs = [each.cost for each in self.cloth if each.cost is not None]
        return sum(costs, NOTHING) if costs else None


@stage(keep=32)
def materials(design: Design) -> Materials:
    """The materials of the arrangement in view.

    Never raises for a design: what does not work out is a finding.
    """
    return _materials(design, account(workroom_of(design), design.quilt.rows))


def materials_with(design: Design, more: RoleChanges) -> Materials:
    """The materials with so many more (or fewer) blocks, wherever they would lie: what blocks cost."""
    room, rows = workroom_of(design), design.quilt.rows
    return _materials(design, advanced(account(room, rows), rows, more))


def _materials(design: Design, counted: Account) -> Materials:
    quilt, settings, room = design.quilt, design.settings, counted.room
    laid = lay_out(room, quilt, settings.seam)
    size = laid.size
    outside = _round(quilt, design, size)
    filling = fillings(room, quilt, laid, outside.borders, settings.oversize)
    counted = also_asked(with_borders(room, counted, quilt, size.center), filling.asks)
    missing = laid.missing
    return Materials(
        name=design.name,
        arrangement=quilt.name,
        settings=settings,
        fabrics=design.fabrics,
        size=size,
        blocks=counted.blocks.in_order(),
        batches=counted.batches.in_order(),
        sets=counted.sets.in_order(),
        cloth=_cloths(design, _uses(counted, outside, filling, design)),
        borders=outside.borders,
        parts=filling.plans,
        joined=filling.joined,
        binding=outside.binding,
        backing=outside.backing,
        batting=outside.batting,
        back_pieces=outside.back_pieces,
        bias=tuple(bias_line(key, length) for key, length in counted.bias.items()),
        missing=missing,
        findings=tuple(_findings(counted, outside, filling, quilt, missing)),
        real=real_size(room, quilt, laid),
        trays=tuple(trays(design).values()),
    )


def _round(quilt: Quilt, design: Design, size: QuiltSize) -> Round:
    settings, backing, binding = design.settings, quilt.backing, quilt.binding
    usable = _usable_by_id(design.fabrics, settings)
    wide = usable.get(backing.fabric or "", settings.usable)
    return Round(
        borders=tuple(_borders(quilt.borders, size, usable)),
        binding=binding_plan(
            binding, size.around, usable.get(binding.fabric or "", settings.usable), settings.lengths
        ),
        backing=backing_plan(
            backing, size.unfinished, wide, _directional(design, backing.fabric), settings.lengths
        ),
        batting=batting_plan(
            size.unfinished, quilt.batting.overage, settings.shrinkage, settings.country, settings.lengths
        ),
        back_pieces=_back_pieces(backing, size, wide),
    )


def _back_pieces(backing: Backing, size: QuiltSize, usable: Fraction) -> tuple[BackPiece, ...]:
    sleeve = (
        () if backing.sleeve is None else (sleeve_plan(backing.sleeve, size.unfinished, usable, size.seam),)
    )
    label = () if backing.label is None else (label_plan(backing.label, size.seam),)
    return (*sleeve, *label)


def _directional(design: Design, fabric: str | None) -> bool:
    found = design.shelf.fabrics.get(fabric or "")
    return found is not None and found.print is not None and found.print.one_way


def _borders(
    borders: tuple[Border, ...], size: QuiltSize, usable: Mapping[str, Fraction]
) -> Iterator[BorderPlan]:
    inner = size.center
    for number, border in enumerate(borders, 1):
        yield border_plan(border, inner, usable[border.fabric], size.seam, number)
        inner = around(inner, border)


@stage(keep=64)
def _usable_by_id(fabrics: tuple[Fabric, ...], settings: Settings) -> Mapping[str, Fraction]:
    return {fabric.id: usable_width(fabric, settings) for fabric in fabrics}


def _uses(counted: Account, outside: Round, filling: Fillings, design: Design) -> dict[str, list[Use]]:
    """The uses of every fabric: strips for blocks first, then borders, binding and backing."""
    usable = _usable_by_id(design.fabrics, design.settings)
    uses: dict[str, list[Use]] = {}
    for strips, count in counted.strips.items():
        width = usable.get(strips.fabric, design.settings.usable)
        uses.setdefault(strips.fabric, []).append(strip_use("piecing", strips, count, width))
    for joined in filling.joined:
        use = strip_use(joined.part, joined.strips, joined.count, joined.usable)
        uses.setdefault(joined.strips.fabric, []).append(use)
    for number, border in enumerate(outside.borders, 1):
        if not border.total or (border.lengthwise and not border.strips):
            continue
        if border.lengthwise:
            strips = StripKey(border.fabric, border.width, "lengthwise", border.longest)
        else:
            strips = StripKey(border.fabric, border.width, "crosswise", NOTHING)
        uses.setdefault(border.fabric, []).append(
            strip_use(f"border {number}", strips, border.strips, border.usable)
        )
    for fabric, use in (_binding_use(outside.binding), *_backing_uses(outside)):
        uses.setdefault(fabric, []).append(use)
    return uses


def _binding_use(binding: BindingPlan) -> tuple[str, Use]:
    fabric = binding.fabric or f"{UNCHOSEN}binding"
    squares = binding.squares
    if squares is not None:
        cloth = squares.cloth(binding.usable)
        return fabric, Use("binding", squares.count, squares.side, "square", cloth, squares.side)
    strips = StripKey(fabric, binding.width, "crosswise", NOTHING)
    return fabric, strip_use("binding", strips, binding.strips, binding.usable)


def _backing_uses(outside: Round) -> Iterator[tuple[str, Use]]:
    backing, panels = outside.backing, outside.backing.panels
    fabric = backing.fabric or f"{UNCHOSEN}backing"
    yield fabric, Use("backing", panels.count, panels.length, "lengthwise", panels.count * panels.length)
    if panels.pieces:
        strips = StripKey(fabric, panels.strip, "crosswise", NOTHING)
        yield fabric, strip_use("backing-strip", strips, panels.pieces, backing.usable)
    for piece in outside.back_pieces:
        strips = StripKey(fabric, Fraction(piece.size.height), "crosswise", NOTHING)
        yield fabric, strip_use(piece.part, strips, piece.strips, backing.usable)


def _cloths(design: Design, uses: Mapping[str, list[Use]]) -> tuple[Cloth, ...]:
    settings = design.settings
    usable = _usable_by_id(design.fabrics, settings)
    prices = {fabric.id: fabric.price for fabric in design.fabrics}
    chosen = [fabric for fabric in prices if fabric in uses]
    unchosen = sorted(fabric for fabric in uses if fabric not in prices)
    return tuple(
        cloth(
            fabric,
            usable.get(fabric, settings.usable),
            tuple(uses[fabric]),
            settings.margin,
            settings.yardage,
            prices.get(fabric),
            settings.shrinkage,
        )
        for fabric in (*chosen, *unchosen)
    )


def _findings(
    counted: Account, outside: Round, filling: Fillings, quilt: Quilt, missing: int
) -> Iterator[Finding]:
    found = dict.fromkeys(counted.faults.in_order())
    for batch in counted.troubled.in_order():
        found.update(dict.fromkeys(batch.findings))
    yield from found
    for number, border in enumerate(outside.borders, 1):
        yield from border.findings
        if border.strips and not border.lengthwise:
            longest = max(Fraction(border.sides.width), Fraction(border.ends.width))
            yield from border_stretches(number, longest)
    yield from (*filling.findings, *outside.binding.findings, *outside.backing.findings)
    yield from shape_findings(quilt)
    if missing and quilt.coping is None:
        cells = quilt.lattice.cell_count
        yield Finding(
            "plan.cells-empty",
            "note",
            message("plan.cells-empty", missing=missing, cells=cells),
            where="quilt",
            hint=message("plan.fill-cells"),
        )


def fabric_name(materials: Materials, fabric: str) -> Message:
    """A fabric's name, or what stands for one not chosen yet ("fabric A, not chosen yet")."""
    named = next((each.name for each in materials.fabrics if each.id == fabric), None)
    if named is not None:
        return message("plan.fabric", name=named)
    letter = fabric.removeprefix(UNCHOSEN)
    if letter in ("binding", "backing", "triangles"):
        return message(f"plan.unchosen-{letter}")
    return message("plan.unchosen-letter", letter=letter)


def sets_in_order(materials: Materials) -> tuple[StripSet, ...]:
    """The strip sets as one reads them: by the design's order of fabrics, strip by strip; those not chosen last."""
    places = {fabric.id: place for place, fabric in enumerate(materials.fabrics)}

    def order(found: StripSet) -> tuple[tuple[int, str, Fraction], ...]:
        return tuple((places.get(lane.fabric, len(places)), lane.fabric, lane.width) for lane in found.lanes)

    return tuple(sorted(materials.sets, key=order))
