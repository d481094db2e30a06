"""Pictures by their first bytes, with an image library as the reference."""

import io
import struct

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from piecewright.errors import FileError
from piecewright.files.limits import PICTURE_BYTES, PICTURE_COUNT
from piecewright.files.pictures import check_pictures, is_picture_name, picture_facts
from tests.core.files.sample_design import picture


@settings(max_examples=60)
@given(
    st.sampled_from(["PNG", "JPEG", "WEBP"]),
    st.integers(1, 300),
    st.integers(1, 300),
    st.sampled_from(["RGB", "RGBA", "L"]),
    st.booleans(),
)
def test_kind_and_size_are_those_the_image_library_reads(
    kind: str, width: int, height: int, mode: str, other_form: bool
) -> None:
    made = io.BytesIO()
    image = Image.new("RGB" if kind == "JPEG" and mode == "RGBA" else mode, (width, height))
    options = {
        "PNG": {"optimize": other_form},
        "JPEG": {"progressive": other_form},
        "WEBP": {"lossless": other_form},
    }
    image.save(made, kind, **options[kind])
    facts = picture_facts("x", made.getvalue())
    assert (facts.kind.upper(), facts.width, facts.height) == (kind, width, height)


def test_a_photo_with_camera_notes_before_its_frame_is_measured() -> None:
    made = io.BytesIO()
    notes = Image.Exif()
    notes[0x010E] = "x" * 5000
    Image.new("RGB", (33, 44)).save(made, "JPEG", exif=notes.tobytes(), comment=b"y" * 3000)
    assert picture_facts("x", made.getvalue()).height == 44


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>",
        b"<?xml version='1.0'?><svg/>",
        b"GIF89a\x01\x00\x01\x00",
        b"BM" + bytes(60),
        b"MZ" + bytes(60),
        b"#!/bin/sh\n",
        b"\x89PNG\r\n\x1a\n",
        b"\xff\xd8\xff\xe0",
        b"\xff\xd8\xff" + b"\xff" * 500,
        b"\xff\xd8" + b"\xff\xe0\x00\x00" * 200,
        b"RIFF\x00\x00\x00\x00WEBPVP8 " + bytes(20),
        b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + bytes(20),
    ],
)
def test_what_is_no_picture_is_refused(data: bytes) -> None:
    with pytest.raises(FileError, match=r"pictures/leaf.png: This is not a PNG, JPEG or WebP picture"):
        picture_facts("leaf.png", data)


@given(st.sampled_from(["PNG", "JPEG", "WEBP"]), st.data())
def test_a_picture_cut_off_or_changed_anywhere_is_measured_or_refused(kind: str, data: st.DataObject) -> None:
    whole = picture(kind)
    cut = bytearray(whole[: data.draw(st.integers(0, len(whole)))])
    for _ in range(data.draw(st.integers(0, 3))):
        if cut:
            cut[data.draw(st.integers(0, len(cut) - 1))] = data.draw(st.integers(0, 255))
    try:
        facts = picture_facts("x", bytes(cut))
    except FileError:
        return
    assert facts.width > 0
    assert facts.height > 0


@pytest.mark.parametrize(("width", "height"), [(50_000, 2), (2, 50_000), (9000, 9000), (2**31, 2**31)])
def test_a_picture_of_too_many_pixels_is_refused_by_its_header(width: int, height: int) -> None:
    header = b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + struct.pack(">II", width, height) + bytes(20)
    with pytest.raises(FileError, match=f"{width} x {height} pixels; 40 million are the most"):
        picture_facts("x", header)


def test_too_large_too_many_and_badly_named_pictures_are_refused() -> None:
    small = picture()
    with pytest.raises(FileError, match="larger than 8 MB"):
        check_pictures({"x": small + bytes(PICTURE_BYTES)})
    with pytest.raises(FileError, match="401 pictures; a design carries at most 400"):
        check_pictures({f"{number}": small for number in range(PICTURE_COUNT + 1)})
    with pytest.raises(FileError, match="together are larger than 96 MB"):
        check_pictures({f"{number}": small + bytes(PICTURE_BYTES - 1000) for number in range(13)})
    with pytest.raises(FileError, match=r"\.\./x is not a name for a picture"):
        check_pictures({"../x": small})


def test_names_of_pictures() -> None:
    assert all(map(is_picture_name, ["leaf.jpg", "Mein Stoff Ä.png", "x", "a" * 200]))
    assert not any(map(is_picture_name, ["", " ", ".", "..", "a/b", "a\\b", "C:x", "a\nb", "a\0", "a" * 201]))
