"""A bow and its string, drawn from a worksheet's results."""

from calc.draw.string.bow import braced_bow
from calc.draw.string.eye import loop_round_tip
from calc.draw.string.flat import string_layout
from calc.draw.string.packing import packed
from calc.draw.string.posts import endless_posts, post, racetrack
from calc.draw.string.row import FlatZone
from calc.draw.string.section import bundle_section
from calc.draw.string.throat import serving_in_throat

__all__ = [
    "FlatZone",
    "braced_bow",
    "bundle_section",
    "endless_posts",
    "loop_round_tip",
    "packed",
    "post",
    "racetrack",
    "serving_in_throat",
    "string_layout",
]
