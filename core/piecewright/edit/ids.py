"""New ids, drawn from the counter inside the design, so that a replay gives the same ones."""

from piecewright.model.design import Design


def with_new_id(design: Design, letter: str) -> tuple[str, Design]:
    """The next id with a letter ("f" fabric, "r" recipe, "b" block), and the design that has counted it."""
    return f"{letter}{design.next_id}", design.changed(next_id=design.next_id + 1)


def new_ids(before: Design, after: Design) -> tuple[str, ...]:
    """The ids of fabrics, recipes and blocks that an edit brought, in the design's order."""
    shelves = [
        (design.shelf.fabrics, design.shelf.recipes, design.shelf.blocks) for design in (before, after)
    ]
    return tuple(name for old, new in zip(*shelves, strict=True) for name in new if name not in old)
