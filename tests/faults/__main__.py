"""Do harm on purpose and print what came of it as JSON: `python -m tests.faults kill-save --times 1000`."""

import argparse
import json
import subprocess
import sys
from collections.abc import Callable
from typing import Any

from tests.faults import failing, killing, mutating, starving

Report = dict[str, Any]


def main() -> None:
    """Run one harness, named on the command line; every one can be run again with the same seed."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults", description=__doc__)
    parser.add_argument("harness", choices=_HARNESSES)
    parser.add_argument("--times", type=int, default=60, help="how many kills, or files")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    json.dump(_HARNESSES[options.harness](options), sys.stdout, indent=2)
    sys.stdout.write("\n")


def _mutate(options: argparse.Namespace) -> Report:
    return {**mutating.mutate(options.times, options.seed), "lines": mutating.line_coverage(options.seed)}


def _starve(_: argparse.Namespace) -> Report:
    """On a small disk in a mount namespace where that is allowed, and by the limit of file sizes everywhere."""
    found: Report = {"by limit": starving.starve_by_limit()}
    mounting = starving.mounting_command()
    if mounting:
        inside = [*mounting, sys.executable, "-m", "tests.faults", "starve-by-disk"]
        done = subprocess.run(inside, capture_output=True, text=True, check=True)
        found["by disk"] = json.loads(done.stdout)
    return found


def _fail(options: argparse.Namespace, thorough: bool = False) -> Report:
    """Inside the program everywhere; by the kernel where strace may be used, each call with one error or with all."""
    found: Report = {
        "saving, inside": failing.fail_saving_inside(),
        "loading, inside": failing.fail_loading_inside(),
    }
    if failing.strace_works():
        found["saving, by the kernel"] = failing.fail_saving_by_kernel(thorough=thorough)
        found["killed at each call"] = failing.kill_at_each_call()
    return found


_HARNESSES: dict[str, Callable[[argparse.Namespace], Report]] = {
    "kill-save": lambda options: killing.kill_while_saving(options.times, options.seed),
    "kill-edit": lambda options: killing.kill_while_editing(options.times, options.seed),
    "kill-keep": lambda options: killing.kill_while_keeping(options.times, options.seed),
    "fail-calls": _fail,
    "fail-calls-thoroughly": lambda options: _fail(options, thorough=True),
    "starve": _starve,
    "starve-by-disk": lambda _: starving.starve_by_disk(),
    "mutate": _mutate,
}


if __name__ == "__main__":
    main()
