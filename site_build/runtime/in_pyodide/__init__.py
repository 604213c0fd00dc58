"""What runs inside Pyodide while the site is built: with that Python, and its library alone."""
