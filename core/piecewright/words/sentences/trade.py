"""What each setting of the trade changes, in one sentence."""

SENTENCES: dict[str, str] = {
    "trade.changes-settings-seam": "The allowance in force: every cut size grows by two of it, and blocks "
    "are made anew.",
    "trade.changes-settings-three-strips": "What three strips of 2 1/2 in measure when you have sewn "
    "them: the real sizes that are told beside the nominal ones.",
    "trade.changes-settings-usable": "The width between the selvages that can be used: how much each "
    "strip gives, and so sets, strips and yardage.",
    "trade.changes-settings-trim-first": "What comes off the first end of a strip set before the first "
    "cut: how many segments it gives.",
    "trade.changes-settings-trim-again": "What comes off to true a strip set again: how many segments it "
    "gives.",
    "trade.changes-settings-trim-every": "After how many cuts a strip set is trued again: how many "
    "segments it gives.",
    "trade.changes-settings-yardage": "How lengths to buy are rounded up, once, at the end.",
    "trade.changes-settings-margin": "Added to each length to buy before it is rounded up.",
    "trade.changes-settings-currency": "The sign behind prices.",
    "trade.changes-settings-lengths": "How sizes that may well be larger are rounded up: backing, "
    "batting, the square of a bias binding.",
    "trade.changes-settings-shrinkage-cloth": "Percent that cloth loses in the wash before it is cut: how "
    "much longer it is bought.",
    "trade.changes-settings-shrinkage-batting": "Percent that batting loses in the wash before it is laid "
    "in: how much larger it is cut.",
    "trade.changes-settings-shrinkage-take-up": "Percent that quilting and the first wash take of the "
    "quilt: the size that is told as washed, and how large a quilt for a bed is made.",
    "trade.changes-settings-shrinkage-way": "Divide buys as much as leaves the wanted length; add buys so "
    "many percent more, which comes out a little short.",
    "trade.changes-settings-bundles-quarter-width": "How wide a fat quarter is: what can be cut from one.",
    "trade.changes-settings-bundles-quarter-length": "How long a fat quarter is, and a fat eighth half of "
    "it: what can be cut from one.",
    "trade.changes-settings-bundles-roll": "How many strips a strip roll has: how many rolls to buy.",
    "trade.changes-settings-bundles-squares": "How many squares a bundle has: how many bundles to buy.",
    "trade.changes-settings-country": "Whose mattresses and whose packages and rolls of batting are offered.",
    "trade.changes-settings-drop": "What hangs over both sides and the foot of a bed: the size of a quilt "
    "for it.",
    "trade.changes-settings-tuck": "What goes under the pillows: the length of a quilt for a bed.",
    "trade.changes-settings-oversize": "Added to the squares that setting triangles are cut from, to be trimmed "
    "once sewn; strips are cut exactly.",
    "trade.changes-binding-width": "How wide binding is cut: its cloth, and what a diagonal join takes.",
    "trade.changes-binding-cut": "Straight strips, or one strip on the bias from a square, which goes "
    "round curves.",
    "trade.changes-binding-join": "A diagonal join takes as much as the strip is wide, a straight one two "
    "allowances: how many strips it takes.",
    "trade.changes-binding-seam": "The allowance of straight joins and of the two seams of a bias square: "
    "how much they give.",
    "trade.changes-binding-extra": "Length beyond the way round, for the corners and the closing: how "
    "many strips it takes.",
    "trade.changes-backing-overage": "How much wider and longer than the top the backing is, both sides "
    "together.",
    "trade.changes-backing-seam": "The allowance between two panels: how far they spread.",
    "trade.changes-backing-lie": "Which way whole widths lie; least takes whichever needs less cloth.",
    "trade.changes-backing-pieced": "Whether a strip may take the place of the last panel: less cloth, "
    "more seams.",
    "trade.changes-backing-sleeve": "A sleeve to hang the quilt by, cut with the backing.",
    "trade.changes-backing-label": "A label, cut with the backing.",
    "trade.changes-batting-overage": "How much wider and longer than the top the batting is, both sides "
    "together.",
}
