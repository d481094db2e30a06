"""Sentences about the plan and its materials: sums that explain numbers, headings, findings and changes."""

SENTENCES: dict[str, str] = {
    # size
    "plan.size-why": "{columns} x {rows} cells of {unit} are {center}; as seen {size}; with {seams} of outer "
    "allowance {unfinished}, which is also the size once bound.",
    "plan.size-why-borders": "{columns} x {rows} cells of {unit} are {center}; with borders of {borders} on "
    "every side {size}; with {seams} of outer allowance {unfinished}, which is also the size once bound.",
    # batches and sets
    "plan.batch-why": "{batches:batch|batches} of {per_batch:block|blocks} = {made:block|blocks}; {blocks} "
    "on the wall, {over} over.",
    "plan.batch-why-single": "{blocks} on the wall, sewn one by one.",
    "plan.strips-of-sets": "{strips:strip|strips} = {sets:set|sets} of {lanes}",
    "plan.strips-single": "{strips:strip|strips}",
    "plan.set-why": "{sets}; {blocks:block|blocks}, {per_set} to a set: {usable:bare} usable / {length:bare} "
    "= {count}, {spare} to spare.",
    "plan.set-why-trued": "{sets}; {blocks:block|blocks}, {per_set} to a set: ({usable:bare} usable - "
    "{truing:bare} truing) / {length:bare} = {count}, {spare} to spare.",
    "plan.set-why-mixed": "{sets}; the fullest gives {segments:and}: {usable} usable, {truing} truing, "
    "{spare} to spare.",
    "plan.segments": "{count} x {length}",
    # cloth
    "plan.fabric": "{name}",
    "plan.unchosen-letter": "fabric {letter}, not chosen yet",
    "plan.unchosen-binding": "binding fabric, not chosen yet",
    "plan.unchosen-backing": "backing fabric, not chosen yet",
    "plan.cloth-term": "{count} x {size:bare}",
    "plan.cloth-why": "{terms:and} = {inches} = {inches:yards}; {rounding}: {buy:yards}.",
    "plan.cloth-why-margin": "{terms:and} = {inches}, and {margin} margin = {exact} = {exact:yards}; "
    "{rounding}: {buy:yards}.",
    "plan.cloth-why-shrunk": "{terms:and} = {inches}, bought as {unwashed} for {percent:number} % that washing "
    "takes = {exact:yards}; {rounding}: {buy:yards}.",
    "plan.cloth-why-margin-shrunk": "{terms:and} = {inches}, bought as {unwashed} for {percent:number} % that "
    "washing takes, and {margin} margin = {exact} = {exact:yards}; {rounding}: {buy:yards}.",
    "plan.rounding-exact": "not rounded",
    "plan.rounding-eighth": "up to an eighth of a yard",
    "plan.rounding-quarter": "up to a quarter of a yard",
    "plan.rounding-third": "up to a third of a yard",
    "plan.rounding-half": "up to half a yard",
    # borders, binding, backing, batting
    "plan.border-why": "{strips:strip|strips}: 2 sides of {sides} and 2 ends of {ends} are {total}, joined "
    "from {usable} of usable width with {join} lost at each join.",
    "plan.binding-why": "{strips:strip|strips}: {around} round the quilt / {each} from each strip "
    "({usable:bare} usable - {join}).",
    "plan.binding-why-extra": "{strips:strip|strips}: {around} round the quilt and {extra} extra / {each} from "
    "each strip ({usable:bare} usable - {join}).",
    "plan.join-diagonal": "{lost:bare} for the diagonal join",
    "plan.join-straight": "{lost:bare} for the straight join",
    "plan.bias-square-why": "{count:square|squares} of {side}, cut from corner to corner and sewn to a tube with "
    "two {seam} seams, {count:~gives|give} {rounds:whole round|whole rounds} of {width} and so {length} each, less "
    "{lost} for a join: {needed} are needed.",
    "plan.bias-square-none": "No square that fits into {usable} gives a strip of {width}.",
    "plan.binding-tight": "The binding is tight: joined it is {gives}, {spare} more than the way round; {usual} more "
    "is usual for the corners and the closing.",
    "plan.binding-tight-hint": "Count extra length for it, or cut one strip more.",
    "plan.border-too-narrow": "No border strips: a join takes {lost}, and the cloth is {usable} wide.",
    "plan.binding-too-narrow": "No binding strips: a join takes {lost}, and the cloth is {usable} wide.",
    "plan.backing-too-narrow": "No backing: a panel seam takes {lost}, and the cloth is {usable} wide.",
    "plan.widen-cloth": "Set a usable width well over {least}.",
    "plan.backing-one-width": "one width of {spread}",
    "plan.backing-spread": "{count} x {usable:bare} usable - {lost:bare} in seams = {spread}",
    "plan.backing-spread-strip": "{count} x {usable:bare} usable + {strip:bare} - {lost:bare} in seams = {spread}",
    "plan.backing-panels": "{count:panel|panels} of {length}",
    "plan.backing-with-strip": "{panels} and a strip of {pieces} x {strip}",
    "plan.backing-why-none": "{cloth} = {panels} for {size}: {spread}; {other}.",
    "plan.backing-why-up": "{cloth} = {panels}, seams up, for {size}: {spread}; {other}.",
    "plan.backing-why-across": "{cloth} = {panels}, seams across, for {size}: {spread}; {other}.",
    "plan.backing-others": "{others:and}",
    "plan.backing-directional": "the print has an up, so panels only lie up the quilt: {others:and}",
    "plan.backing-other-up": "up the quilt it would be {count:panel|panels} and {cloth}",
    "plan.backing-other-across": "across the quilt it would be {count:panel|panels} and {cloth}",
    "plan.backing-pieced-up": "with a strip pieced to {count:panel|panels} up the quilt {cloth}",
    "plan.backing-pieced-across": "with a strip pieced to {count:panel|panels} across the quilt {cloth}",
    "plan.sleeve-why": "{size}: the edge of {edge} less {narrower}, and 2 hems of {hem}; 2 x {depth} deep and 2 "
    "seams of {seam}; {strips:strip|strips}.",
    "plan.label-why": "{size}: {seam} to turn under all round.",
    "plan.batting-as-is": "both ways",
    "plan.batting-shrunk": "both ways, and enough for {percent:number} % that the batting shrinks",
    "plan.batting-why": "{size}: {overage} more than {top}, {shrunk}; the {package} package of {width:bare} "
    "x {height} holds it.",
    "plan.batting-none": "{size}: {overage} more than {top}, {shrunk}; no package is as large: buy off the "
    "roll, or join two.",
    # findings
    "plan.cannot-be-made": "{block} can not be made: {why}",
    "plan.no-such-block": "{block} gives no block of kind {kind} in layer {layer} (the first are 1).",
    "plan.choose-kind": "It gives {known:and}.",
    "plan.kind-layers": "kind {kind} in {count:~layer|layers} {layers:and}",
    "plan.no-block": "{block}: {run:bare} from {usable:bare} usable: no block. The strips must be {run} "
    "long, and the cloth gives {usable}.",
    "plan.no-block-trued": "{block}: {run:bare} from {usable:bare} usable: no block. Truing the ends takes "
    "{truing} more.",
    "plan.no-block-hint": "Cloth of {needed} usable width would do; or make the block smaller.",
    "plan.no-fabric": "{block} has no fabric for {letter}.",
    "plan.choose-fabric": "Choose one; until then its strips are counted apart.",
    "plan.cells-empty": "{missing} of {cells:cell|cells} {missing:~has|have} no block yet.",
    "plan.fill-cells": "Place blocks there, or make the quilt smaller.",
    # changes
    "plan.change-sets": "{what}: {before:set|sets} before, {after} now",
    "plan.change-strips": "{what}: {before:strip|strips} before, {after} now",
    "plan.change-cloth": "{what}: {before:yards} before, {after:yards} now",
    "plan.strips-of": "{fabric}, cut {width}",
    "plan.strip-of-set": "{fabric} {width:bare}",
    "plan.set-of": "{strips}",
    # the list to read
    "plan.title": "{name}: materials for {arrangement}",
    "plan.usable-line": "{usable} usable width, {seam} seams, sets trued {first} at the first end and "
    "{again} after every {every:cut|cuts}.",
    "plan.heading-size": "Size",
    "plan.heading-blocks": "Blocks",
    "plan.heading-cloth": "Cloth to buy, and strips to cut from it",
    "plan.heading-sets": "Strip sets to sew",
    "plan.heading-single": "Strips to cut up as they are",
    "plan.heading-borders": "Borders",
    "plan.heading-binding": "Binding",
    "plan.heading-backing": "Backing",
    "plan.heading-sleeve": "Sleeve",
    "plan.heading-label": "Label",
    "plan.heading-batting": "Batting",
    "plan.heading-bias": "Edges off the thread",
    "plan.heading-findings": "To know",
    "plan.size": "{size}",
    "plan.row-center": "blocks",
    "plan.row-finished": "quilt",
    "plan.row-unfinished": "sewn top, and the quilt once bound",
    "plan.batch-line": "{blocks} on the wall, {batches:batch|batches} of {per_batch}, {over} over",
    "plan.batch-line-single": "{blocks} on the wall",
    "plan.set-line": "{sets:set|sets}",
    "plan.set-strips": "{sets:strip|strips}",
    "plan.set-yields": "{sets}, {per_set:block|blocks} to a {noun}",
    "plan.a-set": "set",
    "plan.a-strip": "strip",
    "plan.cut-line": "{sets} cut into {segments:and}; {spare} to spare",
    "plan.cut-line-to-length": "{sets} of {run}, cut into {segments:and}",
    "plan.cut-line-tight": "{sets} cut into {segments:and}; only {spare} to spare!",
    "plan.border-title": "{number}. {fabric}: {width} finished; {strips:strip|strips} cut {cut}",
    "plan.border-sides": "sides",
    "plan.border-ends": "top and bottom",
    "plan.border-line": "2 of {size}",
    "plan.strip-line": "{count} x {width} cut",
    "plan.strip-line-long": "{count} of {width:bare} x {run} cut",
    "plan.panel-line": "{count:panel|panels} of {width}",
    "plan.grain-lengthwise": "along the selvage",
    "plan.grain-bias": "on the bias",
    "plan.grain-square": "for bias, cut from corner to corner",
    "plan.part-piecing": "for blocks",
    "plan.part-border": "for border {number}",
    "plan.part-binding": "for the binding",
    "plan.part-backing": "for the backing",
    "plan.part-backing-strip": "for the strip of the backing",
    "plan.part-sleeve": "for the sleeve",
    "plan.part-label": "for the label",
    "plan.cost": "Cloth with a price costs {cost:number} {currency}",
    "plan.bias-outer": "at outer edges of blocks",
    "plan.bias-inner": "inside blocks",
    "plan.band-quiet": "under 5 degrees off the thread: nothing to do",
    "plan.band-pin": "5 to 20 degrees off the thread: handle gently, pin",
    "plan.band-bias": "over 20 degrees off the thread: bias",
    "plan.severity-error": "Error",
    "plan.severity-warning": "Warning",
    "plan.severity-note": "Note",
}
