"""One file per worksheet: what it asks, what it answers; no HTML."""
