"""Random edits: arguments for every registered edit, drawn from a `Random` to suit a design more or less."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from random import Random
from typing import Any

from piecewright.edit.arranging import Hung
from piecewright.edit.facts_of import given_of
from piecewright.edit.footprint import placement_at
from piecewright.edit.pasting import Clip, clip_of, clip_of_shelf
from piecewright.edit.placing import Offset
from piecewright.edit.registry import Cell, EditCall, call
from piecewright.edit.scaling import block_units
from piecewright.making.names import resolve_names, vary_range
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.quilt import Placement, turned_by
from piecewright.model.value import NO_SIZES, Sizes
from tests.core.cell_strategies import random_cell, random_cells
from tests.core.setting_strategies import random_sashing, random_triangles
from tests.core.strategies import (
    NAMES,
    TURNS,
    UNITS,
    cells_under,
    random_backing,
    random_batting,
    random_binding,
    random_block,
    random_border,
    random_design,
    random_fabric,
    random_forms,
    random_lattice,
    random_letters,
    random_note,
    random_placement,
    random_settings,
    random_shape,
)

FEW = 6
ENOUGH = 24
"""So many arrangements and borders, and fabrics, recipes and blocks, at most: a walk does not only grow."""


def _fabric(random: Random, design: Design) -> str:
    return "f999" if random.random() < 0.05 else _one(random, design.shelf.fabrics, "f999")


def _block(random: Random, design: Design) -> str:
    return "b999" if random.random() < 0.02 else _one(random, design.shelf.blocks, "b999")


def _recipe(random: Random, design: Design) -> str:
    return _one(random, design.shelf.recipes, "r999")


def _one(random: Random, known: Mapping[str, object], otherwise: str) -> str:
    return random.choice(tuple(known)) if known else otherwise


def _index(random: Random, count: int) -> int:
    return random.randint(-1, count) if random.random() < 0.1 else random.randrange(max(count, 1))


def _note(random: Random, design: Design) -> int:
    return _index(random, len(design.quilt.notes))


def _shipped(random: Random) -> Recipe:
    return shipped_recipes()[random.choice(sorted(shipped_recipes()))]


def _selection_at_offset(random: Random, design: Design) -> dict[str, Any]:
    steps = {"columns": random.randint(-3, 3), "rows": random.randint(-3, 3)}
    return {"cells": random_cells(random, design), **steps}


def _rectangle(random: Random, design: Design) -> dict[str, Any]:
    return {
        "cell": random_cell(random, design),
        "columns": random.randint(1, 10),
        "rows": random.randint(1, 10),
        "replace": random.random() < 0.3,
    }


def _arranged(random: Random, design: Design) -> dict[str, Any]:
    """Some blocks taken off and hung again, some turned half round or a cell away from where they were."""
    laid = [
        placement_at(design.quilt, design, cell.column, cell.row) for cell in random_cells(random, design)
    ]
    there = list({one[:2]: one for one in laid if one is not None}.values())
    hung = [
        Hung(
            one.row + (random.random() < 0.1),
            one.placement.changed(turn=turned_by(one.placement.turn, random.choice((0, 180)))),
        )
        for one in there
    ]
    return {"lift": tuple(Cell(*one[:2]) for one in there), "lay": tuple(hung)}


def _with_fitting_blocks(design: Design) -> Design:
    """The design with just those blocks on the shelf that lie in whole cells of the lattice, if any do."""
    unit = design.quilt.lattice.unit
    fitting = [block for block in design.blocks if cells_under(design, Placement(0, block.id), 0, 0, unit)]
    return Design(
        "Fitting", design.fabrics, design.recipes, tuple(fitting) or design.blocks, next_id=design.next_id
    )


def _place(random: Random, design: Design) -> dict[str, Any]:
    if not design.blocks:
        return {"block": "b999", "cell": random_cell(random, design)}
    drawn = random_placement(random, _with_fitting_blocks(design) if random.random() < 0.9 else design, 0)
    return {
        "block": drawn.block,
        "cell": random_cell(random, design),
        "turn": drawn.turn,
        "kind": drawn.kind + (random.random() < 0.02),
        "layer": drawn.layer + (random.random() < 0.02),
        "fabrics": drawn.fabrics,
    }


def _fill(random: Random, design: Design) -> dict[str, Any]:
    return {**_place(random, design), **_rectangle(random, design), "alternate": random.choice(TURNS)}


def _replacing(random: Random, design: Design) -> dict[str, Any]:
    """Another block, or now and then the same, for one or several places."""
    cells = random_cells(random, design, random.choice((1, 1, 3)))
    return {"cells": cells, "block": random.choice((_block(random, design), *sorted(design.quilt.blocks)))}


def _recolor_letter(random: Random, design: Design) -> dict[str, Any]:
    letter = random.choice(("A", "B", "C"))
    layer = random.choice((None, 0, 1))
    return {
        "cells": random_cells(random, design),
        "letter": letter,
        "fabric": _fabric(random, design),
        "layer": layer,
    }


def _set_letters(random: Random, design: Design) -> dict[str, Any]:
    letters = random_letters(random, _shipped(random), tuple(design.shelf.fabrics))
    return {"cells": random_cells(random, design), "fabrics": letters}


def _new_fabric(random: Random, design: Design) -> dict[str, Any] | None:
    if len(design.fabrics) >= ENOUGH:
        return None
    fabric = random_fabric(random, "f1")
    return {name: getattr(fabric, name) for name in fabric.__struct_fields__ if name != "id"}


def _changed_fabric(random: Random, design: Design) -> dict[str, Any]:
    return {"fabric": random_fabric(random, _fabric(random, design))}


def _new_recipe(random: Random, design: Design) -> dict[str, Any] | None:
    return {"recipe": _shipped(random)} if len(design.recipes) < ENOUGH else None


def _changed_recipe(random: Random, design: Design) -> dict[str, Any]:
    return {"recipe": _recipe(random, design), "to": _shipped(random)}


def _new_block(random: Random, design: Design) -> dict[str, Any] | None:
    if len(design.blocks) >= ENOUGH:
        return None
    entry = (
        random.choice(design.recipes)
        if design.recipes and random.random() < 0.7
        else RecipeEntry("r1", _shipped(random))
    )
    block = random_block(random, "b1", entry, design.fabrics)
    made = {"recipe": entry.id} if entry in design.recipes else {"new_recipe": entry.recipe}
    return {
        "name": block.name,
        "sizes": block.sizes,
        "fabrics": block.fabrics,
        "favorite": block.favorite,
        **made,
    }


def _drawn_blocks(random: Random, design: Design) -> dict[str, Any] | None:
    """Blocks with values drawn for what varies; most recipes leave nothing to chance, and then it is refused."""
    varied = [one.id for one in design.blocks if design.shelf.recipes[one.recipe].vary]
    block = random.choice(varied) if varied and random.random() < 0.9 else _block(random, design)
    if len(design.blocks) >= ENOUGH or block not in design.shelf.blocks:
        return {"block": block, "draws": ()}
    found = design.shelf.blocks[block]
    recipe = design.shelf.recipes[found.recipe]
    names = resolve_names(recipe, given_of(design, found))
    ranges = {name: vary_range(varied, names, name) for name, varied in recipe.vary.items()}
    count = random.randint(1, 3)
    return {
        "block": block,
        "draws": tuple(
            Sizes({name: one.value(random.randrange(one.count)) for name, one in ranges.items()})
            for _ in range(count)
        ),
    }


def _changed_block(random: Random, design: Design) -> dict[str, Any]:
    if not design.blocks or not design.recipes:
        return {"block": Block("b999", "Nowhere", "r999", NO_SIZES)}
    old = random.choice(design.blocks)
    entry = random.choice(design.recipes)
    if random.random() < 0.7:
        entry = next(entry for entry in design.recipes if entry.id == old.recipe)
    return {"block": random_block(random, old.id, entry, design.fabrics)}


def _remade_block(random: Random, design: Design) -> dict[str, Any]:
    return {**_changed_block(random, design), "to": _shipped(random)}


def _clip(random: Random, design: Design) -> Clip:
    """What was copied: from this wall or shelf, or from those of another design."""
    source = design if random.random() < 0.5 else random_design(random)
    places = [Cell(placement.column, row.row) for row in source.quilt.rows for placement in row.placements]
    if places and random.random() < 0.7:
        return clip_of(source, tuple(random.sample(places, min(len(places), 3))))
    return clip_of_shelf(source, [block.id for block in source.blocks[:2]])


def _paste(random: Random, design: Design) -> dict[str, Any] | None:
    if max(len(design.fabrics), len(design.blocks)) >= ENOUGH - FEW:
        return None
    return {
        "clip": _clip(random, design),
        "cell": random_cell(random, design),
        "replace": random.random() < 0.3,
    }


def _new_arrangement(random: Random, design: Design) -> dict[str, Any] | None:
    if len(design.arrangements) >= FEW:
        return None
    lattice = random_lattice(random)
    return {
        "name": random.choice(NAMES),
        "unit": lattice.unit,
        "columns": lattice.columns,
        "rows": lattice.rows,
    }


def _copied_arrangement(random: Random, design: Design) -> dict[str, Any] | None:
    if len(design.arrangements) >= FEW:
        return None
    return {"index": _index(random, len(design.arrangements)), "name": random.choice(NAMES)}


def _new_border(random: Random, design: Design) -> dict[str, Any] | None:
    if len(design.quilt.borders) >= FEW:
        return None
    at = random.choice((None, _index(random, len(design.quilt.borders) + 1)))
    return {"border": random_border(random, _fabric(random, design)), "at": at}


def _path(random: Random, design: Design) -> dict[str, Any]:
    ways = (Offset(0, 1), Offset(1, 0), Offset(0, -1), Offset(-1, 0))
    return {
        "cells": random_cells(random, design),
        "path": tuple(random.choice(ways) for _ in range(random.randint(1, 3))),
    }


def _together(random: Random, design: Design) -> dict[str, Any]:
    """A few edits in a row that each may suit the design as it is; now and then one that is itself several."""
    others = sorted(set(ARGUMENTS) - {"do-together"})
    names = [
        "do-together" if random.random() < 0.02 else random.choice(others)
        for _ in range(random.randint(0, 3))
    ]
    calls = tuple(random_call(random, design, name) for name in names)
    return {"edits": calls, "purpose": random.choice(("changes", "resize"))}


ARGUMENTS: Mapping[str, Callable[[Random, Design], dict[str, Any] | None]] = {
    "set-sashing": lambda random, design: random_sashing(random, _fabric(random, design)),
    "set-triangles": lambda random, design: {"triangles": random_triangles(random, _fabric(random, design))},
    "place-block": lambda random, design: {**_place(random, design), "replace": random.random() < 0.5},
    "arrange-blocks": _arranged,
    "lock-blocks": lambda random, design: {
        "cells": random_cells(random, design, 2),
        "locked": random.random() < 0.3,
    },
    "set-shape": lambda random, _: {
        "shape": random_shape(random) if random.random() < 0.7 else None,
        "cover": random.random() < 0.5,
    },
    "cover-shape": lambda random, design: {
        "block": _block(random, design),
        "turn": random.choice((0, 0, 90)),
    },
    "group-blocks": lambda random, design: {"cells": random_cells(random, design)},
    "ungroup-blocks": lambda random, design: {"cells": random_cells(random, design, 2)},
    "pin-note": lambda random, design: (
        {"note": random_note(random)} if len(design.quilt.notes) < FEW else None
    ),
    "write-note": lambda random, design: {
        "index": _note(random, design),
        "text": random.choice((*NAMES, " ")),
    },
    "move-note": lambda random, design: {
        "index": _note(random, design),
        "across": Fraction(random.randint(-9, 9), 2),
        "down": Fraction(random.randint(-9, 9), 2),
    },
    "remove-note": lambda random, design: {"index": _note(random, design)},
    "move-blocks": _selection_at_offset,
    "nudge-blocks": _path,
    "copy-blocks": lambda random, design: {
        **_selection_at_offset(random, design),
        "replace": random.random() < 0.5,
    },
    "remove-blocks": lambda random, design: {"cells": random_cells(random, design, 2)},
    "swap-blocks": lambda random, design: dict(
        zip(("first", "second"), (random_cells(random, design, 2) * 2 + (Cell(0, 0),) * 2)[:2], strict=True)
    ),
    "turn-blocks": lambda random, design: {
        "cells": random_cells(random, design),
        "by": random.choice((90, 180, 270)),
        "together": random.random() < 0.4,
    },
    "set-kind": lambda random, design: {
        "cells": random_cells(random, design),
        "kind": random.choice((0, 0, 1)),
    },
    "set-layer": lambda random, design: {
        "cells": random_cells(random, design),
        "layer": random.choice((0, 0, 1, 2)),
    },
    "fill-cells": _fill,
    "repeat-blocks": lambda random, design: {
        "cells": random_cells(random, design),
        **_rectangle(random, design),
    },
    "replace-blocks": _replacing,
    "replace-everywhere": lambda random, design: {
        "block": _block(random, design),
        "to": _block(random, design),
    },
    "recolor-letter": _recolor_letter,
    "recolor-blocks": lambda random, design: {
        "cells": random_cells(random, design),
        "fabric": _fabric(random, design),
        "to": _fabric(random, design),
    },
    "set-block-fabrics": _set_letters,
    "restore-fabrics": lambda random, design: {"cells": random_cells(random, design)},
    "add-fabric": _new_fabric,
    "change-fabric": _changed_fabric,
    "set-forms": lambda random, design: {
        "fabric": _fabric(random, design),
        "forms": random_forms(random),
    },
    "remove-fabric": lambda random, design: {"fabric": _fabric(random, design)},
    "replace-fabric": lambda random, design: {
        "fabric": _fabric(random, design),
        "to": _fabric(random, design),
    },
    "swap-fabrics": lambda random, design: {
        "first": _fabric(random, design),
        "second": _fabric(random, design),
    },
    "add-recipe": _new_recipe,
    "change-recipe": _changed_recipe,
    "remove-recipe": lambda random, design: {"recipe": _recipe(random, design)},
    "add-block": _new_block,
    "change-block": _changed_block,
    "remake-block": _remade_block,
    "keep-draws": _drawn_blocks,
    "remove-block": lambda random, design: {"block": _block(random, design)},
    "set-favorite": lambda random, design: {
        "block": _block(random, design),
        "favorite": random.random() < 0.5,
    },
    "set-made": lambda random, design: {"block": _block(random, design), "made": random.randint(-1, 20)},
    "set-columns": lambda random, _: {
        "columns": random.randint(0, 16),
        "at": random.choice(("left", "right")),
    },
    "set-rows": lambda random, _: {
        "rows": random.randint(6, 18) if random.random() < 0.9 else 0,
        "at": random.choice(("top", "bottom")),
    },
    "set-target-size": lambda random, _: {
        "width": Fraction(random.randint(0, 90)),
        "height": Fraction(random.randint(0, 90)),
    },
    "resize-quilt": lambda random, design: {
        "columns": random.choice((None, random.randint(1, 20))),
        "rows": random.choice((None, random.randint(1, 20))),
        "unit": random.choice((None, *block_units(design))),
        "border": random.choice((None, Fraction(random.randint(0, 12), 2))),
        "sashing": random.choice((None, None, Fraction(random.randint(0, 6), 2))),
    },
    "set-unit": lambda random, _: {"unit": random.choice((*UNITS, Fraction(1), Fraction(0)))},
    "set-block-size": lambda random, design: {
        "unit": random.choice(
            (*block_units(design), *block_units(design), Fraction(0), design.quilt.lattice.unit * 2)
        )
    },
    "add-border": _new_border,
    "change-border": lambda random, design: {
        "index": _index(random, len(design.quilt.borders)),
        "border": random_border(random, _fabric(random, design)),
    },
    "remove-border": lambda random, design: {"index": _index(random, len(design.quilt.borders))},
    "move-border": lambda random, design: {
        "index": _index(random, len(design.quilt.borders)),
        "to": _index(random, len(design.quilt.borders)),
    },
    "change-setting": lambda random, _: {
        "kind": random.choice(("straight", "on point")),
        "columns": random.choice((None, None, random.randint(1, 9))),
        "rows": random.choice((None, None, random.randint(1, 9))),
        "space": random.choice((None, None, 1, 2, 3)),
    },
    "continue-quilt": lambda random, design: {
        "columns": max(design.quilt.lattice.columns + random.randint(-3, 5), 0),
        "rows": max(design.quilt.lattice.rows + random.randint(-3, 5), 0),
    },
    "do-together": _together,
    "alternate-turns": lambda random, _: {"by": random.choice((90, 180, 270))},
    "alternate-plain": lambda random, design: {"fabric": _fabric(random, design)},
    "stack-columns": lambda random, _: {
        "width": random.choice((None, None, 1, 3, 6)),
        "at": random.choice(("top", "middle", "spread")),
    },
    "lay-medallion": lambda random, design: {"cell": random_cell(random, design)},
    "fill-gaps": lambda random, design: {
        "blocks": tuple(_block(random, design) for _ in range(random.randint(0, 2))),
        "fabric": random.choice((None, _fabric(random, design))),
    },
    "set-coping": lambda random, design: {"fabric": random.choice((None, _fabric(random, design)))},
    "set-binding": lambda random, design: {"binding": random_binding(random, _fabric(random, design))},
    "set-backing": lambda random, design: {"backing": random_backing(random, _fabric(random, design))},
    "widen-backing": lambda random, _: {
        "name": random.choice((*NAMES, " ")),
        "width": Fraction(random.randint(0, 120)),
    },
    "set-batting": lambda random, _: {"batting": random_batting(random)},
    "add-arrangement": _new_arrangement,
    "duplicate-arrangement": _copied_arrangement,
    "rename-arrangement": lambda random, design: {
        "index": _index(random, len(design.arrangements)),
        "name": random.choice((*NAMES, " ")),
    },
    "remove-arrangement": lambda random, design: {"index": _index(random, len(design.arrangements))},
    "switch-arrangement": lambda random, design: {"index": _index(random, len(design.arrangements))},
    "change-settings": lambda random, _: {"settings": random_settings(random)},
    "set-name": lambda random, _: {"name": random.choice((*NAMES, ""))},
    "set-author": lambda random, _: {"author": random.choice(NAMES)},
    "set-about": lambda random, _: {"about": random.choice(NAMES)},
    "paste-blocks": _paste,
}
"""How arguments for each registered edit are drawn; None where a design has enough of what it adds."""

LAYING = ("place-block", "fill-cells", "copy-blocks", "repeat-blocks", "move-blocks", "turn-blocks")


def random_call(random: Random, design: Design, name: str | None = None) -> EditCall:
    """An edit that may suit the design: of that name, or of any, laying blocks more often than others."""
    while True:
        chosen = name or (
            random.choice(LAYING) if random.random() < 0.3 else random.choice(sorted(ARGUMENTS))
        )
        arguments = ARGUMENTS[chosen](random, design)
        if arguments is not None:
            return call(chosen, **arguments)
        name = None
