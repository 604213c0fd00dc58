"""The bench sheet: one string for one bow, from a tape measure to cut lengths, turns and strength."""
