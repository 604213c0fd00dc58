"""Guides: their blocks, marks, figures and words."""
