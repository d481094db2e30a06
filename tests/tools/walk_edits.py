"""Walk over the edits for long and count: `python tests/tools/walk_edits.py [STEPS] [SEED]`."""

import sys
import time
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from piecewright.edit.registry import EDITS
from tests.core.edit.walking import Walk, assert_kept_by_json, replayed
from tests.core.strategies import random_design

STEPS = 100_000
JSON_EVERY = 100


def main(steps: int, seed: int) -> None:
    """Check soundness at every step, JSON at every hundredth, undo and the journal's replay at the end."""
    random = Random(seed)
    walk = Walk(random_design(random))
    designs = [walk.first]
    begun = time.perf_counter()
    for number in range(steps):
        walk.step(random)
        if walk.design is not designs[-1]:
            designs.append(walk.design)
        if number % JSON_EVERY == 0:
            assert_kept_by_json(walk.design)
    walked = time.perf_counter() - begun
    assert designs[0] == walk.first
    assert replayed(walk.first, walk.journal) == walk.design == designs[-1]
    for name in EDITS:
        print(f"{name:24} {walk.accepted[name]:7} accepted {walk.refused[name]:7} refused")
    accepted, refused = walk.accepted.total(), walk.refused.total()
    print(f"{steps} edits in {walked:.0f} s, seed {seed}: {accepted} accepted, {refused} refused in words")
    print(f"{len(walk.sentences)} sentences; every step sound; the journal replays to the same design")


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    main(given[0] if given else STEPS, given[1] if len(given) > 1 else 1)
