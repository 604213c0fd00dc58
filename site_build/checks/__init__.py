"""Every check there is, the look over a built site, and what tests report."""
