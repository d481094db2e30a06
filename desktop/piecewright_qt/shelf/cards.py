"""What the shelf shows of a design: one card a block and one a fabric, plain values that compare."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from piecewright.edit.footprint import placement_at
from piecewright.edit.registry import Cell, EditCall, call
from piecewright.making.facts import Facts
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Placement
from piecewright.plan.tray import Tray, placed_counts
from piecewright.units.sizes import Finished
from piecewright.words.message import Arg, Message, message
from piecewright_qt.wall.looks import Look, Looks, looks_of


@dataclass(frozen=True)
class Face:
    """One of the unlike blocks that a making gives; `word` names it among the others, None for the only one."""

    kind: int
    layer: int
    look: Look
    word: Message | None


@dataclass(frozen=True)
class BlockCard:
    """A block of the shelf as shown; `fault` says why it can not be made, `count` how often it lies on the wall."""

    block: Block
    recipe: str
    fabrics: tuple[str, ...]
    faces: tuple[Face, ...]
    finished: Finished | None
    fault: Message | None
    count: int

    @property
    def id(self) -> str:
        """The block's id."""
        return self.block.id

    @cached_property
    def words(self) -> str:
        """All that it can be found by, folded."""
        return " ".join((self.block.name, self.recipe, *self.fabrics)).casefold()

    @property
    def size(self) -> Message:
        """Its size in words, or why it has none."""
        if self.finished is None:
            return message("shelf.cannot-be-made", why=self.fault or "")
        return message("plan.size", size=self.finished)

    @property
    def placed(self) -> Message:
        """How many lie on the wall, in words."""
        return message("shelf.on-wall", count=self.count) if self.count else message("shelf.none-on-wall")

    @property
    def tray(self) -> Message | None:
        """How many are made, and how many of them wait or are still to make; None where nothing hangs or is made."""
        tray = Tray(self.block.made, self.count)
        if not tray.made:
            return message("shelf.none-made", count=tray.hanging) if tray.hanging else None
        if tray.to_make:
            return message("shelf.to-make", made=tray.made, count=tray.to_make)
        if tray.to_place:
            return message("shelf.to-hang", made=tray.made, count=tray.to_place)
        return message("shelf.all-hang", made=tray.made)

    def spoken(self, face: int) -> Message:
        """The card as a screen reader says it, one of its faces chosen."""
        tray = self.tray
        placed = (
            self.placed if tray is None else message("shelf.placed-and-made", placed=self.placed, tray=tray)
        )
        said: dict[str, Arg] = {"name": self.block.name, "size": self.size, "placed": placed}
        word = self.faces[face].word if self.faces else None
        spoken = (
            message("shelf.spoken", **said)
            if word is None
            else message("shelf.spoken-version", version=word, **said)
        )
        return message("shelf.spoken-favorite", spoken=spoken) if self.block.favorite else spoken


@dataclass(frozen=True)
class FabricCard:
    """A fabric of the design as shown."""

    fabric: Fabric

    @property
    def id(self) -> str:
        """The fabric's id."""
        return self.fabric.id

    @cached_property
    def words(self) -> str:
        """All that it can be found by, folded."""
        printed = self.fabric.print.kind if self.fabric.print else "solid"
        return f"{self.fabric.name} {printed} {self.fabric.note}".casefold()


def block_cards(design: Design) -> list[BlockCard]:
    """A card for every block, favorites first, else in the order of the shelf."""
    counts = placed_counts(design.quilt)
    return [
        replace(card, count=counts[card.id]) if card.id in counts else card
        for card in _unplaced_cards(looks_of(design))
    ]


def fabric_cards(design: Design) -> list[FabricCard]:
    """A card for every fabric, in the design's order."""
    return [FabricCard(fabric) for fabric in design.fabrics]


def recolorings(
    design: Design, cells: tuple[Cell, ...], fabric: str
) -> list[tuple[str, str | None, EditCall]]:
    """What a fabric can take the place of in the selected blocks: letter, the id of the present fabric, the edit.

    A letter that a stack shows in several fabrics is offered fabric by fabric. Letters alike are offered once,
    with the fabric of the first block that has it.
    """
    found: dict[tuple[str, str | None], tuple[str, str | None, EditCall]] = {}
    for cell in cells:
        laid = placement_at(design.quilt, design, cell.column, cell.row)
        if laid is None:
            continue
        letters = design.letters(laid.placement)
        for letter in design.shelf.letters(laid.placement.block):
            present = tuple(dict.fromkeys(letters.get(letter, ())))
            if len(present) > 1:
                for one in present:
                    edit = call("recolor-blocks", cells=cells, fabric=one, to=fabric)
                    found.setdefault(("", one), (letter, one, edit))
            else:
                edit = call("recolor-letter", cells=cells, letter=letter, fabric=fabric)
                found.setdefault((letter, None), (letter, present[0] if present else None, edit))
    return list(found.values())


def faces_of(looks: Looks, block: str, made: Facts) -> tuple[Face, ...]:
    """The unlike blocks that a making gives, each once."""
    found: dict[Look, tuple[int, int]] = {}
    for index, kind in enumerate(made.kinds):
        for layer in kind.layers:
            look = looks.of(Placement(0, block, kind=index, layer=layer))
            if look is not None:
                found.setdefault(look, (index, layer))
    several = len(found) > 1
    return tuple(
        Face(kind, layer, look, _face_word(made, kind, layer) if several else None)
        for look, (kind, layer) in found.items()
    )


@lru_cache(maxsize=8)
def _unplaced_cards(looks: Looks) -> tuple[BlockCard, ...]:
    """The cards of a shelf as if nothing lay on the wall. Cached: most edits leave the shelf as it is."""
    ordered = sorted(looks.design.blocks, key=lambda block: not block.favorite)
    return tuple(_block_card(looks, block) for block in ordered)


def _block_card(looks: Looks, block: Block) -> BlockCard:
    fault = looks.fault(Placement(0, block.id))
    made = looks.facts(block.id) if fault is None else None
    return BlockCard(
        block=block,
        recipe=looks.design.shelf.recipes[block.recipe].name,
        fabrics=tuple(dict.fromkeys(_fabric_names(looks.design, block))),
        faces=faces_of(looks, block.id, made) if made else (),
        finished=made.finished if made else None,
        fault=fault.message if fault else None,
        count=0,
    )


def _fabric_names(design: Design, block: Block) -> Iterator[str]:
    for letter in design.shelf.letters(block.id):
        for fabric in block.fabrics.get(letter, ()):
            yield design.shelf.fabrics[fabric].name


def _face_word(made: Facts, kind: int, layer: int) -> Message:
    kinds, layers = len(made.kinds), made.stack
    numbers = {"kind": kind + 1, "kinds": kinds, "layer": layer + 1, "layers": layers}
    if kinds == 1:
        return message("shelf.layer", layer=layer + 1, layers=layers)
    if layers == 1:
        return message("shelf.kind", kind=kind + 1, kinds=kinds)
    return message("shelf.kind-and-layer", **numbers)
