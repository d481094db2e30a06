"""The engine of Piecewright: simulates the sewing and cutting of quilts, exactly; knows no window."""

__version__ = "0.1.0"
