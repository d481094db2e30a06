"""Words that have no place in the project: unfinished notes, paths of a machine, addresses of registries."""

import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from re import Pattern

ROOT = Path(__file__).resolve().parents[2]
THIS_MACHINE = "|".join(re.escape(f"{folder}/") for folder in (ROOT, Path.home()) if folder != Path("/"))
CLOSED: tuple[tuple[Pattern[str], str], ...] = (
    (re.compile(r"\b(TODO|FIXME|XXX)\b"), "an unfinished note: finish it, or say in DEVELOPERS.md why not"),
    (
        re.compile(r"(?<!lesson )\btranscripts?\b|\bseed document\b", re.IGNORECASE),
        "the project speaks of its product alone",
    ),
    (re.compile(r"--(extra-)?index-url|--find-links"), "the address of a registry belongs to the machine"),
    (re.compile(rf"(?<![\w.])(/work/|/tmp/brief|{THIS_MACHINE})"), "a path of one machine"),
)
IN_LOCKS = ((re.compile("://"), "a lock file names versions and hashes, no addresses"),)
DATA = (".png", ".ttf", ".otf", ".woff2", ".piecewright", ".zip", ".pdf", ".jpg")


def tracked(root: Path = ROOT) -> list[Path]:
    """Every file git knows or would add, relative to the root; not this one, which names the words."""
    listed = subprocess.run(
        ["git", "ls-files", "-co", "--exclude-standard", "-z"],
        cwd=root,
        capture_output=True,
        text=True,
        check=True,
    )
    return [
        Path(name) for name in listed.stdout.split("\0") if name and ROOT / name != Path(__file__).resolve()
    ]


def faults_in(place: str, text: str) -> Iterator[str]:
    """Each closed word of a text with its line and the reason."""
    closed = CLOSED + (IN_LOCKS if place.endswith(".lock") else ())
    for number, line in enumerate(text.splitlines(), 1):
        yield from (f"{place}:{number}: {why}" for words, why in closed if words.search(line))


def faults(root: Path = ROOT) -> list[str]:
    """Each closed word in the name or the text of any file, with its place and the reason."""
    found: list[str] = []
    for path in tracked(root):
        found += (f"{path}: in a file's name: {why}" for words, why in CLOSED if words.search(str(path)))
        if path.suffix not in DATA and (root / path).is_file():
            found += faults_in(str(path), (root / path).read_text(encoding="utf-8", errors="replace"))
    return found


if __name__ == "__main__":
    problems = faults()
    print("\n".join(problems or ["no closed word"]))
    sys.exit(bool(problems))
