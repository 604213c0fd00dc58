"""How many strands: strong enough for the hardest pull of a shot, thick enough to hold."""
