"""How closely two independent ways to one number must agree, relative to it."""

from __future__ import annotations

CLOSED_FORM = 1e-9
"""Where both ways, or one of them, are a formula evaluated once."""
SOLVED = 1e-6
"""Where a search, an integration or an optimisation stands on either side."""
