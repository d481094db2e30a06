"""Pressing decisions written into a recipe as `press` steps, each after the step that sews its seams."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from copy import deepcopy
from typing import Any

from piecewright.making.pressing_plan import PlannedSeam
from piecewright.making.pressing_words import Decision
from piecewright.making.table import Outcome


def opening(seams: Iterable[PlannedSeam], stack: int) -> tuple[Decision, ...]:
    """The decisions that press seams open: in the layers named alone, where that is not all of the stack."""
    layers: dict[tuple[str, int | None], list[int]] = defaultdict(list)
    for planned in seams:
        join = None if planned.only else planned.seam.join
        layers[planned.seam.step, join].append(planned.seam.layer)
    return tuple(
        Decision(step, join, "open", tuple(sorted(found)) if len(found) < stack else None)
        for (step, join), found in layers.items()
    )


def with_presses(
    plain: Mapping[str, Any], decisions: Iterable[Decision], outcomes: Sequence[Outcome]
) -> dict[str, Any]:
    """The plain recipe with these decisions in force.

    A step that says the same seams for the same layers is replaced; else one comes after what sews them and whatever
    presses them already, for the last word counts. `outcomes` tell which step sews what; decisions about seams that no
    step of the recipe sews itself are left out.
    """
    changed = deepcopy(dict(plain))
    sewn_at = {name: outcome.step_index for outcome in outcomes for name in outcome.sewn}
    steps: list[tuple[int | None, dict[str, Any]]] = list(enumerate(changed["steps"]))
    for decision in decisions:
        if decision.step not in sewn_at or "." in decision.step:
            continue
        steps = [each for each in steps if not _is_replaced(each[1], decision)]
        last = max(
            place
            for place, (number, step) in enumerate(steps)
            if number == sewn_at[decision.step] or _pressed(step) == decision.step
        )
        steps.insert(last + 1, (None, {"press": _as_plain(decision)}))
    changed["steps"] = [step for _, step in steps]
    return changed


def _as_plain(decision: Decision) -> dict[str, Any]:
    said: dict[str, Any] = {"seam": decision.seam, "toward": decision.toward}
    return said if decision.layers is None else {**said, "layers": list(decision.layers)}


def _pressed(step: Mapping[str, Any]) -> str | None:
    """The sewing step whose seams a step presses; None of another step."""
    press = step.get("press")
    return str(press.get("seam", "")).partition(".")[0] if isinstance(press, Mapping) else None


def _is_replaced(step: Mapping[str, Any], decision: Decision) -> bool:
    """Whether a step presses no more than the decision does."""
    if _pressed(step) != decision.step:
        return False
    seam, layers = step["press"]["seam"], step["press"].get("layers")
    all_joins = decision.join is None or seam == decision.seam
    all_layers = decision.layers is None or (layers is not None and set(layers) <= set(decision.layers))
    return all_joins and all_layers
