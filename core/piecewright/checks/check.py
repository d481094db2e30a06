"""Looks a whole design over for everything that would stop the quilter or that she would want to know."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from piecewright.checks.placing import placing_findings
from piecewright.checks.sewing import sewing_findings
from piecewright.errors import Finding
from piecewright.model.design import Design
from piecewright.plan.materials import materials
from piecewright.words.message import message

_GRAVEST_FIRST = ("error", "warning", "note")


def check(design: Design) -> tuple[Finding, ...]:
    """The findings of every arrangement, the gravest first; where there are several, a place names its own."""
    found: dict[Finding, None] = {}
    for index, quilt in enumerate(design.arrangements):
        for finding in check_arrangement(design.changed(current=index)):
            several = len(design.arrangements) > 1
            where = f"{quilt.name}, {finding.where}".removesuffix(", ") if several else finding.where
            found[replace(finding, where=where)] = None
    return _gravest_first(found)


def check_arrangement(design: Design) -> tuple[Finding, ...]:
    """The findings of the arrangement in view, the gravest first."""
    return _gravest_first(dict.fromkeys(_arrangement(design)))


def _gravest_first(found: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(found, key=lambda finding: _GRAVEST_FIRST.index(finding.severity)))


def _arrangement(design: Design) -> Iterator[Finding]:
    yield from placing_findings(design)
    yield from sewing_findings(design)
    yield from materials(design).findings
    yield from _unchosen(design)


def _unchosen(design: Design) -> Iterator[Finding]:
    """The binding, the backing and the setting triangles, where their fabric has not been chosen."""
    quilt = design.quilt
    parts = [("binding", quilt.binding.fabric), ("backing", quilt.backing.fabric)]
    if quilt.lattice.kind == "on point":
        parts.append(("triangles", quilt.triangles.fabric))
    for part, fabric in parts:
        if fabric is None:
            hint = message("checks.choose-fabric")
            yield Finding(f"checks.no-{part}-fabric", "note", message(f"checks.no-{part}-fabric"), part, hint)
