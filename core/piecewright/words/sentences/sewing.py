"""Sentences about the order of sewing."""

SENTENCES: dict[str, str] = {
    # pressing inside a block
    "sewing.opposite-layers": "The seams of {step} are pressed one way in some layers and the other way in "
    "others, so that they nest once parts have changed places.",
    "sewing.no-crossings": "No seams cross, so each may be pressed as you like.",
    "sewing.all-nest": "Pressed so, {count:crossing nests|crossings nest}, and none lies to one side.",
    "sewing.fewest-clashes": "{count} of {crossings:crossing|crossings} can not nest, whatever the way.",
    "sewing.few-clashes": "{count} of {crossings:crossing|crossings} do not nest; no way of pressing has "
    "fewer than {bound}.",
    "sewing.clash": "{one} and {other} lie to one side where they meet on {on}, at {count:crossing|crossings}.",
    "sewing.press-open": "Press {seams:and} open.",
}
