"""Shapes and lengths only, no forces: how cords are laid, and what they are fastened round."""
