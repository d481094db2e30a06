"""Exact rectangles, convex float polygons and rigid motions: inches, x right, y down."""
