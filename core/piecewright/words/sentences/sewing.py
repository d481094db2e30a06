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
    # the order of sewing
    "sewing.title": "{name}: how the top is sewn",
    "sewing.numbered": "({number}) {said}",
    "sewing.center": "the center",
    "sewing.row": "row {number}",
    "sewing.column": "column {number}",
    "sewing.section": "section {number}",
    "sewing.border": "border {number}",
    "sewing.block-turned-0": "{name}",
    "sewing.block-turned-90": "{name} turned 90",
    "sewing.block-turned-180": "{name} turned 180",
    "sewing.block-turned-270": "{name} turned 270",
    "sewing.block-at": "{block} (column {column}, row {row})",
    "sewing.several": "{count} x {block}",
    "sewing.sew-across": "Sew {name}: {parts:and}, from left to right; {seams:seam|seams} {length} long finished.",
    "sewing.sew-down": "Sew {name}: {parts:and}, from top to bottom; {seams:seam|seams} {length} long finished.",
    "sewing.sew-all-across": "Sew {first} to {last} together, from left to right; {seams:seam|seams} {length} "
    "long finished.",
    "sewing.sew-all-down": "Sew {first} to {last} together, from top to bottom; {seams:seam|seams} {length} "
    "long finished.",
    "sewing.knot": "Sew {name}: {parts:and}. No straight seam runs through, so it takes "
    "{partial:partial seam|partial seams}.",
    "sewing.knot-open": "Sew {name}: {parts:and}. No straight seam runs through, and what fills its gaps is open.",
    "sewing.knot-begin": "Sew {before:and} to {after:and} in part only: stop {stop} before the first edge "
    "where a piece is missing ({length} seam, finished).",
    "sewing.knot-sew": "Sew {before:and} to {after:and} ({length} seam, finished).",
    "sewing.knot-finish": "Finish the partial seam between {before:and} and {after:and} ({length} seam, finished).",
    "sewing.border-sides": "Sew border {number}, {fabric}, to the left and the right: 2 seams {length} long finished.",
    "sewing.border-ends": "Sew border {number}, {fabric}, to the top and the bottom: 2 seams {length} long finished.",
    "sewing.border-miters": "Sew border {number}, {fabric}, to all four sides, from corner to corner of the {wide} and "
    "{high} long edges, and then its four mitered corners.",
    "sewing.border-sides-made": "Sew the sides of border {number} together, then to the left and the right: 2 seams "
    "{length} long finished.",
    "sewing.border-ends-made": "Sew the top and the bottom of border {number} together, corners included, then to the "
    "quilt: 2 seams {length} long finished.",
    "sewing.sew-slanted": "Sew the slanted {first} to {last} together, then the last two corner triangles on; "
    "{seams:seam|seams}, each as long as the quilt is there.",
    "sewing.part-sash": "a sash",
    "sewing.part-cornerstone": "a cornerstone",
    "sewing.part-edge-cornerstone": "a cornerstone of the edge",
    "sewing.part-side-triangle": "a side triangle",
    "sewing.part-corner-triangle": "a corner triangle",
    "sewing.part-coping-strip": "a coping strip",
    "sewing.total": "{seams:seam|seams}, {length} long together, the longest {longest} (finished).",
    "sewing.total-partial": "{seams:seam|seams}, {length} long together, the longest {longest} (finished); "
    "{partial:of them is|of them are} partial.",
    "sewing.left-out": "{count:block lies|blocks lie} over another or beyond the quilt, and {count:~is|are} not "
    "in the order of sewing.",
    "sewing.place-apart": "Move blocks apart and inside.",
    "sewing.gaps": "{cells:cell has|cells have} no block yet; the order of sewing may change once they do.",
    # pressing across the joins of a quilt
    "sewing.as-planned": "{block}: press as its own plan says.",
    "sewing.other-way": "{block}: press {other} of {count} the other way than its own plan says, the rest as it says.",
    "sewing.all-other-way": "{block}: press all {count} the other way than its own plan says.",
    "sewing.press-joins": "Press the {seams:~seam|seams} of {name} {way}.",
    "sewing.press-joins-unlike": "Press the seams of {name} in order: {runs:and}.",
    "sewing.press-to-sashes": "Press the {seams:~seam|seams} of {name} toward the sashing.",
    "sewing.press-from-sashes": "Press the {seams:~seam|seams} of {name} away from the sashing.",
    "sewing.press-run": "{count} {way}",
    "sewing.not-placed": "{block} lies nowhere in the quilt yet, so it has no neighbors.",
    "sewing.joins-no-crossings": "No seams meet on the joins of blocks.",
    "sewing.joins-nest": "On the joins of blocks {count:crossing nests|crossings nest}, and none lies to one side.",
    "sewing.joins-fewest-clashes": "On the joins of blocks {count} of {crossings:crossing|crossings} can not nest, "
    "whatever the way.",
    "sewing.joins-few-clashes": "On the joins of blocks {count} of {crossings:crossing|crossings} do not nest; no "
    "way of pressing has fewer than {bound}.",
    "sewing.join-clash": "Sewing {name}, seams that meet lie to one side at {count:crossing|crossings}.",
    "sewing.open-join": "Press one of the two open there.",
    # stretch and lump
    "sewing.bias-sewn": "{length} of edges of fabric {fabric}, {degrees:degrees} off the thread, cut in step {since}, "
    "lie open for {waits:step|steps} until step {until} sews them.",
    "sewing.bias-cut-off": "{length} of edges of fabric {fabric}, {degrees:degrees} off the thread, cut in step "
    "{since}, lie open for {waits:step|steps} until step {until} cuts them off.",
    "sewing.bias-outer": "{length} of edges of fabric {fabric}, {degrees:degrees} off the thread, cut in step {since}, "
    "lie open to the end: they are outer edges of blocks.",
    "sewing.bias-sooner": "Bias edges lie open less long when the steps are done in this order: {steps}.",
    "sewing.waits-outer": "{length}, {degrees:degrees} off the thread: open from step {since} to the end",
    "sewing.waits-for": "{length}, {degrees:degrees} off the thread: open for {waits:step|steps}, from step {since} "
    "to step {until}",
    "sewing.already-soonest": "No order of the steps lets bias edges lie open less.",
    "sewing.nothing-waits": "Every edge runs with the thread, so nothing stretches while it waits.",
    "sewing.bulge": "Where seams meet on {step}, {pressed} layers lie on each other, at {count:place|places}.",
    "sewing.bulge-open": "With {step} pressed open they are {opened}.",
    "sewing.bulge-spun": "Spun (the seam pressed to opposite sides of the crossing) they are {spun}.",
    # what to do about bias
    "sewing.care": "{what}: {care:and}.",
    "sewing.care-of-outer": "{count:outer edge|outer edges} of fabric {fabrics:and}, {degrees:degrees} off the thread, "
    "{length} long together, finished",
    "sewing.care-of-inner": "{count:inner edge|inner edges} of fabric {fabrics:and}, {degrees:degrees} off the thread, "
    "{length} long together, the longest {longest}, finished",
    "sewing.care-quiet-outer": "{count:outer edge|outer edges} of fabric {fabrics:and}, {degrees:degrees} off "
    "the thread, {length} long together, finished: too little to stretch.",
    "sewing.care-quiet-inner": "{count:inner edge|inner edges} of fabric {fabrics:and}, {degrees:degrees} off "
    "the thread, {length} long together, finished: too little to stretch.",
    "sewing.mind-outer": "{count:outer edge|outer edges} off the thread: starch, handle gently, stay-stitch",
    "sewing.mind-inner": "{count:inner edge|inner edges} off the thread: pin, do not press sideways",
    "sewing.care-handle": "lift it by the middle, never by the edge",
    "sewing.care-starch": "starch before cutting",
    "sewing.care-stay-stitch": "stay-stitch within the allowance",
    "sewing.care-pin": "pin it closely",
    "sewing.care-straight-down": "press straight down, not sideways",
}
