"""The shape to cover: chosen, sized, drawn by hand, and covered with blocks."""
