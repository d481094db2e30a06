"""The Wall: one canvas on which the quilt hangs, is laid, moved, turned and recolored."""
