"""Words that have no place in the project: unfinished notes, paths of a machine, addresses of registries."""

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
CLOSED = (
    (re.compile(r"\b(TODO|FIXME|XXX)\b"), "an unfinished note: finish it or say in DEVELOPERS.md why not"),
    (re.compile(r"--(extra-)?index-url|find-links"), "the address of a registry belongs to the machine"),
    (re.compile(r"(?<![\w.])/(home|Users|root|work)/[a-z]"), "a path of one machine"),
)
DATA = (".lock", ".png", ".ttf", ".otf", ".woff2", ".piecewright", ".zip", ".pdf", ".jpg")


def tracked() -> list[Path]:
    """Every file git knows or would add."""
    listed = subprocess.run(
        ["git", "ls-files", "-co", "--exclude-standard"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return [ROOT / name for name in listed.stdout.splitlines() if not name.endswith(DATA)]


def faults() -> list[str]:
    """Each closed word with its place and the reason."""
    found = []
    for path in tracked():
        if path == Path(__file__).resolve() or not path.is_file():
            continue
        for number, line in enumerate(path.read_text(encoding="utf-8", errors="replace").splitlines(), 1):
            found += [f"{path.relative_to(ROOT)}:{number}: {why}" for words, why in CLOSED if words.search(line)]
    return found


if __name__ == "__main__":
    problems = faults()
    print("\n".join(problems))
    sys.exit(bool(problems))
