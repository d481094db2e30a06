"""What the makings of blocks on the wall have to say: their warnings, and seams unlike the quilt's."""

from collections.abc import Iterator

from piecewright.errors import Finding, PiecewrightError
from piecewright.making.facts import Facts
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.plan.workroom import workroom_of
from piecewright.words.message import message


def sewing_findings(design: Design) -> Iterator[Finding]:
    """The findings about how the blocks of the arrangement in view are sewn; each block once."""
    room = workroom_of(design)
    for block in design.blocks:
        if block.id in design.quilt.blocks:
            made = room.work(block.id).outcome
            if not isinstance(made, PiecewrightError):
                yield from _seam(design, block, made)
                yield from _warnings(block, made)


def _seam(design: Design, block: Block, made: Facts) -> Iterator[Finding]:
    """A recipe with a seam of its own: its outer allowance is not that of its neighbors."""
    seam = design.settings.seam
    if made.seam != seam:
        said = message("checks.seam", block=block.name, own=made.seam, seam=seam)
        hint = message("checks.seam-hint", own=made.seam)
        yield Finding("checks.seam", "warning", said, block.id, hint)


def _warnings(block: Block, made: Facts) -> Iterator[Finding]:
    for warning in made.warnings:
        said = message("checks.making", block=block.name, step=warning.step, said=warning.message)
        yield Finding(warning.code, "warning", said, block.id)
