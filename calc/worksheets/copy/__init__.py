"""Make it like this one: what to cut and turn for another string, from the old one alone."""
