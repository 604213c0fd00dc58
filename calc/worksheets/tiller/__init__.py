"""Tillering strings: how long each is, how far it may be drawn, and what a scale reads on it."""
