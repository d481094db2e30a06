"""Read a great many broken files: only a FileError may come out, soon, and in little memory."""

import json
import mmap
import os
import resource
import signal
import sys
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

from piecewright.errors import FileError
from piecewright.files import container, design_file, migrate, pictures
from piecewright.files.design_file import read_design
from piecewright.model import codec, design, quilt
from tests.core.files.bombs import BOMBS
from tests.faults.forking import in_child
from tests.faults.mutators import heavy_files, mutated

MOST_SECONDS = 2.0
MOST_BYTES = 512 << 20
TRACED = 1000
_AT = mmap.mmap(-1, 64)
"""The file that the child reads; shared with the parent, which has to name it if the kernel ends the child."""
OPENED, ESCAPED = "opened", "escaped"
_MODULES = (container, design_file, migrate, pictures, codec, design, quilt)
_PARSERS = frozenset(
    {
        *(
            f"model.{code}"
            for code in ("not-json", "not-utf-8", "no-number", "key-twice", "number-too-long", "too-deep")
        ),
        *(
            f"files.{code}"
            for code in ("damaged-zip", "empty", "other-kind", "no-design", "too-large", "too-many-parts")
        ),
        *(
            f"files.{code}"
            for code in ("too-many-entries", "no-design-inside", "climbing-entry", "entry-twice")
        ),
        *(f"files.{code}" for code in ("encrypted", "odd-packing", "entry-too-large")),
    }
)
"""What the parsers of zip and JSON refuse; all else that happens to a file happens past them."""


def mutate(times: int, seed: int) -> dict[str, Any]:
    """Read `times` broken files, the heavy ones and the bombs in a child, and count what came of them.

    The kernel ends the child, and this raises AssertionError, where one file takes over two seconds of processor time.
    Memory beyond 512 MB more than at the start is refused to it, and the MemoryError counts as one that escaped.
    """
    given, status = in_child(lambda: json.dumps(_read_many(times, seed)).encode())
    if status or not given:
        at = _AT[:].rstrip(b"\0").decode()
        raise AssertionError(f"the child was ended while it read {at}: status {status}")
    found: dict[str, Any] = json.loads(given)
    return found


def line_coverage(seed: int) -> dict[str, str]:
    """How many lines of each module that reads designs the first thousand files run through."""
    given, _ = in_child(lambda: json.dumps(_trace_lines(seed)).encode())
    found: dict[str, str] = json.loads(given)
    return found


def _read_many(times: int, seed: int) -> dict[str, Any]:
    heavy, bombs = heavy_files(), {name: bomb() for name, bomb in BOMBS.items()}
    _limit_memory()
    broken = [_read(mutated(number, seed), str(number)) for number in range(times)]
    large = {name: _read(data, name) for name, data in heavy.items()}
    mean = {name: _read(data, name) for name, data in bombs.items()}
    codes = Counter(result.code for result in broken)
    past = sum(count for code, count in codes.items() if code not in _PARSERS and code != ESCAPED)
    everything = [*broken, *large.values(), *mean.values()]
    return {
        "times": times,
        "escaped": [result.words for result in everything if result.code == ESCAPED],
        "percent_past_the_parsers": round(100 * past / times, 1),
        "opened": codes.pop(OPENED, 0),
        "kinds_of_refusal": len(codes),
        "slowest_seconds": round(max(result.seconds for result in broken), 3),
        "slowest_heavy_seconds": round(max(result.seconds for result in large.values()), 3),
        "megabytes_in_all": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
        "bombs_milliseconds": {name: round(1000 * result.seconds, 1) for name, result in mean.items()},
        "heavy": {name: result.code for name, result in large.items()},
        "refusals": dict(codes.most_common()),
    }


@dataclass(frozen=True, slots=True)
class _Result:
    code: str
    seconds: float
    words: str = ""


def _read(data: bytes, name: str) -> _Result:
    signal.setitimer(
        signal.ITIMER_PROF, MOST_SECONDS
    )  # SIGPROF ends the process: nothing in it can stop that
    began = time.process_time()
    try:
        code, words = _outcome(data), ""
    except BaseException as error:  # noqa: BLE001 - what escapes is the finding
        code, words = ESCAPED, f"{name}: {type(error).__name__}: {error}"[:500]
    seconds = time.process_time() - began
    signal.setitimer(signal.ITIMER_PROF, 0)
    return _Result(code, seconds, words)


def _outcome(data: bytes) -> str:
    """`OPENED`, or the code of the refusal, whose sentence must be one line that begins with the file's name."""
    try:
        read_design(data, "quilt.piecewright")
    except FileError as error:
        sentence = error.sentence()
        if "\n" in sentence or not sentence.startswith("quilt.piecewright") or len(sentence) > 1000:
            raise AssertionError(f"not one clear sentence: {sentence[:1200]!r}") from error
        sentence.encode()
        return error.message.code
    return OPENED


def _limit_memory() -> None:
    pages = int(Path("/proc/self/statm").read_text("ascii").split()[0])
    most = pages * os.sysconf("SC_PAGE_SIZE") + MOST_BYTES
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


def _trace_lines(seed: int) -> dict[str, str]:
    seen = set[tuple[str, int]]()
    names = {module.__file__ for module in _MODULES}

    def trace(frame: FrameType, event: str, _: Any) -> Any:
        if frame.f_code.co_filename not in names:
            return None
        if event == "line":
            seen.add((frame.f_code.co_filename, frame.f_lineno))
        return trace

    sys.settrace(trace)
    for number in range(TRACED):
        _outcome(mutated(number, seed))
    sys.settrace(None)
    return {str(module.__name__): _share(str(module.__file__), seen) for module in _MODULES}


def _share(name: str, seen: set[tuple[str, int]]) -> str:
    code = compile(Path(name).read_text("utf-8"), name, "exec")
    lines = {
        line
        for inner in _functions(code)
        for _, _, line in inner.co_lines()
        if line and line != inner.co_firstlineno
    }
    ran = {line for file, line in seen if file == name}
    return f"{len(lines & ran)} of {len(lines)} lines"


def _functions(code: CodeType) -> Iterator[CodeType]:
    """Every function in a module's code; the module's and its classes' own lines ran when they were imported."""
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            if constant.co_flags & 0x1:  # CO_OPTIMIZED: a function, not a class body
                yield constant
            yield from _functions(constant)
