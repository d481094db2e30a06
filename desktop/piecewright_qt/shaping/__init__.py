"""A project's shape: chosen, sized, drawn by hand, and covered with blocks."""
