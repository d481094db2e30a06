"""The word check finds what has no place in the project; words are put together here lest it finds them."""

from pathlib import Path

import pytest

from tests.tools.word_check import ROOT, faults, faults_in


@pytest.mark.parametrize(
    "text",
    [
        "x = 1  # TO" + "DO later",
        "as the tran" + "script says",
        "pip install --index" + "-url https",
        f"see {ROOT}" + "/core",
        'open("/wo' + 'rk/main/x")',
    ],
)
def test_closed_words_are_found_with_their_line(text: str) -> None:
    assert [fault.split(": ")[0] for fault in faults_in("made.py", f"fine\n{text}\n")] == ["made.py:2"]


@pytest.mark.parametrize(
    "text", ["todos", "core/work/place", 'HOME="/ho' + 'me/ada"', "https://example.org/wo" + "rk/"]
)
def test_common_words_pass(text: str) -> None:
    assert list(faults_in("made.py", text)) == []


def test_a_lock_file_holds_no_address() -> None:
    assert list(faults_in("made.lock", "x @ https://example.org/x.whl")) == [
        "made.lock:1: a lock file names versions and hashes, no addresses"
    ]


def test_new_files_are_read_ignored_ones_are_not(tmp_path: Path) -> None:
    (tmp_path / ".gitignore").write_text("build/\n")
    (tmp_path / "build").mkdir()
    for name in ("new.md", "build/made.md"):
        (tmp_path / name).write_text("FIX" + "ME\n")
    assert [fault.split(": ")[0] for fault in faults(tmp_path)] == ["new.md:1"]
