"""On the nail: what a finished string will be on the bow, told by a weight before the bow has ever bent."""
