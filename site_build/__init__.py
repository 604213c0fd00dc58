"""Turns `docs/` and `calc/` into the site."""
