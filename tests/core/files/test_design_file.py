"""Design files: what is saved is what is loaded, older and newer formats, and what may not be overwritten."""

import json
from pathlib import Path

import pytest
from hypothesis import given, settings

from piecewright.errors import FileError
from piecewright.files.design_file import (
    digest_at,
    digest_of,
    load_design,
    pack_design,
    read_design,
    save_design,
)
from piecewright.files.migrate import STEPS, Plain, Step, migrate, migration
from piecewright.model.codec import to_json, to_plain
from piecewright.model.design import FORMAT, Design
from piecewright.model.fabric import Fabric
from tests.core.files.random_designs import designs
from tests.core.files.sample_design import picture, sample_design, sample_pictures

ZIP, PLAIN = Path("q.piecewright"), Path("q.json")


def code(error: pytest.ExceptionInfo[FileError]) -> str:
    return error.value.message.code


def plain_with(**changes: object) -> bytes:
    return json.dumps({"piecewright": 1, "name": "x", **changes}).encode()


@settings(max_examples=60)
@given(designs())
def test_any_design_comes_back_equal_from_zip_and_from_plain_json(design: Design) -> None:
    for name in (ZIP, PLAIN):
        data = pack_design(name, design, {})
        loaded = read_design(data)
        assert loaded.design == design
        assert hash(loaded.design) == hash(design)
        assert pack_design(name, loaded.design, loaded.pictures) == data
        assert (loaded.version, loaded.read_only, loaded.digest, loaded.notes) == (
            FORMAT,
            False,
            digest_of(data),
            (),
        )


def test_a_saved_design_loads_with_its_pictures(tmp_path: Path) -> None:
    place = tmp_path / "hedgerow.piecewright"
    digest = save_design(place, sample_design(), sample_pictures())
    loaded = load_design(place)
    assert loaded.design == sample_design()
    assert loaded.pictures == sample_pictures()
    assert loaded.digest == digest == digest_at(place)


def test_the_ending_of_a_name_does_not_matter_for_reading(tmp_path: Path) -> None:
    save_design(tmp_path / "q.piecewright", sample_design(), sample_pictures())
    save_design(tmp_path / "q.json", Design("x"))
    (tmp_path / "q.piecewright").rename(tmp_path / "q.txt")
    (tmp_path / "q.json").rename(tmp_path / "q")
    assert load_design(tmp_path / "q.txt").design == sample_design()
    assert load_design(tmp_path / "q").design == Design("x")


def test_only_pictures_that_a_fabric_shows_are_saved(tmp_path: Path) -> None:
    place = tmp_path / "q.piecewright"
    save_design(place, sample_design(), {**sample_pictures(), "gone.png": picture()})
    assert load_design(place).pictures == sample_pictures()


def test_a_picture_that_is_missing_is_noted_and_the_design_opens() -> None:
    design = Design("x", (Fabric("f1", "Leaf", "#507030", picture="leaf.png"),), next_id=2)
    loaded = read_design(to_json(design))
    assert loaded.design == design
    assert [str(note) for note in loaded.notes] == [
        "The picture leaf.png of the fabric Leaf is not in the file; its color is shown instead."
    ]


def test_plain_json_takes_no_pictures(tmp_path: Path) -> None:
    with pytest.raises(FileError) as error:
        save_design(tmp_path / "q.json", sample_design(), sample_pictures())
    assert code(error) == "files.no-pictures-in-json"
    assert list(tmp_path.iterdir()) == []


def test_a_picture_that_is_none_is_never_saved(tmp_path: Path) -> None:
    with pytest.raises(FileError, match=r"leaf\.png: This is not a PNG"):
        save_design(tmp_path / "q.piecewright", sample_design(), {"leaf.png": b"<svg/>"})
    assert list(tmp_path.iterdir()) == []


def test_a_byte_order_mark_is_taken() -> None:
    assert read_design(b"\xef\xbb\xbf" + plain_with()).design == Design("x")


@pytest.mark.parametrize(
    ("data", "code_and_words"),
    [
        (b"", ("files.empty", "The file is empty")),
        (b" \n", ("files.empty", "The file is empty")),
        (b"\x89PNG\r\n", ("files.other-kind", "the kind PNG")),
        (b"%PDF-1.7", ("files.other-kind", "the kind PDF")),
        (b"<svg/>", ("files.other-kind", "SVG")),
        (b"hello", ("files.no-design", "not a design")),
        (b"[1]", ("files.no-design", "not a design")),
        (b"{", ("model.not-json", "Line 1, column 2")),
        (b'{"piecewright": 1, "name": "\xff"}', ("model.not-utf-8", "Byte 29")),
        (b'{"piecewright": 1, "name": "x", "about": NaN}', ("model.no-number", "NaN is not a number")),
        (b'{"piecewright": 1, "name": "x", "name": "y"}', ("model.key-twice", '"name"')),
        (b'{"name": "x"}', ("files.no-version", "version is missing")),
        (b'{"recipe": 1, "name": "x"}', ("files.is-recipe", "a recipe for a block")),
        (b'{"piecewright": "1", "name": "x"}', ("files.bad-version", "its format version is none")),
        (b'{"piecewright": true, "name": "x"}', ("files.bad-version", "its format version is none")),
        (b'{"piecewright": -1, "name": "x"}', ("files.bad-version", "its format version is none")),
        (b'{"piecewright": 1' + b"0" * 400 + b"}", ("files.bad-version", "its format version is none")),
        (b'{"piecewright": 1, "name": "x", "' + b"k" * 9999 + b'": 1}', ("model.unknown-key", "has no key")),
        (b'{"piecewright": 1}', ("model.missing-key", "name")),
    ],
)
def test_what_is_no_design_is_told_in_one_line(data: bytes, code_and_words: tuple[str, str]) -> None:
    with pytest.raises(FileError) as error:
        read_design(data, "q.piecewright")
    assert code(error) == code_and_words[0]
    assert code_and_words[1] in str(error.value)
    assert str(error.value).startswith("q.piecewright: ")
    assert "\n" not in str(error.value)


def test_a_fault_inside_is_told_with_its_place() -> None:
    fabrics = [
        {"id": "f1", "name": "Leaf", "color": "#507030"},
        {"id": "f2", "name": "Moss", "colour": "#000000"},
    ]
    with pytest.raises(FileError) as error:
        read_design(plain_with(fabrics=fabrics, next_id=3), "q.json")
    assert str(error.value) == 'q.json, fabrics[1]: A design has no key "colour" here. Did you mean color?'


def test_a_newer_design_that_holds_nothing_unknown_opens_for_looking() -> None:
    loaded = read_design(plain_with(piecewright=FORMAT + 1))
    assert loaded.read_only
    assert loaded.version == FORMAT + 1
    assert loaded.design == Design("x")
    assert "A newer Piecewright made this file (format 2; this one knows 1)" in str(loaded.notes[0])


@pytest.mark.parametrize("changes", [{"hexagons": []}, {"name": {"en": "x"}}, {"settings": {"seam": 0.25}}])
def test_a_newer_design_with_anything_unknown_is_not_opened_without_it(changes: dict[str, object]) -> None:
    with pytest.raises(FileError, match="A newer Piecewright made this") as error:
        read_design(plain_with(piecewright=9, **changes))
    assert code(error) == "files.newer"


@pytest.mark.parametrize("changes", [{}, {"hexagons": []}])
def test_a_newer_file_is_kept_byte_for_byte(tmp_path: Path, changes: dict[str, object]) -> None:
    place = tmp_path / "q.piecewright"
    newer = plain_with(piecewright=FORMAT + 1, **changes)
    place.write_bytes(newer)
    with pytest.raises(FileError, match=r"Not saved. A newer Piecewright made this file") as error:
        save_design(place, Design("y"))
    assert code(error) == "files.newer-kept"
    assert place.read_bytes() == newer


def test_a_file_that_changed_since_it_was_read_is_not_overwritten(tmp_path: Path) -> None:
    place = tmp_path / "q.piecewright"
    mine = save_design(place, Design("mine"))
    theirs = save_design(place, Design("theirs"))
    with pytest.raises(FileError, match="changed by another program"):
        save_design(place, Design("mine too"), unless_not=mine)
    assert digest_at(place) == theirs
    save_design(place, Design("mine too"), unless_not=theirs)
    assert load_design(place).design == Design("mine too")


def test_a_damaged_file_may_be_overwritten_at_the_users_word(tmp_path: Path) -> None:
    place = tmp_path / "q.piecewright"
    place.write_bytes(b"PK\x03\x04 and no more")
    save_design(place, Design("x"))
    assert load_design(place).design == Design("x")


def test_a_design_that_would_not_open_again_is_not_saved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "q.piecewright"
    before = save_design(place, Design("old"))
    monkeypatch.setattr("piecewright.files.design_file.to_json", lambda _: to_json(Design("other")))
    with pytest.raises(FileError) as error:
        save_design(place, Design("new"))
    assert code(error) == "files.not-readable-back"
    assert digest_at(place) == before


def test_loading_and_saving_remove_what_a_crashed_save_left(tmp_path: Path) -> None:
    save_design(tmp_path / "q", Design("x"))
    (tmp_path / ".piecewright-00000000000000aa.part").write_bytes(b"half")
    load_design(tmp_path / "q")
    assert [path.name for path in tmp_path.iterdir()] == ["q"]
    (tmp_path / ".piecewright-00000000000000aa.part").write_bytes(b"half")
    save_design(tmp_path / "q", Design("y"))
    assert [path.name for path in tmp_path.iterdir()] == ["q"]


def old_step(plain: Plain) -> Plain:
    """As if in format 0 the name had been called a title."""
    kept = {key: value for key, value in plain.items() if key != "title"}
    return {**kept, "name": plain["title"]}


def test_a_registered_step_lifts_an_older_design() -> None:
    steps: dict[int, Step] = {}
    migration(0, steps)(old_step)
    older = json.dumps({"piecewright": 0, "title": "Hedgerow", "author": "Ada"}).encode()
    loaded = read_design(older, steps=steps)
    assert loaded.design == Design("Hedgerow", author="Ada")
    assert (loaded.version, loaded.read_only) == (0, False)
    with pytest.raises(FileError, match="format 0, which no Piecewright wrote"):
        read_design(older)


def _noting(version: int) -> Step:
    return lambda plain: {**plain, "seen": [*plain.get("seen", []), version]}


def test_steps_run_one_after_the_other_and_none_is_registered_twice() -> None:
    steps: dict[int, Step] = {}
    for version in range(3):
        migration(version, steps)(_noting(version))
    assert migrate({"piecewright": 0}, steps, 3) == {"piecewright": 3, "seen": [0, 1, 2]}
    assert migrate({"piecewright": 2}, steps, 3) == {"piecewright": 3, "seen": [2]}
    with pytest.raises(ValueError, match="two steps"):
        migration(2, steps)(old_step)


def test_every_released_format_before_this_one_has_its_step() -> None:
    assert set(STEPS) == set(range(1, FORMAT))


def test_plain_json_is_written_for_reading() -> None:
    text = pack_design(PLAIN, Design("Hëdgerow"), {}).decode()
    assert json.loads(text) == to_plain(Design("Hëdgerow"))
    assert '\n  "name": "Hëdgerow",\n' in text
