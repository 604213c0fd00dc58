"""What a person can ask of `python3 -m site_build`, and the server that shows the site."""
