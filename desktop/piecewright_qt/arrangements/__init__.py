"""Several arrangements of one quilt: switched between, named, set side by side."""
