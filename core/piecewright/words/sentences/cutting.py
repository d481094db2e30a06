"""Sentences about cutting: what a plan saves, how little could do, lines of the cutting list, and faults."""

SENTENCES: dict[str, str] = {
    # what a plan takes and saves
    "cutting.takes-cloth": "Takes {inches} of cloth, {buy:yards} to buy.",
    "cutting.takes-sheets": "Takes {sheets}.",
    "cutting.saves-cloth": "Saves {saved} of cloth, {bought:yards} to buy, against each size in strips of its own.",
    "cutting.saves-little": "Saves {saved} of cloth against each size in strips of its own, but buys as much.",
    "cutting.saves-sheets": "Saves {sheets} against each size in strips of its own.",
    "cutting.saves-nothing": "Takes as much as each size in strips of its own.",
    "cutting.least": "No plan of this kind can use less.",
    "cutting.least-cloth": "No plan of this kind can use less than {bound}; this one is at most {over} from the "
    "least possible.",
    "cutting.least-sheets": "No plan of this kind can use less than {bound}; this one is at most {over} from the "
    "least possible.",
    "cutting.least-unknown": "How little cloth could do is not known.",
    "cutting.kind": "Of this kind: strips first, then cuts across them, equal pieces up to {stack} deep in a strip, "
    "and at most a trim.",
    # kinds of cloth
    "cutting.sheets-fat-quarter": "{count:fat quarter|fat quarters}",
    "cutting.sheets-fat-eighth": "{count:fat eighth|fat eighths}",
    "cutting.sheets-10-inch-square": "{count:10 inch square|10 inch squares}",
    "cutting.sheets-5-inch-square": "{count:5 inch square|5 inch squares}",
    "cutting.sheets-roll-strip": "{count:strip of a roll|strips of a roll}",
    "cutting.sheets-strip": "{count:strip on hand|strips on hand}",
    # to know
    "cutting.too-large": "{piece}: {size} does not fit on cloth {width} wide.",
    "cutting.too-large-sheet": "{piece}: {size} does not fit on a sheet of {width:bare} x {length}.",
    "cutting.too-large-hint": "Use larger cloth, or join the piece from smaller ones.",
    "cutting.rounded": "{piece}: {size} has no common measure with the other pieces, so it is cut {cut}.",
    "cutting.stopped": "The search was stopped; a better plan may exist.",
    # the cutting list
    "cutting.list-bolt": "{strips:strip|strips} from selvage to selvage",
    "cutting.list-across": "{strips:strip|strips} from selvage to selvage, from {sheets}",
    "cutting.list-along": "{strips:strip|strips} along the selvage, from {sheets}",
    "cutting.list-cuts": "{cuts:cut|cuts} across {strips:strip|strips} of {height}",
    "cutting.list-parted": "{cuts:piece|pieces} parted from cuts of {width}",
    "cutting.list-trimmed": "{cuts:piece|pieces} trimmed from cuts of {width}",
    # what the pieces are for
    "cutting.for-set": "strip for a set",
    "cutting.for-single": "strip to cut up",
    "cutting.for-joined": "{part}, joined end to end",
    "cutting.for-border": "border {number}",
    "cutting.for-border-end": "border {number}, last strip",
    "cutting.for-binding": "binding",
    "cutting.for-binding-end": "binding, last strip",
    "cutting.for-backing": "backing panel",
    "cutting.for-backing-strip": "strip of the backing",
    "cutting.for-bias-square": "square for bias binding",
    "cutting.for-sleeve": "sleeve",
    "cutting.for-label": "label",
    "cutting.for-bias": "cloth for bias strips",
    # faults of a plan
    "cutting.fault-count": "{piece} is cut {cut:time|times}, but wanted {wanted:time|times}.",
    "cutting.fault-size": "{piece} is not cut in its size, or turned where it must not turn.",
    "cutting.fault-outside": "{piece} leaves the cloth.",
    "cutting.fault-overlap": "{pieces:and} are not parted by straight cuts.",
    "cutting.fault-stack": "{pieces:and} are stacked, but are not equal or too many.",
    "cutting.fault-stock": "{used:sheet|sheets} are cut, but there {there:~is|are} only {there}.",
}
