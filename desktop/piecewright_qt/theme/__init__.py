"""How the window looks: tokens, palettes, style sheet and icons of our own."""
