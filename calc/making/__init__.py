"""From a bow and a cord to a string: what to cut, how often to turn, how strong it is."""
