"""What happens at a string's ends and round it: limb tips, loops, splices, servings."""

from calc.geometry.ends.bearing import bearing_line, over_bridge
from calc.geometry.ends.fits import loop_of_length, loop_of_throat, loop_sliding
from calc.geometry.ends.loops import Loop, loop_nocked, shortest_loop, widest_opening
from calc.geometry.ends.pipes import flattened, is_pipe, pipe, wall_area
from calc.geometry.ends.sections import EllipseTip, FlatTip, RoundTip, Section, perimeter
from calc.geometry.ends.servings import Coil, ServedLoop, coil, served_loop
from calc.geometry.ends.splices import Splice, SpliceStation, splice, stagger
from calc.geometry.ends.tail_friction import holding_angle, holding_length, holding_ratio, wrap_angle

__all__ = [
    "Coil",
    "EllipseTip",
    "FlatTip",
    "Loop",
    "RoundTip",
    "Section",
    "ServedLoop",
    "Splice",
    "SpliceStation",
    "bearing_line",
    "coil",
    "flattened",
    "holding_angle",
    "holding_length",
    "holding_ratio",
    "is_pipe",
    "loop_nocked",
    "loop_of_length",
    "loop_of_throat",
    "loop_sliding",
    "over_bridge",
    "perimeter",
    "pipe",
    "served_loop",
    "shortest_loop",
    "splice",
    "stagger",
    "wall_area",
    "widest_opening",
    "wrap_angle",
]
