"""The reference page of a notebook's file: every field of every record, and the schema beside it."""

from __future__ import annotations

import json

import pytest

from calc.records import KINDS, fields_of, schema
from site_build.pages.reference import notebook
from site_build.pages.reference.page import write_reference
from site_build.setup.paths import ROOT

pytestmark = pytest.mark.contract


def test_every_field_of_every_record_is_on_the_page_with_its_words() -> None:
    page = write_reference((ROOT / "docs/reference/notebook.md").read_text("utf-8"))
    for kind in KINDS:
        for name, each in fields_of(kind).items():
            assert f"<code>{name}</code>" in page
            assert each.hint.replace("'", "&#x27;") in page
    assert ":::" not in page


def test_the_schema_beside_it_is_that_of_the_records() -> None:
    assert json.loads(notebook.schema_text()) == schema()
