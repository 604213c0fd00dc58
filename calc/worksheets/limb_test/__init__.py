"""A bow that has never had a string: draw weight, the pull a string must hold, and the limbs' balance by a weight."""
