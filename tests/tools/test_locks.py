"""The lock files hold what pyproject.toml pins, every line with hashes and none with an address."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

ROOT = Path(__file__).resolve().parents[2]
KINDS = {"run": ("build",), "test": ("build", "test")}
SHA256 = re.compile(r"--hash=sha256:[0-9a-f]{64}")


def _locked(kind: str) -> dict[str, str]:
    """The locked lines by the name of the library, each with its hashes."""
    text = (ROOT / "packaging" / f"requirements-{kind}.lock").read_text(encoding="utf-8")
    lines = text.replace("\\\n", " ").splitlines()
    return {
        canonicalize_name(Requirement(line.split("--hash")[0]).name): line for line in lines if line.strip()
    }


def _asked_for(kind: str) -> list[Requirement]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = [text for extra in KINDS[kind] for text in project["optional-dependencies"][extra]]
    return [Requirement(text) for text in project["dependencies"] + extras]


def _version(line: str) -> Version:
    (pin,) = Requirement(line.split("--hash")[0]).specifier
    assert pin.operator == "=="
    return Version(pin.version)


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_asked_for_is_locked_in_a_version_that_is_asked_for(kind: str) -> None:
    locked = _locked(kind)
    asked = {canonicalize_name(one.name): one.specifier for one in _asked_for(kind)}
    assert asked.keys() - locked.keys() == set()
    assert {name for name, versions in asked.items() if _version(locked[name]) not in versions} == set()


@pytest.mark.parametrize("kind", KINDS)
def test_every_locked_line_has_hashes_and_no_address(kind: str) -> None:
    locked = _locked(kind)
    assert [name for name, line in locked.items() if not SHA256.search(line)] == []
    assert [name for name, line in locked.items() if "://" in line] == []


def test_the_program_is_tested_with_the_versions_it_runs_with() -> None:
    tested = _locked("test")
    assert {name for name, line in _locked("run").items() if tested.get(name) != line} == set()


def test_what_builds_the_project_is_locked_in_the_same_version() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert sorted(project["build-system"]["requires"]) == sorted(
        project["project"]["optional-dependencies"]["build"]
    )
