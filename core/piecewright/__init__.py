"""The engine of Piecewright: simulates the sewing and cutting of quilts, exactly; knows no window."""
