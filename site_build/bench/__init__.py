"""How fast and how large the site is, beside others. Nothing imports this."""
