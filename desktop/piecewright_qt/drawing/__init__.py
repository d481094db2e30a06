"""Pictures on the screen and on paper: the Qt pen and its textures."""
