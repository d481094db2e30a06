"""Photos become fabrics: read within bounds, shrunk and measured; what is hostile or broken is told and left out."""

import io
import struct
import zlib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from PySide6.QtCore import QMimeData, QSize, QUrl
from PySide6.QtGui import QColor, QImage

from piecewright.errors import FileError
from piecewright.files.pictures import check_pictures, picture_facts
from piecewright_qt.shelf.photos import (
    LONGEST,
    average_color,
    decoded,
    photo_from_bytes,
    photo_from_file,
    photo_from_image,
    photo_from_mime,
)

# The libraries that decode warn of what is broken in a file; that is their way to refuse it.
pytestmark = [pytest.mark.usefixtures("qapp"), pytest.mark.qt_log_level_fail("CRITICAL")]
SVG = b'<svg xmlns="http://www.w3.org/2000/svg"><image href="/etc/passwd" width="9" height="9"/></svg>'


def picture(kind: str, size: tuple[int, int] = (40, 30), color: object = (180, 60, 40)) -> bytes:
    made = io.BytesIO()
    Image.new("RGBA" if isinstance(color, tuple) and len(color) == 4 else "RGB", size, color).save(made, kind)  # type: ignore[arg-type]
    return made.getvalue()


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WEBP"])
def test_a_photo_of_any_kind_is_kept_as_a_jpeg_under_the_name_of_its_contents(kind: str) -> None:
    photo = photo_from_bytes("roll.txt", picture(kind))
    assert picture_facts(photo.name, photo.data).kind == "jpeg"
    assert photo == photo_from_bytes("another name", picture(kind))
    check_pictures({photo.name: photo.data})
    red, green, blue = (int(photo.color[at : at + 2], 16) for at in (1, 3, 5))
    assert abs(red - 180) < 6
    assert abs(green - 60) < 6
    assert abs(blue - 40) < 6


@pytest.mark.parametrize("size", [(6000, 4000), (3000, 50), (1024, 1024), (1, 2048), (20, 20)])
def test_a_large_photo_is_shrunk_and_a_small_one_left(size: tuple[int, int]) -> None:
    facts = picture_facts("", photo_from_bytes("", picture("JPEG", size)).data)
    assert max(facts.width, facts.height) == min(LONGEST, max(size))
    assert facts.width / facts.height == pytest.approx(size[0] / size[1], rel=0.2, abs=1)


def test_a_camera_turned_on_its_side_is_turned_back() -> None:
    made, tags = io.BytesIO(), Image.Exif()
    tags[0x0112] = 6  # orientation: the row's start is at the right (JEITA CP-3451, 4.6.4)
    Image.new("RGB", (400, 200), (90, 90, 90)).save(made, "JPEG", exif=tags)
    facts = picture_facts("", photo_from_bytes("", made.getvalue()).data)
    assert (facts.width, facts.height) == (200, 400)


def test_what_is_transparent_shows_white() -> None:
    assert photo_from_bytes("", picture("PNG", color=(255, 0, 0, 0))).color == "#ffffff"


def test_black_and_white_threads_average_to_the_gray_of_their_light() -> None:
    """Half the light of white is sRGB 188 (IEC 61966-2-1), 186 with a plain gamma of 2.2; not 128."""
    image = QImage(2, 2, QImage.Format.Format_RGB32)
    image.fill(QColor("#000000"))
    image.setPixelColor(0, 0, QColor("#ffffff"))
    image.setPixelColor(1, 1, QColor("#ffffff"))
    assert 184 <= int(average_color(image)[1:3], 16) <= 189


def test_a_photo_of_more_pixels_than_a_camera_has_is_refused_unread() -> None:
    header = struct.pack(">IIBBBBB", 19_000, 19_000, 8, 2, 0, 0, 0)
    chunk = b"IHDR" + header
    bomb = b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + chunk + struct.pack(">I", zlib.crc32(chunk))
    with pytest.raises(FileError) as told:
        photo_from_bytes("bomb.png", bomb + bytes(100))
    assert told.value.message.code == "files.picture-too-many-pixels"


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("cat.svg", SVG),
        ("cat.png", SVG),
        ("notes.jpg", b"A photo of my cat"),
        ("empty.png", b""),
        ("old.gif", b"GIF89a" + bytes(40)),
        ("scan.bmp", picture("BMP")),
    ],
)
def test_what_is_no_photo_is_told_whatever_its_name(name: str, data: bytes) -> None:
    with pytest.raises(FileError) as told:
        photo_from_bytes(name, data)
    assert told.value.message.code == "files.no-picture"
    assert told.value.hint is not None


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WEBP"])
@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_a_photo_cut_off_is_told(kind: str, share: float) -> None:
    noise = Image.effect_noise((300, 200), 90).convert("RGB")
    made = io.BytesIO()
    noise.save(made, kind)
    whole = made.getvalue()
    with pytest.raises(FileError) as told:
        photo_from_bytes("cut", whole[: int(len(whole) * share)])
    assert told.value.message.code in ("shelf.photo-damaged", "files.no-picture")


@settings(max_examples=60)
@given(st.data())
def test_damage_anywhere_is_told_or_harmless(data: st.DataObject) -> None:
    whole = bytearray(picture(data.draw(st.sampled_from(["PNG", "JPEG", "WEBP"]))))
    for _ in range(data.draw(st.integers(1, 8))):
        whole[data.draw(st.integers(0, len(whole) - 1))] = data.draw(st.integers(0, 255))
    try:
        photo = photo_from_bytes("damaged", bytes(whole))
    except FileError:
        return
    check_pictures({photo.name: photo.data})


def test_a_file_too_large_to_be_a_photo_is_not_read(tmp_path: Path) -> None:
    place = tmp_path / "film.jpg"
    with place.open("wb") as file:
        file.truncate(65 * 1024 * 1024)
    with pytest.raises(FileError) as told:
        photo_from_file(place)
    assert told.value.message.code == "shelf.photo-too-large"


def test_a_drop_brings_a_file_or_an_image_and_nothing_else(tmp_path: Path) -> None:
    place = tmp_path / "Häkel photo.png"
    place.write_bytes(picture("PNG"))
    by_file, by_image, by_text, far = QMimeData(), QMimeData(), QMimeData(), QMimeData()
    by_file.setUrls([QUrl.fromLocalFile(str(place))])
    by_image.setImageData(QImage.fromData(picture("PNG")))
    by_text.setText("no picture")
    far.setUrls([QUrl("https://example.org/cloth.png")])
    assert photo_from_mime(by_file) == photo_from_mime(by_image)
    assert photo_from_mime(by_text) is None
    assert photo_from_mime(far) is None


def test_a_kept_photo_is_read_no_larger_than_it_is_shown() -> None:
    image = decoded(picture("JPEG", (1000, 500)), QSize(100, 80))
    assert image is not None
    assert (image.width(), image.height()) == (200, 100)
    assert decoded(b"damaged since", QSize(10, 10)) is None


def test_an_image_of_the_clipboard_is_shrunk_too() -> None:
    image = QImage(3000, 1500, QImage.Format.Format_ARGB32)
    image.fill(QColor("#336699"))
    facts = picture_facts("", photo_from_image(image).data)
    assert (facts.width, facts.height) == (1024, 512)
