"""Messages for the bridge that are nearly right: sound asks with some of their parts put in the place of others."""

from __future__ import annotations

import json
from copy import deepcopy
from typing import Any

from hypothesis import strategies as st

from calc.notebook_samples import WARMED
from calc.own_figures import WARMED as FIGURE
from calc.worksheets import catalogue
from calc.worksheets.core import usual

_TYPED = {"system": "inch", "inputs": {"nock_to_nock": "62 in", "hand": "S"}}
_CARD = {"inputs": {"nock_to_nock": "60 in"}, "name": "Anna", "link": "https://club.example/#v3", "code": ["01", "10"]}
SOUND: tuple[dict[str, Any], ...] = (
    *WARMED,
    *({"worksheet": each.id, "system": "metric", "inputs": usual(each)} for each in catalogue().values()),
    {
        "worksheet": "string",
        "system": "inch",
        "inputs": usual(catalogue()["string"], {"measured_string": "64 in", "measured_brace": "6 in"}),
        "told": {key: {"from": "string", "on": "2026-05-03"} for key in ("measured_string", "measured_brace")},
    },
    {"convert": "string", "to": "metric", "inputs": {"nock_to_nock": "62 1/2", "tip_upper": "flat 5/8 x 3/8 in"}},
    {"share": "string", "name": "Anna", **_TYPED},
    {"open": "v1/string?nock=62+1/2in&hand=S&end=vd5j", "system": "metric"},
    {"part": "club", "system": "inch", "inputs": {"bows": "Ash, 62 in, 35 lb"}, "from": 0, "to": 1},
    {"line": "club", "system": "inch", "inputs": {"bows": "Ash, 62 in, 35 lb"}, "at": 0},
    {"figure": FIGURE, "hand": "S", "ident": "own", "system": "inch", "numbers": {"turns_body": "60"}},
    {"card": "string", "system": "inch", "paper": "A4", "form": "page", "strings": [_CARD]},
    {"text": "brace", "system": "inch", "inputs": {}, "name": "Anna", "link": ""},
)
WORDS = sorted({key for each in SOUND for key in each} | {"id", "v", "__proto__", "constructor", "kind", "data"})
HOSTILE = (
    *("", "club", "string", "metric", "S", "\ud800", "a\udfffb", "\0", "9" * 5000, "=1+1", "<b>", "\u202e", "\u2028"),
    *(
        "62 in",
        "1e999 m",
        "NaN",
        "-1",
        "0",
        "1/0",
        "62 1/2 in",
        "50 %",
        "1 tex",
        "-40 C",
        "?",
        "2026-05-03",
        "9999-12-31",
    ),
    *("0001-01-01", "2026-02-30", "bow-000001", "string-000001", "{turns}", "%s", "a" * 30_000, "Ash, 62 in, 35 lb"),
    *(
        "v3/string?nock=62+1%2F2in&hand=S&end=9vm9",
        "v3/club?bows=%FF%FE&end=bbbb",
        "v9/string?",
        "round 1/2 in",
        "pipe 1",
    ),
    *('{"format": "plied-true-notebook", "version": 1, "bows": [{"id": 7}]}', "{" * 2000),
)
_SCALARS = st.one_of(
    st.none(),
    st.booleans(),
    st.sampled_from((0, -1, 10**30, 1e308, float("nan"), float("inf"), -0.0)),
    st.integers(),
    st.floats(),
    st.sampled_from((*HOSTILE, *WORDS)),
    st.text(st.characters(), max_size=20),
)
TEXTS = st.sampled_from((*HOSTILE, *WORDS)) | st.text(st.characters(), max_size=20)
VALUES = st.recursive(
    _SCALARS,
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(WORDS) | st.text(max_size=5), inner, max_size=3)
    ),
    max_leaves=6,
)


@st.composite
def near_asks(draw: st.DrawFn) -> str:
    """Return a sound ask as JSON text, with an id of any kind and up to three of its values exchanged or left out."""
    ask = deepcopy(draw(st.sampled_from(SOUND)))
    for _ in range(draw(st.integers(0, 3))):
        _spoil(draw, ask)
    ask["id"] = draw(_SCALARS | VALUES)
    return json.dumps(ask, ensure_ascii=draw(st.booleans()))


def _spoil(draw: st.DrawFn, inside: Any) -> None:  # noqa: ANN401 - JSON
    """Go down to a place in the ask and put something else there, mostly a text for a text, or take it away."""
    kind = next(iter(inside), "")
    while inside:
        key = draw(st.sampled_from(sorted(inside) if isinstance(inside, dict) else range(len(inside))))
        deeper = isinstance(inside[key], dict | list) and inside[key]
        how = draw(st.integers(0, 9))
        if key == kind and how:
            continue  # another kind of ask, or none, is soon found out
        if deeper and how:
            inside = inside[key]
            continue
        if how == 1:
            del inside[key]
        elif how > 2 and isinstance(inside[key], str):
            inside[key] = draw(TEXTS)
        else:
            inside[key] = draw(VALUES)
        return


ANY_TEXT = st.one_of(
    st.text(st.characters(), max_size=60),
    VALUES.map(json.dumps),
    st.sampled_from(
        ("[" * 100_000, '{"a":' * 100_000, "1e999", '{"id": NaN}', '{"id": ' + "9" * 5000 + "}", "\ud800", "")
    ),
)
MESSAGES = st.integers(0, 9).flatmap(lambda which: near_asks() if which else ANY_TEXT)
