"""Shapes in metres, and the one writer that makes SVG of them."""
