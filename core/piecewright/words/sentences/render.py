"""Sentences about pictures."""

SENTENCES: dict[str, str] = {
    "render.bias": "bias",
    "render.slight-bias": "slight bias",
    "render.waits": "open {steps:step|steps}",
    "render.waits-outer": "open to the end",
    "render.cut": "{length} cut",
    "render.each-cut": "{count} x {length} cut",
    "render.unfinished": "{length} unfinished",
    "render.block-sizes": "{unfinished}, {finished}; seam allowance {seam}.",
    "render.finished-block": "{count:block|blocks}, {unfinished}; {finished} in the quilt.",
    "render.fabric": "{letter}  {name}",
    "render.quilt": "{name}, {size}",
}
