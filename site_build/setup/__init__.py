"""What has to be on a machine first: the environment, packages, a browser; and how all of it is told."""
