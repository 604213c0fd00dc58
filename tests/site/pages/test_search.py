"""The search of the built site: names that lead somewhere, and changes of the theme's scripts that still fit."""

from __future__ import annotations

import json
import tomllib

import pytest

from site_build.pages import search
from site_build.setup.progress import StopError

pytestmark = pytest.mark.contract
_INDEX = json.dumps({"config": {}, "docs": [{"location": "a/", "text": "x"}, {"location": "a/#b", "text": "y"}]})


def test_a_section_gets_its_names_and_stays_as_it_reads() -> None:
    read = json.loads(search.with_names(_INDEX, {"a/#b": ["log book", "diary"]}))
    assert read["docs"] == [
        {"location": "a/", "text": "x"},
        {"location": "a/#b", "text": "y", "names": "log book. diary"},
    ]


def test_names_of_a_section_that_is_gone_stop_the_build() -> None:
    with pytest.raises(StopError, match="a/#gone"):
        search.with_names(_INDEX, {"a/": ["x"], "a/#gone": ["y"]})


@pytest.mark.parametrize("places", [0, 2])
def test_a_worker_that_reads_queries_otherwise_stops_the_build(places: int) -> None:
    with pytest.raises(StopError, match=f"at {places} places"):
        search.weighing("if(e=ce(e),!e)return{items:[]};" * places)


def test_every_name_is_said_once() -> None:
    names = tomllib.loads(search.NAMES.read_text(encoding="utf-8"))
    said = [name for each in names.values() for name in each]
    assert len(said) == len(set(said)) >= len(names) > 30
    assert all(name == name.strip() != "" for name in said)
