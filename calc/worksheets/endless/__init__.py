"""An endless string: how far apart the posts stand, how often to go round, how to serve and twist it."""
