"""Tuning at the range: turns to put in or take out, how far the lay lets them go, whether to make the string again."""
