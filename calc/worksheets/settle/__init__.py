"""Settling a new string: how short to make it, what to hang on it and how long, what still comes after."""
