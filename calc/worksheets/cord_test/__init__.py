"""An unknown cord: weigh it, float it, roll it up, hang something on it; what it may be and how many strands of it."""
