"""The zip of a design: always the same bytes; hostile and broken ones refused before they cost anything."""

import io
import zipfile
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import FileError
from piecewright.files import container, limits
from piecewright.files.design_file import read_design
from tests.core.files.bombs import BOMBS, metered, raw_zip, zipped
from tests.core.files.sample_design import picture

DESIGN = b'{"piecewright":1,"name":"x"}'


@given(
    st.binary(max_size=500),
    st.dictionaries(st.text("abc Ä.", min_size=1).filter(str.strip), st.binary(max_size=99)),
)
def test_a_packed_design_comes_out_as_it_went_in(design: bytes, pictures: dict[str, bytes]) -> None:
    kept = {name: data for name, data in pictures.items() if name not in (".", "..")}
    packed = container.pack(design, kept)
    assert packed == container.pack(design, dict(reversed(kept.items())))
    contents = container.unpack(packed)
    assert contents.design == design
    assert contents.pictures() == kept


def test_the_zip_library_finds_nothing_wrong_and_the_type_stands_first_unpacked() -> None:
    packed = container.pack(DESIGN, {"leaf.png": picture()})
    with zipfile.ZipFile(io.BytesIO(packed)) as archive:
        assert archive.testzip() is None
        assert archive.namelist() == ["mimetype", "design.json", "pictures/leaf.png"]
    assert packed[30 : 30 + 8 + len(container.MIME_TYPE)] == b"mimetype" + container.MIME_TYPE.encode()


@pytest.mark.parametrize("bomb", BOMBS.values(), ids=BOMBS.keys())
def test_a_bomb_is_refused_before_it_unpacks(
    bomb: Callable[[], bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    data = bomb()
    with metered(monkeypatch) as meter, pytest.raises(FileError):
        read_design(data, "bomb")
    assert meter.unpacked <= 1 << 16


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("../design.json", "climbing-entry"),
        ("/etc/passwd", "climbing-entry"),
        ("pictures/../../x.png", "climbing-entry"),
        ("pictures\\..\\x.png", "climbing-entry"),
        ("C:x.png", "climbing-entry"),
        ("pictures/deeper/x.png", "foreign-entry"),
        ("pictures/.", "foreign-entry"),
        ("run.sh", "foreign-entry"),
        ("__MACOSX/._design.json", "foreign-entry"),
        ("Design.json", "foreign-entry"),
    ],
)
def test_an_entry_that_leads_out_or_does_not_belong_is_refused_by_name(name: str, code: str) -> None:
    with pytest.raises(FileError) as error:
        read_design(zipped(("design.json", DESIGN), (name, b"x")), "q.piecewright")
    assert error.value.message.code == f"files.{code}"
    assert name in str(error.value)


def test_a_name_that_hides_behind_a_zero_byte_is_refused() -> None:
    with pytest.raises(FileError) as error:
        read_design(raw_zip([("design.json\0.png", b"", 0, 0, 0)]))
    assert error.value.message.code == "files.climbing-entry"


def test_an_entry_there_twice_is_refused() -> None:
    with pytest.raises(FileError, match=r"It holds design.json twice"):
        read_design(zipped(("design.json", DESIGN), ("design.json", DESIGN)))


def test_a_password_is_told() -> None:
    with pytest.raises(FileError, match=r"design.json in it is locked with a password"):
        read_design(raw_zip([("design.json", b"x" * 40, 40, 1, 0)]))


@pytest.mark.parametrize("method", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_other_ways_of_packing_are_refused(method: int) -> None:
    with pytest.raises(FileError) as error:
        read_design(zipped(("design.json", DESIGN), method=method))
    assert error.value.message.code == "files.odd-packing"


def test_a_zip_that_is_no_design_is_told() -> None:
    with pytest.raises(FileError, match=r"a zip file without design.json"):
        read_design(zipped(("word/document.xml", b"<x/>")))


def test_every_truncation_and_everything_before_or_after_is_refused() -> None:
    whole = container.pack(DESIGN, {"leaf.png": picture()})
    for cut in range(4, len(whole)):
        with pytest.raises(FileError) as error:
            read_design(whole[:cut])
        assert error.value.message.code == "files.damaged-zip"
    for around in (whole + b"x", whole[:4] + whole):
        with pytest.raises(FileError) as error:
            read_design(around)
        assert error.value.message.code == "files.damaged-zip"


def test_a_bit_changed_in_the_content_is_found_by_its_checksum() -> None:
    whole = container.pack(DESIGN, {"leaf.png": picture()})
    at = whole.index(picture()) + 70
    with pytest.raises(FileError) as error:
        read_design(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
    assert error.value.message.code == "files.damaged-zip"


def test_a_zip_by_another_tool_opens_with_or_without_the_folder_entry() -> None:
    loaded = read_design(
        zipped(("design.json", DESIGN), ("pictures/", b""), ("pictures/leaf.png", picture()))
    )
    assert loaded.pictures == {"leaf.png": picture()}


@pytest.mark.parametrize(
    "data",
    [b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"MZ\x90\x00", b"GIF89a", b"", b"#!/bin/sh\nrm -rf /"],
)
def test_a_picture_that_is_no_picture_is_refused_whatever_its_name_says(data: bytes) -> None:
    with pytest.raises(FileError) as error:
        read_design(zipped(("design.json", DESIGN), ("pictures/leaf.png", data)), "q.piecewright")
    assert str(error.value) == (
        "q.piecewright, pictures/leaf.png: This is not a PNG, JPEG or WebP picture, whatever its name says. "
        "Save the picture anew as PNG or JPEG."
    )


def test_a_directory_just_over_the_limit_is_refused_and_one_at_the_limit_is_not() -> None:
    small = picture("PNG", 1, 1)
    most = [("design.json", DESIGN), *((f"pictures/{n}.png", small) for n in range(limits.PICTURE_COUNT))]
    assert len(read_design(zipped(*most)).pictures) == limits.PICTURE_COUNT
    with pytest.raises(FileError, match="It holds 404 entries; a design has at most 403"):
        read_design(zipped(*most, *((f"pictures/x{n}.png", small) for n in range(3))))
