"""What can go wrong in front of a person, said in one sentence."""


class PlainError(Exception):
    """Something a person can put right; its text is one sentence that says what to do."""
