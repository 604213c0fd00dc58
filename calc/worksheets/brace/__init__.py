"""Brace height from string length, or string length from brace height, on a measured bow."""
