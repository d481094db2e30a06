"""Mixing of the colors that pictures are drawn in."""


def parse(color: str) -> tuple[int, int, int]:
    """Red, green and blue, 0 to 255, of #rrggbb."""
    return (int(color[1:3], 16), int(color[3:5], 16), int(color[5:7], 16))


def mix(first: str, second: str, share: float) -> str:
    """The color that lies `share` of the way from the first to the second."""
    pairs = zip(parse(first), parse(second), strict=True)
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in pairs)


def lightness(color: str) -> float:
    """Relative luminance 0 to 1: WCAG 2.2, "relative luminance"."""
    linear = [
        (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4) for c in (v / 255 for v in parse(color))
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
