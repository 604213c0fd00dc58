"""Bowstring calculations: Python's standard library only, SI units inside."""
