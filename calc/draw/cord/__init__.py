"""Laid cord, served cord and what they lie round, along any line."""
