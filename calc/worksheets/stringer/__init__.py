"""A bow stringer: how long its cord is, what it must hold, how wide its pockets are."""
