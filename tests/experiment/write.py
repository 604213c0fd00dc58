"""Try all bows, and write what comes of it: `.venv/bin/python tests/experiment/write.py`."""

from __future__ import annotations

import importlib
import importlib.util
import json
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DATA = ROOT / "docs/reference/right-first.json"
PAGE = DATA.with_suffix(".md")


def main() -> None:
    """Write `docs/reference/right-first.json`, and from that alone its page."""
    rows, page = (importlib.import_module(f"tests.experiment.{name}") for name in ("rows", "page"))
    found = rows.figures(rows.Experiment.of(rows.BOWS))
    DATA.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")
    PAGE.write_text(page.page(found), encoding="utf-8")


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    spec = importlib.util.spec_from_loader("tests", loader=None, is_package=True)  # whatever else is called tests
    assert spec is not None
    package = importlib.util.module_from_spec(spec)
    package.__path__ = [str(ROOT / "tests")]
    sys.modules["tests"] = package
    main()
