"""Look at the bend: where and how much each limb bends, by points marked in a picture."""
