"""Hear the pull: what the note of a plucked bowstring tells of string and limbs."""
