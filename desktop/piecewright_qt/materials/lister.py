"""Makes the rows of the Materials panel; what did not change since the last time is not put into words again."""

from collections.abc import Callable, Hashable, Iterable, Iterator
from fractions import Fraction
from functools import partial

from PySide6.QtCore import QCoreApplication

from piecewright.model.fabric import Fabric
from piecewright.plan.batches import Batch
from piecewright.plan.bias import BiasLine
from piecewright.plan.cloth import Cloth, Use
from piecewright.plan.materials import Materials, fabric_name, sets_in_order
from piecewright.plan.sets import StripSet
from piecewright.plan.why import Subject
from piecewright.units.measure import Measure
from piecewright.units.rounding import nearest, up_to
from piecewright.units.scale import METRE, MM
from piecewright.words.message import Arg, message
from piecewright_qt.materials.around import around_rows
from piecewright_qt.materials.parts import between_rows
from piecewright_qt.materials.rows import Amount, Note, Row, Section, Tone, money

_TONES: dict[str, Tone] = {"error": "error", "warning": "warn", "note": ""}
_TENTH = nearest(Fraction(1, 10))
_MILLIMETRE = nearest(MM)
_DECIMETRE = up_to(METRE / 10)
_MOST_KEPT = 1000


def rows(materials: Materials, measure: Measure) -> tuple[Row, ...]:
    """All rows in the order of doing, from nothing: what is wrong, blocks, sets, strips, cloth, what goes round."""
    return Lister().rows(materials, measure)


class Lister:
    """Rows of one plan after another. Lines are remembered by the part of the plan they tell of.

    The plan hands out the same part again while nothing about it changes, so it is known by its identity, and kept
    beside its line so that this stays its own. `made` counts lines put into words, for tests.
    """

    def __init__(self) -> None:
        self._known: dict[Hashable, tuple[object, Row]] = {}
        self._now: dict[Hashable, tuple[object, Row]] = {}
        self._for: tuple[tuple[Fabric, ...], Measure, object] | None = None
        self._lists: list[tuple[Materials, Measure, tuple[Row, ...]]] = []
        self._names: dict[str, str] = {}
        self._lengths: dict[Fraction, str] = {}
        self.made = 0
        self.materials: Materials
        self.measure = Measure()

    def rows(self, materials: Materials, measure: Measure) -> tuple[Row, ...]:
        """All rows in the order of doing."""
        for made in self._lists:
            if made[0] is materials and made[1] == measure:
                self._lists = [made, *(other for other in self._lists if other is not made)]
                return made[2]
        key = (materials.fabrics, measure, materials.settings)
        if self._for is None or any(
            one is not other and one != other for one, other in zip(key, self._for, strict=True)
        ):
            self._for, self._known, self._names, self._lengths = key, {}, {}, {}
        self.materials, self.measure, self._now = materials, measure, {}
        listed = tuple(self._all())
        self._known |= self._now
        if len(self._known) > 6 * len(self._now) + _MOST_KEPT:
            self._known = self._now
        self._lists = [(materials, measure, listed), *self._lists[:1]]
        return listed

    # What the other makers of rows use ---------------------------------------------------------------------------

    def say(self, code: str, **args: Arg) -> str:
        """A sentence of the plan in the measure in force."""
        return message(code, **args).text(self.measure)

    def name(self, fabric: str) -> str:
        """A fabric's name, or what stands for one not chosen."""
        known = self._names.get(fabric)
        if known is None:
            known = self._names[fabric] = fabric_name(self.materials, fabric).text(self.measure)
        return known

    def length(self, inches: Fraction) -> str:
        """A length in the measure in force."""
        known = self._lengths.get(inches)
        if known is None:
            known = self._lengths[inches] = self.measure.length(inches)
        return known

    def kept(self, part: object, make: Callable[[], Row], name: Hashable = None) -> Row:
        """The row of a part of the plan, made once; `name` tells apart what else it rests on."""
        key = (id(part), name)
        found = self._known.get(key)
        if found is None:
            self.made += 1
            found = (part, make())
        self._now[key] = found
        return found[1]

    # Sections ------------------------------------------------------------------------------------------------------

    def _all(self) -> Iterator[Row]:
        yield from self._findings("errors", translated("Errors"), "error")
        yield from self._findings("findings", translated("To know"), "warning")
        yield from self._blocks()
        sets = sets_in_order(self.materials)
        yield from self._sets("sets", [found for found in sets if len(found.lanes) > 1])
        yield from self._sets("strips", [found for found in sets if len(found.lanes) == 1])
        yield from self._cloth()
        yield from between_rows(self)
        yield from around_rows(self)
        yield from self._bias()
        yield from self._findings("notes", translated("Notes"), "note")

    def _findings(self, section: Section, title: str, severity: str) -> Iterator[Row]:
        found = [one for one in self.materials.findings if one.severity == severity]
        if found:
            yield Row(f"heading:{section}", section, "heading", title, str(len(found)))
        for finding in found:
            parts = [part.text(self.measure) for part in (finding.message, finding.hint) if part is not None]
            key = (section, finding.code, finding.where, finding.message if section != "notes" else "")
            yield Row(key, section, "finding", " ".join(parts), tone=_TONES[finding.severity])

    def _blocks(self) -> Iterator[Row]:
        yield heading("blocks", translated("Blocks on the wall"), self.materials.block_count)
        if self.materials.made_count:
            made, left = self.materials.made_count, self.materials.to_make
            said = Note(translated("{n} made so far").format(n=made))
            label = translated("Still to make")
            yield Row("to-make", "blocks", "line", label, str(left), Amount(left), (said,))
        by_name: dict[str, list[Batch]] = {}
        for batch in self.materials.batches:
            by_name.setdefault(batch.name, []).append(batch)
        for name, batches in by_name.items():
            grouped = len(batches) > 1
            if grouped:
                total = sum(batch.blocks for batch in batches)
                yield Row(("group", name), "blocks", "group", name, str(total), Amount(total))
            for batch in batches:
                yield self.kept(batch, partial(self._batch, batch, grouped), grouped)

    def _batch(self, batch: Batch, grouped: bool) -> Row:
        cloth = " · ".join(", ".join(dict.fromkeys(map(self.name, ids))) for _, ids in batch.key.fabrics)
        notes = [] if grouped else [Note(cloth)]
        if batch.per_batch > 1:
            one, many = translated("1 batch of {each}"), translated("{n} batches of {each}")
            sewn = (one if batch.batches == 1 else many).format(n=batch.batches, each=batch.per_batch)
            notes.append(Note(sewn))
        if batch.over:
            notes.append(Note(translated("{over} over").format(over=batch.over)))
        return Row(
            ("batch", batch.key),
            "blocks",
            "line",
            cloth if grouped else batch.name,
            str(batch.blocks),
            Amount(batch.blocks),
            tuple(note for note in notes if note.text),
            batch.why,
            tuple(dict.fromkeys(fabric for _, ids in batch.key.fabrics for fabric in ids)),
            under=batch.name if grouped else "",
            alike=(batch.name, batch.key.fabrics),
            subject=Subject("batch", batch.key),
        )

    def _sets(self, section: Section, sets: Iterable[StripSet]) -> Iterator[Row]:
        found = list(sets)
        if not found:
            return
        title = (
            translated("Strip sets to sew") if section == "sets" else translated("Strips cut up as they are")
        )
        yield heading(section, title, sum(one.sets for one in found))
        for one in found:
            yield self.kept(one, partial(self._set, section, one))

    def _set(self, section: Section, found: StripSet) -> Row:
        widths = {lane.width for lane in found.lanes}
        fabrics = tuple(lane.fabric for lane in found.lanes)
        cut = translated("{width} cut")
        if len(widths) == 1:
            label = " · ".join(self.name(lane.fabric) for lane in found.lanes)
            notes = [Note(cut.format(width=self.length(next(iter(widths)))))]
        else:
            label = " · ".join(
                f"{self.name(lane.fabric)} {cut.format(width=self.length(lane.width))}"
                for lane in found.lanes
            )
            notes = []
        notes.extend(self._yields(section, found))
        return Row(
            ("set", found.key),
            section,
            "line",
            label,
            str(found.sets),
            Amount(found.sets),
            tuple(notes),
            found.why,
            fabrics,
            alike=fabrics,
            subject=Subject("set", found.key),
        )

    def _yields(self, section: Section, found: StripSet) -> Iterator[Note]:
        if found.per_set is not None:
            noun = self.say("plan.a-set" if section == "sets" else "plan.a-strip")
            blocks = (
                translated("1 block")
                if found.per_set == 1
                else translated("{n} blocks").format(n=found.per_set)
            )
            yield Note(translated("{blocks} to a {noun}").format(blocks=blocks, noun=noun))
        spare = self.length(found.to_spare)
        if not found.to_spare:
            yield Note(translated("nothing to spare"), "warn" if found.tight and found.sets else "")
        elif found.tight and found.sets:
            yield Note(translated("only {spare} to spare").format(spare=spare), "warn")
        else:
            yield Note(translated("{spare} to spare").format(spare=spare))

    def _cloth(self) -> Iterator[Row]:
        total = all_bought(self.materials, self.measure)
        shown = self.measure.yards(total.shown)
        yield Row("heading:cloth", "cloth", "heading", translated("Cloth to buy"), shown, total)
        for each in self.materials.cloth:
            yield self.kept(each, partial(self._cloth_line, each))
        cost = self.materials.cost
        if cost is not None:
            cents = Fraction(round(cost * 100), 100)
            value = f"{money(self.measure, cents)} {self.materials.settings.currency}".strip()
            yield Row(
                "cost",
                "cloth",
                "line",
                translated("All cloth that has a price"),
                value,
                Amount(cents, "money"),
            )

    def _cloth_line(self, each: Cloth) -> Row:
        return Row(
            ("cloth", each.fabric),
            "cloth",
            "line",
            _capital(self.name(each.fabric)),
            self.measure.yards(each.yardage),
            bought(each, self.measure),
            tuple(Note(self._use(use)) for use in each.uses),
            each.why,
            (each.fabric,),
            subject=Subject("cloth", each.fabric),
        )

    def _use(self, use: Use) -> str:
        part, _, number = use.part.partition(" ")
        one, many = translated("1 strip {width} cut"), translated("{n} strips {width} cut")
        if part == "backing":
            one, many = translated("1 panel {width} cut"), translated("{n} panels {width} cut")
        if use.grain == "square":
            one, many = translated("1 square {width} cut"), translated("{n} squares {width} cut")
        said = [(one if use.count == 1 else many).format(n=use.count, width=self.length(use.size))]
        if use.grain != "crosswise" and part != "backing":
            said.append(self.say(f"plan.grain-{use.grain}"))
        return " ".join([*said, self.say(f"plan.part-{part}", number=number)])

    def _bias(self) -> Iterator[Row]:
        if not self.materials.bias:
            return
        yield Row("heading:bias", "bias", "heading", translated("Edges off the thread"))
        for line in self.materials.bias:
            yield self._bias_line(line)

    def _bias_line(self, line: BiasLine) -> Row:
        exact = Fraction(line.length).limit_denominator(1000)
        length = _TENTH(exact) if self.measure.unit == "in" else _MILLIMETRE(exact)
        return Row(
            ("bias", line.fabric, line.outer, line.band),
            "bias",
            "line",
            self.name(line.fabric),
            self.measure.length(float(length)),
            Amount(length, "length"),
            (
                Note(translated("finished edges")),
                Note(self.say("plan.bias-outer" if line.outer else "plan.bias-inner")),
                Note(
                    self.say(f"plan.band-{line.band}"), "warn" if line.outer and line.band == "bias" else ""
                ),
            ),
            None,
            (line.fabric,),
        )


def heading(section: Section, label: str, total: int) -> Row:
    """The heading of a section with its total."""
    return Row(f"heading:{section}", section, "heading", label, str(total), Amount(total))


def bought(cloth: Cloth, measure: Measure) -> Amount:
    """Cloth to buy as its number is shown: meters go up to a tenth from what is exact."""
    return Amount(cloth.buy if measure.unit == "in" else _DECIMETRE(cloth.exact), "yards")


def all_bought(materials: Materials, measure: Measure) -> Amount:
    """All cloth to buy: the sum of what is shown fabric by fabric."""
    return Amount(sum((bought(each, measure).shown for each in materials.cloth), Fraction(0)), "yards")


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def translated(text: str) -> str:
    """The words of a row in the user's language."""
    return QCoreApplication.translate("materials", text)
