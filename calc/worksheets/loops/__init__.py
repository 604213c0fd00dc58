"""A loop for a limb tip: how long, how much flat bundle, and where its throat comes to stand."""
