"""Fill the slots of pages at the build, with the very script that fills them in a browser.

`web/worksheet/fill.js` writes the rules down. Node runs it on a document of linkedom's, so that a page shows the same
before Python answers as it does afterwards.
"""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING, Any

from site_build.setup import packages

if TYPE_CHECKING:
    from collections.abc import Iterable

_SCRIPT = Path(__file__).with_name("fill-slots.mjs")


def filled(pages: Iterable[tuple[str, Any]]) -> list[str]:
    """Return the HTML of pages with their slots filled.

    Parameters
    ----------
    pages : iterable of tuple of str and object
        HTML with slots, and what belongs there as JSON has it; all at once, since Node takes longer to start than to
        fill one.
    """
    given = json.dumps([{"html": html, "data": data} for html, data in pages])
    document = (packages.fetch("linkedom") / "worker.js").as_uri()
    command = [*packages.node_tool("node"), str(_SCRIPT), document]
    ran = subprocess.run(command, input=given, capture_output=True, encoding="utf-8", check=True)
    done: list[str] = json.loads(ran.stdout)
    return done
