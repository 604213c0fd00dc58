"""Questions that more than one worksheet asks, each worded once."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from calc.data import fibres
from calc.units import GRAIN, INCH, POUND_FORCE
from calc.worksheets.core.schema import Choice, Number, Option, Tip

NOT_KNOWN = "not known"
UNKNOWN: Final = "unknown"
"""The option of a choice for what nobody has found out."""
BOW, CORD, ENDS, METHOD = "The bow", "The cord", "The ends", "The hand"
"""Groups of a form, in the order of the job."""

NOCK_TO_NOCK = Number(
    key="nock_to_nock",
    label="Nock to nock",
    hint="Along the belly of the unbraced bow, from nock bottom to nock bottom.",
    group=BOW,
    example="66 in",
    quantity="length",
    low=20 * INCH,
    high=100 * INCH,
)
HANDLE_LENGTH = Number(
    key="handle_length",
    label="Stiff handle",
    hint="The whole length in the middle that does not bend. Leave empty if not known: the answer widens.",
    group=BOW,
    example="8 in",
    absent=NOT_KNOWN,
    quantity="length",
    low=0.0,
    high=40 * INCH,
)
BOW_KIND = Choice(
    key="bow_kind",
    label="What bow it is",
    hint="A fibre that hardly stretches breaks bows that were not built for it; limbs of pipe pull harder.",
    group=BOW,
    example="wood",
    options=(
        Option(value="wood", label="wood, or not known"),
        Option(value="youth", label="a young archer's bow"),
        Option(value="pipe", label="plastic pipe"),
        Option(value="low_stretch", label="built for low-stretch strings, its maker says so"),
    ),
)
LIMB_SHAPE = Choice(
    key="limb_shape",
    label="Limb bend",
    hint="Look at the drawn bow from the side. A picture tells it in numbers: see the bend sheet.",
    group=BOW,
    example="arc",
    options=(
        Option(value="arc", label="even, like part of a circle"),
        Option(value="hinged", label="only near the handle, limbs stay straight"),
        Option(value="tapered", label="more and more towards the tips"),
        Option(value="uniform", label="most near the handle, less and less outwards"),
        Option(value=UNKNOWN, label=NOT_KNOWN),
    ),
    measured=True,
)
DRAW_WEIGHT = Number(
    key="draw_weight",
    label="Draw weight",
    hint="The pull at the draw length below, on a spring scale.",
    group=BOW,
    example="40 lb",
    quantity="force",
    low=5 * POUND_FORCE,
    high=200 * POUND_FORCE,
)
DRAW_LENGTH = Number(
    key="draw_length",
    label="Draw length",
    hint="From the string at full draw to where brace height is measured.",
    group=BOW,
    example="26 in",
    quantity="length",
    low=8 * INCH,
    high=40 * INCH,
)
DRAW_FROM = Choice(
    key="draw_from",
    label="Draw length is measured to",
    hint="A dealer's draw length is 1 3/4 in (44 mm) longer than one to the grip.",
    group=BOW,
    example="grip",
    options=(
        Option(value="grip", label="the grip, like brace height"),
        Option(value="dealer", label="1 3/4 in (44 mm) beyond it, as dealers do"),
    ),
)
ARROW_MASS = Number(
    key="arrow_mass",
    label="Arrow weight",
    hint="One whole arrow. A light arrow makes the end of the shot harder. Leave empty for a usual one, 8 to 10 grains "
    "for each pound of draw weight.",
    group=BOW,
    example=NOT_KNOWN,
    absent=NOT_KNOWN,
    quantity="mass",
    low=50 * GRAIN,
    high=3000 * GRAIN,
)
BRACE_HEIGHT = Number(
    key="brace_height",
    label="Brace height wanted",
    hint="From the string square to the deepest point of the grip. About a tenth of nock to nock: 6 to 7 in (150 to "
    "180 mm) on a long bow, 4 to 5 in on a child's.",
    group=BOW,
    example="6 1/2 in",
    quantity="length",
    low=2 * INCH,
    high=16 * INCH,
)
STRING_LENGTH = Number(
    key="string_length",
    label="String length wanted",
    hint="On the braced bow, nock to nock. The bench sheet and the brace height sheet tell it.",
    group=BOW,
    example="64 in",
    quantity="length",
    low=16 * INCH,
    high=100 * INCH,
)
BRACE_PULL = Number(
    key="brace_pull",
    label="Pull of the braced string",
    hint="The bench sheet tells it. Leave empty if not known: it is taken as one to two times the draw weight.",
    group=BOW,
    example=NOT_KNOWN,
    absent=NOT_KNOWN,
    quantity="force",
    low=2 * POUND_FORCE,
    high=500 * POUND_FORCE,
)
NOT_WEIGHED = "not weighed"
LIMB_MASS = Number(
    key="limb_mass",
    label="One limb",
    hint="What bends, from the stiff handle to the tip. Leave empty if not weighed: the answer widens.",
    group=BOW,
    example=NOT_WEIGHED,
    absent=NOT_WEIGHED,
    quantity="mass",
    low=0.02,
    high=2.0,
)
WEIGHED_FORCE = Number(
    key="weighed_force",
    label="A force you weighed",
    hint="Hook a hanging scale on the middle of the string, draw a part of the way, and read it there.",
    group=BOW,
    example=NOT_WEIGHED,
    absent=NOT_WEIGHED,
    quantity="force",
    low=2 * POUND_FORCE,
    high=200 * POUND_FORCE,
)
WEIGHED_DRAW = Number(
    key="weighed_draw",
    label="Drawn this far then",
    hint="From the string to where brace height is measured. About half-way tells the most.",
    group=BOW,
    example=NOT_WEIGHED,
    absent=NOT_WEIGHED,
    quantity="length",
    low=6 * INCH,
    high=40 * INCH,
)
FIBRE = Choice(
    key="fibre",
    label="Fibre",
    hint="What the cord is spun from. If nobody knows, the weakest that fits is counted on.",
    group=CORD,
    example="polyester",
    options=(
        *(Option(value=each.id, label=each.words) for each in fibres()),
        Option(value=UNKNOWN, label=NOT_KNOWN),
    ),
)
YARN = Number(
    key="yarn",
    label="Size of one strand",
    hint="tex, dtex, den, m/kg or yd/lb; or weigh a length: 8.4 g / 50 m.",
    group=CORD,
    example="167 tex",
    quantity="linear_density",
    low=5e-6,
    high=2e-2,
)
STRAND_SIZE = replace(
    YARN,
    absent=NOT_KNOWN,
    hint="tex, dtex, den, m/kg or yd/lb; or weigh a length: 8.4 g / 50 m. Leave empty if only its thickness is known.",
)
STRAND_KIND = Choice(
    key="strand_kind",
    label="Sold as",
    hint="Yarn rolls flat under a finger; laid or braided cord keeps its own round.",
    group=CORD,
    example="yarn",
    options=(
        Option(value="yarn", label="string yarn or thread"),
        Option(value="cord", label="laid or braided cord"),
    ),
)
STRAND_THICKNESS = Number(
    key="strand_thickness",
    label="Thickness of one strand",
    hint="Measured across; of yarn it is used only where its size is not known.",
    group=CORD,
    example=NOT_KNOWN,
    absent=NOT_KNOWN,
    quantity="thickness",
    low=0.003 * INCH,
    high=0.5 * INCH,
)
STRANDS = Number(
    key="strands",
    label="Strands in the whole string",
    hint="Leave empty to be advised.",
    group=CORD,
    example="advise",
    absent="advise",
    quantity="count",
    low=2,
    high=400,
    whole=True,
)
BUNDLE_DIAMETER = Number(
    key="bundle_diameter",
    label="Thickness of one bundle",
    hint="Waxed and rolled round. Wind it ten times round a pencil, turns touching, and divide their width by ten.",
    group=CORD,
    example="0.049 in",
    quantity="thickness",
    low=0.0002,
    high=0.012,
)
CORD_DIAMETER = Number(
    key="cord_diameter",
    label="Thickness of the cord",
    hint="The plied cord, rolled round. Wind it ten times round a pencil, turns touching, and divide by ten.",
    group=CORD,
    example="0.098 in",
    quantity="thickness",
    low=0.0004,
    high=0.025,
)
THREAD_DIAMETER = Number(
    key="thread_diameter",
    label="Thickness of the thread",
    hint="The serving thread. Wind it twenty times round a pencil, turns touching, and divide their width by twenty.",
    group=CORD,
    example="0.018 in",
    quantity="thickness",
    low=0.00005,
    high=0.003,
)
BENCH_TEMPERATURE = Number(
    key="bench_temperature",
    label="Warmest place it will meet",
    hint="The bench, the wax, a car in the sun. Leave empty if nothing is hot.",
    group=CORD,
    example=NOT_KNOWN,
    absent=NOT_KNOWN,
    quantity="temperature",
    low=223.15,
    high=573.15,
)
RATED_LOAD = Number(
    key="rated_load",
    label="Load on its label",
    hint="What the label of one cord says it holds. A breaking strength is believed as far as the fibre can hold "
    "it; any other load can only lower the answer. Leave empty if it says nothing.",
    group=CORD,
    example=NOT_KNOWN,
    absent=NOT_KNOWN,
    quantity="force",
    low=1 * POUND_FORCE,
    high=10_000 * POUND_FORCE,
)
BROKEN_LOAD = replace(
    RATED_LOAD,
    key="broken_load",
    label="One strand broke at",
    hint="Wind it five turns round a smooth bar at each end, and pull slowly by a scale. One that is held by a knot "
    "breaks at half. Leave empty if not tried.",
    low=0.1 * POUND_FORCE,
)
RATING = Choice(
    key="rating",
    label="That load is",
    hint="A breaking strength is much more than a working load. If the label does not say which, it is not known.",
    group=CORD,
    example=UNKNOWN,
    options=(
        Option(value=UNKNOWN, label=NOT_KNOWN),
        Option(value="breaking", label="a breaking strength"),
        Option(value="working", label="a working or safe load"),
    ),
)
_TIP_HINT = "Across the tip where the loop sits: round and its diameter, flat and width x thickness, or pipe size."
TIP_UPPER = Tip(
    key="tip_upper",
    label="Upper limb tip",
    hint=_TIP_HINT,
    group=ENDS,
    example="round 1/2 in",
    absent=NOT_KNOWN,
    low=0.1 * INCH,
    high=12 * INCH,
)
TIP_LOWER = Tip(
    key="tip_lower",
    label="Lower limb tip",
    hint=_TIP_HINT,
    group=ENDS,
    example="round 1/2 in",
    absent=NOT_KNOWN,
    low=0.1 * INCH,
    high=12 * INCH,
)
_FITS = (
    Option(value="nocked", label="just fits its nock"),
    Option(value="sliding", label="slides down over the limb"),
)
LOOP_FIT_UPPER = Choice(
    key="loop_fit_upper",
    label="Upper loop",
    hint="It must slide if the bow is braced by pushing the loop up the limb.",
    group=ENDS,
    example="sliding",
    options=_FITS,
)
LOOP_FIT_LOWER = Choice(
    key="loop_fit_lower",
    label="Lower loop",
    hint="It stays in its nock.",
    group=ENDS,
    example="nocked",
    options=_FITS,
)
BUNDLES = Choice(
    key="bundles",
    label="Bundles",
    hint="Two are easier to keep even; three lie rounder.",
    group=METHOD,
    example="2",
    options=(Option(value="2", label="two"), Option(value="3", label="three")),
)
HAND = Choice(
    key="hand",
    label="Direction of the lay",
    hint="Hold the cord upright: its turns slope like the middle of the letter.",
    group=METHOD,
    example="Z",
    options=(Option(value="Z", label="Z"), Option(value="S", label="S")),
)
TAIL_LENGTH = Number(
    key="tail_length",
    label="Tails",
    hint="Longest strand end beyond each loop. 8 in (200 mm) is generous. 2 in (50 mm) is told as the least; slick "
    "fibres need more, and the answer says how much.",
    group=METHOD,
    example="8 in",
    quantity="length",
    low=1 * INCH,
    high=24 * INCH,
)
BODY_TURNS = Number(
    key="turns",
    label="Turns in the body",
    hint="Full turns between the splices, as counted when it was made. Leave empty if not counted.",
    group=METHOD,
    example="60",
    absent="not counted",
    quantity="turns",
    low=0.5,
    high=2000.0,
)
WAX = Choice(
    key="wax",
    label="Waxed with",
    hint="Beeswax grips. Hard, slippery waxes let splices pull out.",
    group=METHOD,
    example="beeswax",
    options=(
        Option(value="beeswax", label="beeswax"),
        Option(value="none", label="nothing"),
        Option(value="slick", label="a hard or slippery wax"),
    ),
)
