"""Sentences about the wall: what lies where, and what a gesture would do."""

SENTENCES: dict[str, str] = {
    # what lies where
    "wall.placed": "{name}, column {column} row {row}",
    "wall.placed-turned": "{name}, column {column} row {row}, turned {turn}",
    "wall.described": "{placed} · {size}",
    "wall.described-version": "{placed} · {size} · layer {layer} of {layers}",
    "wall.described-patch": "{block} · {letter}: {fabric}",
    "wall.cannot-be-made": "{placed} · can not be made: {why}",
    "wall.letter-unchosen": "no fabric chosen",
    "wall.empty-cell": "Column {column} row {row}, empty",
    "wall.border": "Border {number} from the inside, {width} wide finished: {fabric}",
    "wall.binding": "Binding: {fabric}",
    "wall.outside": "Beside the quilt",
    "wall.quilt": "Quilt of {columns:column|columns} and {rows:row|rows}, {count:block|blocks}, {size}",
    "wall.name": "Wall",
    "wall.empty": "Drag a block from the shelf to here, or press Enter on one to take it in hand.",
    # what a gesture would do
    "wall.in-hand": '"{name}" is in hand: arrows move it, Enter lays it down, R turns it, Escape puts it back.',
    "wall.several-in-hand": "{count:block is|blocks are} in hand: arrows move {count:~it|them}, Enter lays "
    "{count:~it|them} down, Escape puts {count:~it|them} back.",
    "wall.would-lie": '"{name}" at column {column}, row {row}.',
    "wall.would-lie-several": "{count:block|blocks}, the first at column {column}, row {row}.",
    "wall.would-recolor": "{fabric} in the place of {letter}, in {count:block|blocks}.",
    "wall.would-recolor-like": "{fabric} in the place of {other}, in {count:block|blocks}.",
    "wall.would-recolor-border": "{fabric} for border {number}.",
    "wall.would-recolor-binding": "{fabric} for the binding.",
    "wall.no-patch-here": "There is no patch here. Let the fabric fall on a block, a border or the binding.",
    "wall.tag-refused": "Not here",
    "wall.tag-copy": "Copy",
    "wall.tag-swap": "Swap",
    "wall.tag-replace": "Replace",
    "wall.selected": "{count:block|blocks} selected.",
    "wall.copied": "{count:block|blocks} copied.",
    "wall.clip-text": "{count:block|blocks}: {names:and}",
    "wall.nothing-to-paste": "There is nothing to paste: no blocks have been copied.",
    "wall.no-versions": '"{name}" comes in one kind and layer only.',
}
