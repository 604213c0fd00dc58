"""Places for words in a drawing."""

from calc.draw.labels.free import Free
from calc.draw.labels.seats import Seat, place_labels
from calc.draw.labels.tags import Tag, Tags, Words

__all__ = [
    "Free",
    "Seat",
    "Tag",
    "Tags",
    "Words",
    "place_labels",
]
