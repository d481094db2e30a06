"""What the page of a making says beside its steps."""

SENTENCES = {
    "making.text-name": "{name}",
    "making.text-about": "{about}",
    "making.text-size": "{name} = {size}",
    "making.text-blocks": "One batch makes {count:block|blocks}: {finished}, {unfinished}.",
    "making.text-kinds": "They come out in {count} kinds: {kinds:and} (layer 1 is on top).",
    "making.text-kind": "{blocks:and} of {count:~layer|layers} {layers:and}",
    "making.text-seam": "Seam allowance {seam}.",
    "making.text-strips": "Cut first",
    "making.text-strips-layered": "Cut first, for each of the {layers:layer|layers}",
    "making.text-strip": "  {fabric}: {count:strip|strips} {width} x {length} cut",
    "making.text-strip-least": "  {fabric}: {count:strip|strips} {width} x at least {length} cut",
    "making.text-too-narrow": "  {length:bare} from {usable:bare} usable: no block! Use wider cloth, or make the block "
    "smaller.",
    "making.text-steps": "Steps",
    "making.text-step": "  {number}. {said}",
    "making.text-cloth": (
        "Where the cloth goes, per batch and layer: {laid:area} laid = {seen:area} seen + {allowance:area} in seams "
        "+ {waste:area} trimmed or left over."
    ),
    "making.text-bias": "Bias edges in a finished block: handle gently, pin, do not press sideways",
    "making.text-bias-of-kind": (
        "Bias edges in a finished block, kind {kind}: handle gently, pin, do not press sideways"
    ),
    "making.text-bias-outer": "  {fabric}: {count:outer edge|outer edges} {degrees:degrees} off the thread",
    "making.text-bias-inner": "  {fabric}: {count:inner edge|inner edges} {degrees:degrees} off the thread",
    "making.text-warning": "Mind {step}: {said}",
}
