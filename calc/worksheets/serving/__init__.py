"""A centre serving: turns, thread, thickness, and whether it fits the nock."""
