"""An ask of each way in which a page asks of the notebook, for whoever wants all that they need to be loaded."""

from __future__ import annotations

from typing import Any

_TIME = "2026-05-03T10:11:12.000Z"
_WHO = {"now": _TIME, "device": "warm", "system": "inch"}
_BOW = {
    "id": "bow-000001",
    "values": {
        "name": "Ash",
        "nock_to_nock": "62 in",
        "owner": "A. B.",
        "limb_shape": "arc",
        "tip_upper": "round 1/2 in",
    },
    "changed": {f"{_TIME}/aaaa": ["name", "nock_to_nock", "owner", "limb_shape", "tip_upper"]},
    "seen": {"aaaa": _TIME},
}
_STRING = {
    "id": "string-000001",
    "values": {"bow": "bow-000001", "made_on": "2026-05-01", "look_every": "30 d"},
    "changed": {f"{_TIME}/aaaa": ["bow", "made_on", "look_every"]},
    "seen": {"aaaa": _TIME},
}
_BOTH = [{"kind": "bow", "data": _BOW}, {"kind": "string", "data": _STRING}]
WARMED: tuple[dict[str, Any], ...] = (
    {"notebook": "fields", "system": "inch"},
    {"notebook": "edit", "record": _BOTH[0], "texts": {"name": "Ash 62", "arrow_mass": "300 gr"}, **_WHO},
    {"notebook": "edit", "record": {"kind": "entry", "id": "entry-000001"}, "texts": {"on": "3 May"}, **_WHO},
    {"notebook": "delete", "records": _BOTH, **_WHO},
    {"notebook": "restore", "records": _BOTH, **_WHO},
    {"notebook": "head", "text": "no notebook"},
    {"notebook": "head", "head": {"format": "plied-true-notebook", "version": 1}},
    {"notebook": "merge", "ours": _BOTH, "theirs": [{"kind": "bow", "data": [_BOW, {}], "first": 1}]},
    {"notebook": "write", "records": _BOTH, "ids": ["bow-000001"]},
    {"notebook": "csv", "records": _BOTH, "name": "club"},
    {"notebook": "people", "records": _BOTH},
    {"notebook": "forget", "records": _BOTH, "name": "A. B.", "instead": "", **_WHO},
    {"notebook": "register", "records": _BOTH, "today": "2026-05-03", "every": "30 d"},
    {"notebook": "compare", "records": _BOTH, "bow": "bow-000001"},
    {"notebook": "range", "records": _BOTH, "string": "string-000001", "read": "6 in", "system": "inch"},
    {"notebook": "club_list", "records": _BOTH},
    {"notebook": "club_bows", "records": _BOTH, "text": "Ash, 62 in, 30 lb", "new": "bow-000009", **_WHO},
    {"notebook": "prefill", "records": _BOTH, "chosen": ["bow-000001"]},
    {
        "notebook": "put_down", "worksheet": "string", "inputs": {"nock_to_nock": "62 in", "hand": "Z"}, "name": "Ash",
        "today": "2026-05-03", "chosen": {}, "string": {"strands": "14"},
        "ids": {"bow": "bow-000002", "cord": "cord-000002", "string": "string-000002"}, **_WHO,
    },
)  # fmt: skip
"""An ask of each way, for whoever wants all that they need to be loaded."""
