"""The sewing plan of a top as JSON and as text."""

from fractions import Fraction
from typing import Any

from piecewright.model.design import Design
from piecewright.plan.pressing import QuiltPressing
from piecewright.plan.pressing_of_block import joins_summary
from piecewright.plan.report import finding_report
from piecewright.plan.sewing_order import SewingStep
from piecewright.units.measure import Measure
from piecewright.words.message import Message, message

VERSION = 1
_EXACT = Measure()


def sewing_report(design: Design, found: QuiltPressing) -> dict[str, Any]:
    """JSON-able, fresh. Lengths are finished, as `{"text": "6 1/2", "inches": 6.5}`; `null` where they differ."""
    order = found.order
    return {
        "sewing": VERSION,
        "name": design.name,
        "arrangement": design.quilt.name,
        "summary": str(order.summary),
        "seams": order.seams,
        "partial": order.count.partial,
        "length": _length(order.length),
        "longest": _length(order.longest),
        "joins_nest": str(joins_summary(found)),
        "steps": [_step(step, found) for step in order.steps],
        "blocks": [str(said) for said in found.said_blocks],
        "findings": [finding_report(finding) for finding in (*order.findings, *found.findings)],
    }


def _step(step: SewingStep, found: QuiltPressing) -> dict[str, Any]:
    pressed = pressing_of(step, found)
    return {
        "kind": step.kind,
        "name": str(step.name),
        "text": str(step.sentence),
        "details": [str(detail) for detail in step.details],
        "press": None if pressed is None else str(pressed),
        "seams": step.seams,
        "partial": step.partial,
        "seam_length": _length(step.seam_length) if step.seam_length else None,
    }


def pressing_of(step: SewingStep, found: QuiltPressing) -> Message | None:
    """How the seams of a step are pressed; None for a border's, and where that is open."""
    return None if step.part is None else found.said_joins.get(step.part)


def sewing_text(design: Design, found: QuiltPressing, measure: Measure) -> str:
    """The steps one by one, numbered, with what they come to."""
    title = message("sewing.title", name=design.name).text(measure)
    lines = [
        title,
        "=" * len(title),
        "",
        found.order.summary.text(measure),
        joins_summary(found).text(measure),
    ]
    lines += [said.text(measure) for said in found.said_blocks]
    for finding in (*found.order.findings, *found.findings):
        lines.append(finding.sentence(measure))
    for number, step in enumerate(found.order.steps, 1):
        pressed = pressing_of(step, found)
        lines += ["", f"{number}. {step.sentence.text(measure)}"]
        lines += [f"   {detail.text(measure)}" for detail in step.details]
        lines += [f"   {pressed.text(measure)}"] if pressed else []
    return "\n".join(lines) + "\n"


def _length(inches: Fraction) -> dict[str, Any]:
    return {"text": _EXACT.bare(inches), "inches": float(inches)}
