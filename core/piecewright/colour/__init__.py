"""Color by measure: lightness, difference, contrast and value."""
