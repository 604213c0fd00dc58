"""A string from end to end: what to cut, where to mark it, how often to turn it."""
