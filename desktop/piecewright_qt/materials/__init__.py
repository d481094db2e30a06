"""The Materials panel: what the quilt takes, live, and the sliders that resize it."""
