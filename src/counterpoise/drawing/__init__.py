"""From results to shapes, and from shapes to SVG."""
