"""Preferences: kept whole, forgiving to what can not be understood, careful with a newer program's."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.files.settings import (
    PREFERENCES_FILE,
    LoadedPreferences,
    Preferences,
    load_preferences,
    save_preferences,
)
from piecewright.units.measure import Measure

LIKED = Preferences(
    theme="dark",
    language="de",
    unit="cm",
    fraction=8,
    decimal_comma=True,
    text_percent=150,
    shortcuts={"turn": "R"},
    favorites=("Rail fence of three",),
    window=b"\x00\xff",
)


def test_preferences_come_back(tmp_path: Path) -> None:
    save_preferences(tmp_path / "new", LoadedPreferences(LIKED))
    assert load_preferences(tmp_path / "new") == LoadedPreferences(LIKED)
    assert LIKED.measure == Measure("cm", 8, comma=True)


def test_without_a_file_they_are_as_at_first(tmp_path: Path) -> None:
    (tmp_path / ".piecewright-00000000000000aa.part").write_bytes(b"left by a crash")
    assert load_preferences(tmp_path) == LoadedPreferences(Preferences())
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("data", [b"", b"{", b"[]", b'{"theme"', b"\xff\xfe", b"[" * 100_000, b"{" * 100_000])
def test_a_damaged_file_is_kept_and_they_begin_anew(tmp_path: Path, data: bytes) -> None:
    (tmp_path / PREFERENCES_FILE).write_bytes(data)
    loaded = load_preferences(tmp_path)
    assert loaded.preferences == Preferences()
    assert "the old ones are kept as" in str(loaded.notes[0])
    assert (tmp_path / f"{PREFERENCES_FILE}.damaged").read_bytes() == data


_PLAIN = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-10, 400)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner, max_size=3),
    max_leaves=5,
)


@given(st.dictionaries(st.sampled_from([*Preferences.__struct_fields__, "hexagons"]), _PLAIN))
def test_each_value_is_taken_or_told_by_itself(
    tmp_path_factory: pytest.TempPathFactory, plain: dict[str, Any]
) -> None:
    folder = tmp_path_factory.mktemp("preferences")
    (folder / PREFERENCES_FILE).write_text(json.dumps(plain), "utf-8")
    loaded = load_preferences(folder)
    reset = {dict(note.args)["name"] for note in loaded.notes}
    for name in Preferences.__struct_fields__:
        if name not in plain or name in reset:
            assert getattr(loaded.preferences, name) == getattr(Preferences(), name)
    assert dict(loaded.unknown) == {key: value for key, value in plain.items() if key == "hexagons"}
    assert reset <= plain.keys()


def test_what_only_a_newer_program_knows_is_written_back(tmp_path: Path) -> None:
    place = tmp_path / PREFERENCES_FILE
    place.write_text('{"theme": "light", "hexagons": [1, {"a": "b"}]}', "utf-8")
    save_preferences(tmp_path, load_preferences(tmp_path))
    assert json.loads(place.read_text("utf-8")) == {"theme": "light", "hexagons": [1, {"a": "b"}]}
