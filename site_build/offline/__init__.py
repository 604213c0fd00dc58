"""The site on a reader's device: what is kept, and the folder to carry."""
