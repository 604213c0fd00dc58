"""MkDocs hooks, thin: Markdown blocks become worksheets, our own files join the site."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File

from calc.draw import stylesheet
from calc.worksheets import catalogue
from site_build.guides import guide_page
from site_build.markup import worksheet

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files

_WEB = Path(__file__).with_name("web")
_BLOCK = re.compile(r"^::: (\w+) ([\w-]+)$", re.MULTILINE)


def on_files(files: Files, config: MkDocsConfig) -> Files:
    """Add scripts and styles, and what they need from the package, to the site."""
    for path in sorted(_WEB.glob("*.[jc]s*")):
        if path.suffix in {".js", ".css"}:
            drawn = stylesheet().encode() if path.suffix == ".css" else b""
            files.append(File.generated(config, f"assets/{path.name}", content=path.read_bytes() + drawn))
    answer = Path(__file__).with_name("answer.py").read_bytes()
    files.append(File.generated(config, "assets/answer.py.txt", content=answer))
    return files


def on_page_markdown(markdown: str, page: Any, **_: Any) -> str:  # noqa: ANN401 - MkDocs hands over what it likes
    """Put worksheets where ``::: worksheet ID`` stands."""

    def block(found: re.Match[str]) -> str:
        kind, key = found.groups()
        if kind != "worksheet" or key not in catalogue():
            line = markdown[: found.start()].count("\n") + 1
            known = ", ".join(f"worksheet {each}" for each in catalogue())
            msg = f"{page.file.src_uri}:{line}: there is no {kind} {key}; known are: {known}"
            raise PluginError(msg)
        return worksheet(key)

    markdown = guide_page(markdown, page.meta, page.file.src_uri)
    return _BLOCK.sub(block, markdown)
