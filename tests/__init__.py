"""The checks. The site reads one file of them, `published/rows.py`, to tell where it misses measurements."""
