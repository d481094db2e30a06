"""Keep at or under what there is: which fabrics a plan takes too much of, and which edit brought that about."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from piecewright.edit.registry import EditCall, apply
from piecewright.errors import Finding
from piecewright.model.design import Design
from piecewright.model.forms import STRIPS, Form, form_size
from piecewright.plan.cloth import cloth
from piecewright.plan.materials import Materials, fabric_name, materials
from piecewright.plan.stash_first import StripOnHand, taken_from, uses_left
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class OnHandCloth:
    """What there is: inches of whole cloth by fabric id, and strips. Fabrics not named are not kept to."""

    cloth: Mapping[str, Fraction]
    strips: tuple[StripOnHand, ...] = ()


@dataclass(frozen=True, slots=True)
class Over:
    """A fabric of which a plan takes `need` inches where there are `have`; `buy` would make it enough."""

    fabric: str
    name: Message
    have: Fraction
    need: Fraction
    buy: Fraction

    @property
    def by(self) -> Fraction:
        """Inches too much."""
        return self.need - self.have

    @property
    def finding(self) -> Finding:
        """As something to know, with what to do."""
        said = message("plan.over", fabric=self.name, need=self.need, have=self.have, by=self.by)
        return Finding("plan.over", "warning", said, self.fabric, message("plan.over-hint", buy=self.buy))


@dataclass(frozen=True, slots=True)
class Step:
    """One edit of several: its place in the row, and what goes over with it that did not before."""

    index: int
    call: EditCall
    over: tuple[Over, ...]


def over(made: Materials, have: OnHandCloth) -> tuple[Over, ...]:
    """The fabrics of which a plan takes more than there is, in the order of the materials."""
    return tuple(_over(made, have))


def _over(made: Materials, have: OnHandCloth) -> Iterator[Over]:
    taken = taken_from(made, have.strips)
    settings = made.settings
    for each in made.cloth:
        there = have.cloth.get(each.fabric)
        left = uses_left(each.uses, each.fabric, each.usable, taken)
        need = sum((use.inches for use in left), Fraction(0))
        if there is not None and need > there:
            missing = need - there
            bought = cloth(each.fabric, each.usable, (), missing, settings.yardage, None)
            yield Over(each.fabric, fabric_name(made, each.fabric), there, need, bought.buy)


def goes_over(before: Materials, after: Materials, have: OnHandCloth) -> tuple[Over, ...]:
    """What a change brings over what there is, or farther over: nothing where it keeps to it or makes it better."""
    old = {each.fabric: each.by for each in over(before, have)}
    return tuple(each for each in over(after, have) if each.by > old.get(each.fabric, Fraction(0)))


def first_over(design: Design, calls: Iterable[EditCall], have: OnHandCloth) -> Step | None:
    """The first of these edits, made one after the other, that goes over; None where all keep to what there is.

    Raises EditError where an edit is refused.
    """
    before = materials(design)
    for index, call in enumerate(calls):
        design = apply(design, call)
        after = materials(design)
        found = goes_over(before, after, have)
        if found:
            return Step(index, call, found)
        before = after
    return None


def on_hand_of(design: Design) -> OnHandCloth:
    """What the fabrics say is on hand: pieces of cloth as wide as the bolt, and strips by their shortest length.

    A fabric with other cloth on hand, such as quarters, is not kept to: only a plan of the cutting can tell.
    """
    whole: dict[str, Fraction] = {}
    strips: list[StripOnHand] = []
    for fabric in design.fabrics:
        held = [form for form in fabric.forms if form.count is not None]
        usable = fabric.width or design.settings.usable
        if not held or not all(_is_kept_to(form, usable) for form in held):
            continue
        sizes = [(form, *form_size(form, usable)) for form in held]
        whole[fabric.id] = sum(
            (length * (form.count or 0) for form, _, length in sizes if form.kind == "bolt" and length),
            Fraction(0),
        )
        strips += [
            StripOnHand(fabric=fabric.id, width=length, length=width, count=form.count or 0)
            for form, width, length in sizes
            if form.kind in STRIPS and length
        ]
    return OnHandCloth(whole, tuple(strips))


def _is_kept_to(form: Form, usable: Fraction) -> bool:
    """Whether cloth on hand is of the kinds that materials count: whole widths, and strips across."""
    if form.kind == "bolt":
        return form.width is None or form.width >= usable
    return form.kind in STRIPS and not form.lengthwise
