"""Twisting to a length: turns, take-up and counter-twist of a laid cord, and how far it is from the jam."""
