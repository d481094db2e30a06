"""What the Materials panel lists, as plain rows: headings with totals, and lines with cloth, value, word and reason."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from PySide6.QtCore import QCoreApplication

from piecewright.errors import Finding
from piecewright.plan.cloth import Cloth
from piecewright.plan.difference import Change
from piecewright.plan.materials import Materials, fabric_name
from piecewright.plan.sets import StripSet
from piecewright.units.measure import Measure
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class Row:
    """One row. `key` tells rows apart over time; `fabrics` are swatches; `delta` is what changed, "+1 set"."""

    key: str
    label: str
    value: str = ""
    note: str = ""
    why: str = ""
    fabrics: tuple[str, ...] = ()
    delta: str = ""
    heading: bool = False
    tone: str = ""

    @property
    def spoken(self) -> str:
        """The row as a screen reader says it."""
        return ", ".join(text for text in (self.label, self.value, self.note, self.delta) if text)


def rows(materials: Materials, changes: tuple[Change, ...], measure: Measure) -> tuple[Row, ...]:
    """All rows in the order of doing: what is wrong, blocks, sets, strips, cloth, round the quilt, bias."""
    return tuple(_Lister(materials, changes, measure).all())


def _say(text: str) -> str:
    return QCoreApplication.translate("materials", text)


class _Lister:
    def __init__(self, materials: Materials, changes: tuple[Change, ...], measure: Measure) -> None:
        self.materials = materials
        self.measure = measure
        self.deltas: Mapping[str, str] = {
            f"{change.part}:{self._text(change.what)}": self._delta(change) for change in changes
        }

    def all(self) -> Iterator[Row]:
        yield from self._findings()
        yield from self._blocks()
        yield from self._sets(sewn=True)
        yield from self._sets(sewn=False)
        yield from self._cloth()
        yield from self._round()
        yield from self._bias()

    def _text(self, said: Message) -> str:
        return said.text(self.measure)

    def _name(self, fabric: str) -> str:
        return self._text(fabric_name(self.materials, fabric))

    def _delta(self, change: Change) -> str:
        sign = "+" if change.by > 0 else "−"
        size = Fraction(change.by if change.by > 0 else -change.by)
        if change.part == "cloth":
            return f"{sign}{self.measure.yards(size)}"
        return f"{sign}{self.measure.number(size)}"

    def _findings(self) -> Iterator[Row]:
        found = self.materials.findings
        if found:
            yield Row("h:findings", _say("To know"), heading=True)
        for number, finding in enumerate(found):
            yield Row(f"finding:{number}", self._finding(finding), tone=_TONES[finding.severity])

    def _finding(self, finding: Finding) -> str:
        parts = (finding.message, finding.hint)
        return " ".join(self._text(part) for part in parts if part is not None)

    def _blocks(self) -> Iterator[Row]:
        total = str(self.materials.block_count)
        yield Row("h:blocks", _say("Blocks on the wall"), total, heading=True)
        for number, batch in enumerate(self.materials.batches):
            fabrics = tuple(dict.fromkeys(fabric for _, ids in batch.key.fabrics for fabric in ids))
            note = ""
            if batch.per_batch > 1:
                note = _say("{batches} × {each} from a batch, {over} over").format(
                    batches=batch.batches, each=batch.per_batch, over=batch.over
                )
            yield Row(f"batch:{number}", batch.name, str(batch.blocks), note, self._text(batch.why), fabrics)

    def _sets(self, *, sewn: bool) -> Iterator[Row]:
        found = [each for each in self.materials.sets if (len(each.lanes) > 1) == sewn]
        if not found:
            return
        title = _say("Strip sets to sew") if sewn else _say("Strips cut up as they are")
        yield Row(f"h:sets{sewn}", title, str(sum(each.sets for each in found)), heading=True)
        for each in found:
            yield self._set(each, sewn)

    def _set(self, each: StripSet, sewn: bool) -> Row:
        names = tuple(
            message("plan.strip-of-set", fabric=self._name(lane.fabric), width=lane.width)
            for lane in each.lanes
        )
        said = self._text(message("plan.set-of", strips=names))
        widths = {lane.width for lane in each.lanes}
        label = " · ".join(dict.fromkeys(self._name(lane.fabric) for lane in each.lanes))
        cut = _say("{width} cut").format(
            width=", ".join(self.measure.bare(width) for width in sorted(widths))
        )
        spare = _say("{spare} to spare").format(spare=self.measure.length(each.to_spare))
        per = (
            _say("{n} blocks each").format(n=self.measure.number(each.per_set))
            if each.per_set is not None
            else ""
        )
        note = " · ".join(part for part in (cut, per, spare) if part)
        return Row(
            f"set:{each.key}",
            label,
            str(each.sets),
            note,
            self._text(each.why),
            tuple(lane.fabric for lane in each.lanes),
            self.deltas.get(f"sets:{said}", "") if sewn else self.deltas.get(_strips_key(each, self), ""),
            tone="warn" if each.tight and each.sets else "",
        )

    def _cloth(self) -> Iterator[Row]:
        yield Row("h:cloth", _say("Cloth to buy"), self._cost(), heading=True)
        for each in self.materials.cloth:
            yield Row(
                f"cloth:{each.fabric}",
                self._name(each.fabric),
                self.measure.yards(each.buy),
                self._uses(each),
                self._text(each.why),
                (each.fabric,),
                self.deltas.get(f"cloth:{self._name(each.fabric)}", ""),
            )

    def _cost(self) -> str:
        cost = self.materials.cost
        return "" if cost is None else f"{float(cost):.2f} {self.materials.settings.currency}".strip()

    def _uses(self, each: Cloth) -> str:
        parts = []
        for use in each.uses:
            code = "plan.panel-line" if use.part == "backing" else "plan.strip-line"
            parts.append(self._text(message(code, count=use.count, width=use.size)))
        return " · ".join(parts)

    def _round(self) -> Iterator[Row]:
        yield Row("h:round", _say("Round the quilt and behind it"), heading=True)
        for number, border in enumerate(self.materials.borders, 1):
            label = _say("Border {n}, {width} finished").format(
                n=number, width=self.measure.length(border.finished_width)
            )
            sizes = (border.sides, border.ends) if border.first == "sides" else (border.ends, border.sides)
            note = " · ".join(f"2 × {self._text(message('plan.size', size=size))}" for size in sizes)
            strips = _say("{n} strips").format(n=border.strips)
            yield Row(f"border:{number}", label, strips, note, self._text(border.why), (border.fabric,))
        binding, backing, batting = self.materials.binding, self.materials.backing, self.materials.batting
        cut = self._text(message("plan.strip-line", count=binding.strips, width=binding.width))
        yield Row("binding", _say("Binding"), cut, "", self._text(binding.why), _known(binding.fabric))
        panels = _say("{n} × {length} cut").format(
            n=backing.panels.count, length=self.measure.length(backing.panels.length)
        )
        size = self._text(message("plan.size", size=backing.size))
        yield Row("backing", _say("Backing"), panels, size, self._text(backing.why), _known(backing.fabric))
        wanted = self._text(message("plan.size", size=batting.size))
        yield Row("batting", _say("Batting"), "", wanted, self._text(batting.why))

    def _bias(self) -> Iterator[Row]:
        if self.materials.bias:
            yield Row("h:bias", _say("Edges off the thread"), heading=True)
        for line in self.materials.bias:
            where = self._text(message("plan.bias-outer" if line.outer else "plan.bias-inner"))
            band = self._text(message(f"plan.band-{line.band}"))
            yield Row(
                f"bias:{line.fabric}:{line.outer}:{line.band}",
                self._name(line.fabric),
                self.measure.length(round(line.length, 1)),
                f"{where} · {band}",
                fabrics=(line.fabric,),
            )


_TONES = {"error": "error", "warning": "warn", "note": ""}


def _known(fabric: str | None) -> tuple[str, ...]:
    return () if fabric is None else (fabric,)


def _strips_key(each: StripSet, lister: _Lister) -> str:
    lane = each.lanes[0]
    said = message("plan.strips-of", fabric=fabric_name(lister.materials, lane.fabric), width=lane.width)
    return f"strips:{said.text(lister.measure)}"
