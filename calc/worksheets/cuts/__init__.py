"""From a finished length to the cut: every strand, the marks along it, the cord."""
