"""What has to be on a machine first: the environment, packages, a browser; and its progress lines."""
