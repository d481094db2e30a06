"""Reads the SVG that pictures write."""

from xml.etree import ElementTree as ET

SVG = "{http://www.w3.org/2000/svg}"
LINK = "{http://www.w3.org/1999/xlink}href"


def read_svg(text: str) -> ET.Element:
    """The root of a picture; raises where it is not well formed."""
    return ET.fromstring(text.encode())  # noqa: S314 (our own pictures)
