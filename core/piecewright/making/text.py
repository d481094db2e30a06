"""A making as a page to read: sizes, strips to cut, the steps as sentences, where the cloth goes, bias, warnings."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby

from piecewright.making.facts import Facts
from piecewright.making.run import Making, facts_of, steps_as_sentences
from piecewright.making.steps import counted
from piecewright.units.measure import Measure
from piecewright.words.message import Message, message

_DEFAULT = Measure()


def making_text(making: Making, measure: Measure = _DEFAULT) -> str:
    """The whole page, sections parted by an empty line, ending with a line end. Raises as `facts_of` does."""
    facts = facts_of(making)
    sections = (
        _head(making, facts),
        _strips(facts, making.given.usable),
        _steps(making),
        _cloth(facts),
        _bias(facts),
        _warnings(facts),
    )
    pages = ("\n".join(said.text(measure) for said in section) for section in sections)
    return "\n\n".join(page for page in pages if page) + "\n"


def _head(making: Making, facts: Facts) -> Iterator[Message]:
    yield message("making.text-name", name=facts.name)
    if making.recipe.about:
        yield message("making.text-about", about=making.recipe.about)
    for name, size in facts.sizes.items():
        yield message("making.text-size", name=name, size=size)
    yield message(
        "making.text-blocks", count=facts.blocks, finished=facts.finished, unfinished=facts.unfinished
    )
    if len(facts.kinds) > 1:
        kinds = tuple(
            message(
                "making.text-kind", blocks=kind.blocks, count=len(kind.layers), layers=counted(kind.layers)
            )
            for kind in facts.kinds
        )
        yield message("making.text-kinds", count=len(kinds), kinds=kinds)
    yield message("making.text-seam", seam=facts.seam)


def _strips(facts: Facts, usable: Fraction) -> Iterator[Message]:
    """The strips to cut, and loudly which of them no width of the cloth gives."""
    yield message(
        "making.text-strips" if facts.stack == 1 else "making.text-strips-layered", layers=facts.stack
    )
    for strip in facts.strips:
        code = "making.text-strip-least" if strip.least else "making.text-strip"
        yield message(code, fabric=strip.fabric, count=strip.count, width=strip.width, length=strip.length)
    longest = max((strip.length for strip in facts.strips if strip.grain == "crosswise"), default=usable)
    if longest > usable:
        yield message("making.text-too-narrow", length=longest, usable=usable)


def _steps(making: Making) -> Iterator[Message]:
    yield message("making.text-steps")
    for number, said in enumerate(steps_as_sentences(making), 1):
        yield message("making.text-step", number=number, said=said)


def _cloth(facts: Facts) -> Iterator[Message]:
    ledger = facts.ledger
    yield message(
        "making.text-cloth",
        laid=ledger.laid,
        seen=ledger.seen,
        allowance=ledger.allowance,
        waste=ledger.waste,
    )


def _bias(facts: Facts) -> Iterator[Message]:
    """Bias edges of each kind; those alike (same side, fabric and angle) as one line."""
    for number, kind in enumerate(facts.kinds, 1):
        edges = sorted((edge.outer, edge.fabric, round(edge.degrees, 1)) for edge in kind.bias_edges)
        if edges:
            code = "making.text-bias" if len(facts.kinds) == 1 else "making.text-bias-of-kind"
            yield message(code, kind=number)
        for (outer, fabric, degrees), alike in groupby(edges):
            code = "making.text-bias-outer" if outer else "making.text-bias-inner"
            yield message(code, count=len(list(alike)), fabric=fabric, degrees=degrees)


def _warnings(facts: Facts) -> Iterator[Message]:
    for warning in facts.warnings:
        yield message("making.text-warning", step=warning.step, said=warning.message)
