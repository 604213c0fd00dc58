"""A shot: draw force, stored energy, arrow speed, and the string's pull before and after the arrow has gone."""
