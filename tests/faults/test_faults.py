"""Whatever is done to the program or its disk, no design is damaged, and nothing is said to be saved that is not.

`python -m tests.faults kill-save --times 1000` and its like go further than every run needs.
"""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.faults
ROOT = Path(__file__).parents[2]


def harness(name: str, *options: str) -> dict[str, Any]:
    """The report of a harness, in a process of its own: it forks, kills, and limits itself."""
    command = [sys.executable, "-m", "tests.faults", name, *options]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    sys.stdout.write(done.stdout)
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_kill_nine_while_saving_leaves_a_whole_design_and_no_stray() -> None:
    found = harness("kill-save", "--times", "60")
    assert found["old"] + found["new"] == found["times"] == 60
    assert found["damaged"] == found["false_saved"] == found["strays_after"] == 0
    assert found["strays_before"] > 0, "no kill met a save half done"


def test_kill_nine_while_editing_loses_no_acknowledged_edit() -> None:
    found = harness("kill-edit", "--times", "60")
    assert found["lost"] == found["left_over"] == 0
    assert found["offered"] == found["acknowledged"] + found["unacknowledged"] > 60


def test_kill_nine_while_keeping_recipes_leaves_every_one_whole_and_none_twice() -> None:
    found = harness("kill-keep", "--times", "40")
    assert found["damaged"] == found["missing"] == found["twice"] == found["strays_after"] == 0
    assert found["whole"] >= found["kept"] > 40


def test_each_call_of_saving_and_loading_failed_in_turn() -> None:
    """Inside the program always; by the kernel itself wherever strace may be used."""
    found = harness("fail-calls")
    assert found["saving, inside"]["failed_calls"] > 100
    for way in found.values():
        assert way["failed_calls"] > 10
        assert way["said_not"] > 0 or way["killed"] > 0
        for harm in ("damaged", "false_saved", "strays_after", "other_design", "changed_file"):
            assert way.get(harm, 0) == 0


def test_a_disk_too_small_holds_the_old_file_or_the_new_one() -> None:
    """By the limit of file sizes always; on a disk of its own wherever one may be mounted."""
    for way in harness("starve").values():
        assert way["steps"] == 201
        assert way["said_saved"] >= 95
        assert way["said_not"] >= 95
        assert way["damaged"] == way["false_saved"] == way["false_refused"] == way["strays"] == 0


def test_of_twenty_thousand_broken_files_each_opens_or_is_refused_in_a_sentence() -> None:
    found = harness("mutate", "--times", "20000")
    assert found["escaped"] == []
    assert found["times"] == 20_000
    assert found["percent_past_the_parsers"] >= 30
    assert found["opened"] > 0
    assert found["kinds_of_refusal"] >= 60
