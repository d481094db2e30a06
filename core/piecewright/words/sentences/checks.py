"""Sentences about the faults of a design."""

SENTENCES: dict[str, str] = {
    "checks.place": "column {column}, row {row}",
    "checks.on-sash": '"{block}" reaches over the sashing.',
    "checks.no-triangles-fabric": "The fabric of the setting triangles is not chosen yet.",
    "checks.outside": "{block} lies partly outside the {columns} x {rows} cells of the quilt.",
    "checks.move-inside": "Move it, or make the quilt larger.",
    "checks.overlap": "{block} lies on {other}.",
    "checks.move-apart": "Move or remove one of them.",
    "checks.seam": "{block} has a seam allowance of its own, {own}; the quilt is sewn with {seam}.",
    "checks.seam-hint": "Join it to its neighbors with care: its outer allowance is {own}.",
    "checks.at-size": "With {name} at {size}: {said}",
    "checks.making": "{block}, step {step}: {said}",
    "checks.no-binding-fabric": "No fabric is chosen for the binding.",
    "checks.no-backing-fabric": "No fabric is chosen for the backing.",
    "checks.choose-fabric": "Choose one, so that its cloth is counted with that fabric.",
}
