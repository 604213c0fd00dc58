"""Fewest spares: the fewest lengths of string that serve many bows by turns alone."""
