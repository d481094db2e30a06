"""The shopping list: what of each fabric is in the stash and what must be bought, in which form, at what price."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from piecewright.model.design import Design
from piecewright.model.forms import FormKind
from piecewright.plan.batting import BattingPlan
from piecewright.plan.cloth import Cloth, cloth, said_rounding
from piecewright.plan.materials import Materials, materials
from piecewright.plan.stash_first import StripOnHand, Taken, taken_from, uses_left
from piecewright.units.measure import Yardage
from piecewright.units.rounding import round_yardage, whole_up
from piecewright.units.scale import YARD
from piecewright.words.message import Message, message

BuyKind = FormKind | Literal["package", "roll"]


@dataclass(frozen=True, slots=True)
class Amount:
    """What a plan of the cutting takes of one fabric: inches off the bolt, or so many of another form."""

    form: FormKind
    amount: Fraction


_UNPLANNED: Mapping[str, Amount] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to buy, or a fabric of which the stash has enough.

    `fabric` is its id ("?A": not chosen yet), "" for batting. `need` is what cutting takes beside the stash and
    `buy` what to ask for in the shop, with shrinkage, margin and rounding: inches off the bolt or off a roll,
    else how many; None where only a plan of the cutting can tell how many. `exact` is the inches before rounding,
    where `buy` is rounded. `taken` comes from the stash.
    """

    fabric: str
    form: BuyKind
    need: Fraction
    buy: Fraction | None
    taken: tuple[Taken, ...]
    cost: Fraction | None
    why: Message
    exact: Fraction | None = None

    @property
    def yardage(self) -> Yardage | None:
        """What is bought by its length, for whichever measure it is shown in."""
        if self.buy is None or not self.by_length:
            return None
        return Yardage(self.buy if self.exact is None else self.exact, self.buy)

    @property
    def by_length(self) -> bool:
        """Whether it is bought by its length, and `buy` is inches."""
        return self.form in ("bolt", "roll")


@dataclass(frozen=True, slots=True)
class Bundle:
    """At least so many bundles of a form, each of so many pieces."""

    form: BuyKind
    count: int
    pieces: int


@dataclass(frozen=True, slots=True)
class Shopping:
    """What to buy for one arrangement: cloth in the order of the materials, then batting."""

    materials: Materials
    lines: tuple[Line, ...]

    @property
    def total(self) -> Fraction | None:
        """The price of all that has one; None where nothing has."""
        costs = [line.cost for line in self.lines if line.cost is not None]
        return sum(costs, Fraction(0)) if costs else None

    @property
    def bundles(self) -> tuple[Bundle, ...]:
        """The bundles to buy for what is had from bundles: as few as hold so many pieces, of whatever fabrics."""
        sizes = self.materials.settings.bundles
        per: dict[BuyKind, int] = {
            "roll strip": sizes.roll,
            "10 inch square": sizes.squares,
            "5 inch square": sizes.squares,
        }
        counted = {form: sum(line.buy or 0 for line in self.lines if line.form == form) for form in per}
        return tuple(
            Bundle(form, whole_up(Fraction(pieces, per[form])), per[form])
            for form, pieces in counted.items()
            if pieces
        )

    @property
    def taken(self) -> tuple[Taken, ...]:
        """All that comes from the stash."""
        return tuple(taken for line in self.lines for taken in line.taken)


def shopping(
    design: Design, stash: tuple[StripOnHand, ...] = (), cut: Mapping[str, Amount] = _UNPLANNED
) -> Shopping:
    """The list for the arrangement in view.

    Strips of the `stash` are used first. `cut` gives, by fabric, what a plan of the cutting takes of the form
    that is bought, the cloth on hand used up; without it cloth comes off the bolt, strip by strip. A fabric
    that strips of the stash serve for goes by its strips, since a plan of the cutting does not know of them.
    """
    made = materials(design)
    taken = taken_from(made, stash)
    forms = {fabric.id: form.kind for fabric in design.fabrics for form in fabric.forms if form.bought}
    lines = (
        _cloth_line(made, each, _of(taken, each.fabric), forms.get(each.fabric, "bolt"), cut.get(each.fabric))
        for each in made.cloth
    )
    return Shopping(made, (*lines, *_batting_lines(made.batting)))


def _of(taken: tuple[Taken, ...], fabric: str) -> tuple[Taken, ...]:
    return tuple(each for each in taken if each.strip.fabric == fabric)


def _cloth_line(
    made: Materials, plain: Cloth, taken: tuple[Taken, ...], form: FormKind, cut: Amount | None
) -> Line:
    if cut is not None and not taken:
        return _planned(made, plain, cut)
    left = _bought(made, plain, taken)
    if form != "bolt" and left.inches:
        why = message("plan.shopping-by-plan")
        return Line(plain.fabric, form, left.inches, None, taken, None, why)
    if not left.inches:
        return Line(
            plain.fabric, form, left.inches, Fraction(0), taken, None, message("plan.shopping-enough")
        )
    return Line(plain.fabric, form, left.inches, left.buy, taken, left.cost, left.why, left.exact)


def _planned(made: Materials, plain: Cloth, cut: Amount) -> Line:
    """What the plan of the cutting takes; off the bolt with shrinkage, margin and rounding."""
    if cut.form != "bolt":
        why = message("plan.shopping-pieces", count=cut.amount, form=message(f"plan.form-{_key(cut.form)}"))
        return Line(plain.fabric, cut.form, cut.amount, cut.amount, (), None, why)
    settings, shrinkage = made.settings, made.settings.shrinkage
    exact = shrinkage.before(cut.amount, shrinkage.cloth) + (settings.margin if cut.amount else 0)
    buy = round_yardage(exact, settings.yardage)
    price = _price(made, plain.fabric)
    why = message(
        "plan.shopping-cut-more" if exact > cut.amount else "plan.shopping-cut",
        inches=cut.amount,
        exact=exact,
        rounding=said_rounding(settings.yardage),
        buy=Yardage(exact, buy),
    )
    cost = None if price is None else price * buy / YARD
    return Line(plain.fabric, "bolt", cut.amount, buy, (), cost, why, exact)


def _bought(made: Materials, plain: Cloth, taken: tuple[Taken, ...]) -> Cloth:
    if not taken:
        return plain
    settings = made.settings
    return cloth(
        plain.fabric,
        plain.usable,
        uses_left(plain.uses, plain.fabric, plain.usable, taken),
        settings.margin,
        settings.yardage,
        _price(made, plain.fabric),
        settings.shrinkage,
    )


def _price(made: Materials, fabric: str) -> Fraction | None:
    return next((each.price for each in made.fabrics if each.id == fabric), None)


def _batting_lines(batting: BattingPlan) -> Iterator[Line]:
    if batting.package is not None:
        yield Line("", "package", Fraction(1), Fraction(1), (), None, batting.why)
    elif batting.roll is not None:
        yield Line("", "roll", batting.roll.length, batting.roll.length, (), None, batting.why)
    else:
        yield Line("", "roll", Fraction(0), None, (), None, batting.why)


def _key(form: str) -> str:
    return form.replace(" ", "-")
