"""The checks. The site reads one file of them, `published/bow/comparison.py`, to tell where it misses measurements."""
