"""Words that have no place in the project: unfinished notes, paths of a machine, addresses of registries.

What the check closes is put together here from parts, so that the file keeps its own rule.
"""

import os
import re
import sys
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path
from re import Pattern

THIS = Path(__file__).resolve()
ROOT = THIS.parents[2]
THIS_MACHINE = "|".join(re.escape(f"{folder}/") for folder in (ROOT, Path.home()) if folder != Path("/"))
CLOSED: tuple[tuple[Pattern[str], str], ...] = (
    (re.compile(r"\b(TODO|FIXME|XXX)\b"), "an unfinished note: finish it, or say in DEVELOPERS.md why not"),
    (
        re.compile(r"\btran" + r"scripts?\b|\bseed" + r" document\b", re.IGNORECASE),
        "the project speaks of its product alone",
    ),
    (re.compile(r"--(extra-)?index-url|--find-links"), "the address of a registry belongs to the machine"),
    (re.compile(rf"(?<![\w.])(/(work|workspace|builds)/|{THIS_MACHINE})"), "a path of one machine"),
)
IN_LOCKS = ((re.compile("://"), "a lock file names versions and hashes, no addresses"),)
DATA = (".png", ".ttf", ".otf", ".woff2", ".piecewright", ".zip", ".pdf", ".jpg")


def project_files(root: Path = ROOT) -> Iterator[Path]:
    """Every file that .gitignore does not leave out, relative to the root; not this one, which names the words."""
    ignored = [".git", *(line.rstrip("/") for line in (root / ".gitignore").read_text("utf-8").split())]
    for folder, folders, names in os.walk(root):
        folders[:] = sorted(
            name for name in folders if not any(fnmatch(name, left_out) for left_out in ignored)
        )
        for name in sorted(names):
            if not any(fnmatch(name, left_out) for left_out in ignored) and Path(folder, name) != THIS:
                yield Path(folder, name).relative_to(root)


def faults_in(place: str, text: str) -> Iterator[str]:
    """Each closed word of a text with its line and the reason."""
    closed = CLOSED + (IN_LOCKS if place.endswith(".lock") else ())
    for number, line in enumerate(text.splitlines(), 1):
        yield from (f"{place}:{number}: {why}" for words, why in closed if words.search(line))


def faults(root: Path = ROOT) -> list[str]:
    """Each closed word in the name or the text of any file, with its place and the reason."""
    found: list[str] = []
    for path in project_files(root):
        found += (f"{path}: in a file's name: {why}" for words, why in CLOSED if words.search(str(path)))
        if path.suffix not in DATA:
            found += faults_in(str(path), (root / path).read_text(encoding="utf-8", errors="replace"))
    return found


if __name__ == "__main__":
    problems = faults()
    print("\n".join(problems or ["no closed word"]))
    sys.exit(bool(problems))
