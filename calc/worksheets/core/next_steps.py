"""What is done next in the job, worded once: from testing a cord to writing the string down."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Guide:
    """The step of a guide where an answer is used.

    Parameters
    ----------
    page, step, words : str
        Page of `docs/guides/`; anchor of the step; words of the link.
    """

    page: str
    step: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Next:
    """What is done next in the job.

    Parameters
    ----------
    page, words, step : str
        Page below `docs/`; words of the link; anchor of a step, or nothing.

    Examples
    --------
    >>> Next(page="guides/two-bundle", words="Twist it with these numbers").step
    ''
    """

    page: str
    words: str
    step: str = ""


CHOOSE = Next(page="worksheets/strands", words="How many strands of it")
PLAN = Next(page="worksheets/string", words="Plan the string with these numbers")
SETTLE = Next(page="worksheets/settle", words="How to settle it")
HANG = Next(page="guides/settle", step="hang", words="Hang the weight")
NAIL = Next(page="worksheets/nail", words="Measure it on the nail")
BRACE = Next(page="guides/brace", words="Brace the bow with it")
TUNE = Next(page="worksheets/tune", words="Tune the brace height")
TURN = Next(page="guides/brace", step="turn", words="Turn the string on the bow")
FIT_NOCK = Next(page="worksheets/serving", words="Which serving thread fits the nock")
SERVE = Next(page="guides/serve", words="Serve the centre")
NOCKING_POINT = Next(page="guides/nocking-point", words="Tie the nocking point")
LOOK_AFTER = Next(page="guides/care", words="Write it down, and look after it")
AFTERNOON = Next(page="guides/club-afternoon", words="Run the afternoon")
HITCH = (
    Next(page="worksheets/cuts", words="Or cut it for one loop and a hitch: choose that there"),
    Next(page="guides/one-loop", words="Or make it with one loop and a hitch"),
)
"""Where a string with a hitch is answered and made, from sheets that plan two loops."""
_MAKE = {
    ("loops", 2): "two-bundle",
    ("loops", 3): "three-bundle",
    ("hitch", 2): "one-loop",
    ("hitch", 3): "one-loop",
    ("endless", 2): "endless",
    ("endless", 3): "endless",
}


def make(bundles: int, method: str = "loops", step: str = "") -> Next:
    """Return the way to the guide that makes just this string.

    Parameters
    ----------
    bundles : int
        2 or 3.
    method : {"loops", "hitch", "endless"}
        Two laid loops, one loop and a timber hitch, or wound endless.
    step : str
        Of the guide, if not its beginning.

    Examples
    --------
    >>> make(3).page, make(2, "endless").words
    ('guides/three-bundle', 'Wind it with these numbers')
    """
    words = "Wind it with these numbers" if method == "endless" else "Twist it with these numbers"
    return Next(page=f"guides/{_MAKE[method, bundles]}", step=step, words=words)
