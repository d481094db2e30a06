"""Pictures as arrays, and which way what is on them runs."""

from math import atan2, degrees

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QImage

Pixels = NDArray[np.float64]


def pixels(image: QImage) -> Pixels:
    """Height x width x 3, red green blue, 0 to 255."""
    plain = image.convertToFormat(QImage.Format.Format_RGB888)
    rows = np.frombuffer(plain.constBits(), np.uint8).reshape(plain.height(), plain.bytesPerLine())
    return rows[:, : plain.width() * 3].reshape(plain.height(), plain.width(), 3).astype(float)


def direction(part: Pixels) -> float:
    """Which way stripes run, degrees clockwise from x, 0 <= d < 180: square to the main gradient.

    The structure tensor's main axis (Bigun and Granlund 1987), from memory.
    """
    gray = _smoothed(part.mean(axis=2))[7:-7, 7:-7]
    across, down = gray[1:-1, 2:] - gray[1:-1, :-2], gray[2:, 1:-1] - gray[:-2, 1:-1]
    main = 0.5 * atan2(2 * float((across * down).sum()), float((across**2).sum() - (down**2).sum()))
    return (degrees(main) + 90) % 180


def _smoothed(gray: Pixels) -> Pixels:
    """Softened by a binomial kernel, so that the steps of pixels do not pull a slant toward the axes."""
    kernel = np.array([1.0])
    for _ in range(12):
        kernel = np.convolve(kernel, (0.5, 0.5))
    across = np.array([np.convolve(row, kernel, "same") for row in gray])
    return np.array([np.convolve(column, kernel, "same") for column in across.T]).T


def apart(one: float, other: float) -> float:
    """The angle between two lines, degrees."""
    off = (one - other) % 180
    return min(off, 180 - off)
