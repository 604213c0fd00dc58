"""Python for the browser: its files, the snapshot of its memory, and what asks for them early."""
