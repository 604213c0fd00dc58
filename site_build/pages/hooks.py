"""What MkDocs calls while it builds; the work is done by the other files of this folder."""

from __future__ import annotations

import sys
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))  # `mkdocs build` alone does not know the project

from mkdocs.exceptions import PluginError
from mkdocs.plugins import CombinedEvent, event_priority
from mkdocs.structure.files import File

from calc.worksheets import catalogue
from site_build.offline.precache import installable
from site_build.pages import licences, materials, scripts
from site_build.pages.blocks import BlockError
from site_build.pages.guides.figures import FOLDER, drawings, with_figures
from site_build.pages.guides.page import guide_page
from site_build.pages.indexes import with_index_figures
from site_build.pages.reference import api, notebook
from site_build.pages.reference.measured import with_misses
from site_build.pages.reference.page import write_reference
from site_build.pages.search import readable
from site_build.pages.ways import with_ways
from site_build.pages.worksheets import Written, write_blocks
from site_build.runtime.preload import hastened, with_faces

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files
    from mkdocs.structure.pages import Page

_written: dict[str, Written] = {}
_whole: dict[str, str] = {}
_drawings: dict[str, str] = {}


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """List the worksheets' pages in the navigation."""
    listed = next(each["Worksheets"] for each in config.nav or () if "Worksheets" in each)
    listed += [{each.title: f"worksheets/{each.id}.md"} for each in catalogue().values()]
    return config


def on_files(files: Files, config: MkDocsConfig) -> Files:
    """Add what is not in `docs/`: the scripts and styles of every page, and the pages about the code."""
    made = {f"assets/web/{name}": text for name, text in scripts.files().items()}
    made |= {notebook.SCHEMA: notebook.schema_text(), materials.FILE: materials.text()}
    for name, text in (made | licences.files() | api.pages()).items():
        files.append(File.generated(config, name, content=text))
    return files


def on_page_markdown(markdown: str, page: Page, **_: object) -> str:
    """Take the blocks out of the Markdown."""
    try:
        written = write_blocks(with_misses(write_reference(guide_page(markdown, page.meta, page.file.src_uri))))
    except BlockError as error:
        place = f"{page.file.src_uri}, line {error.line}"
        msg = f"{place}: {error.words}"
        raise PluginError(msg) from error
    if written.title:
        page.meta.setdefault("title", written.title)
    _written[page.file.src_uri] = written
    return written.markdown


def on_page_content(html: str, page: Page, **_: object) -> str:
    """Put the blocks into the page."""
    whole = with_index_figures(_written.pop(page.file.src_uri).put_into(html), page.file.src_uri)
    name = PurePosixPath(page.file.src_uri).stem
    _drawings.update(drawings(whole, name))
    return with_figures(whole, name)


@event_priority(100)
def _before_the_search(_: object, /, page: Page, **__: object) -> None:
    """Let the search read a page whose words stand apart."""
    _whole[page.file.src_uri] = page.content or ""
    page.content = readable(page.content or "")


@event_priority(-100)
def _after_the_search(_: object, /, page: Page, **__: object) -> None:
    """Put the page back as it was."""
    page.content = _whole.pop(page.file.src_uri)


on_page_context = CombinedEvent(_before_the_search, _after_the_search)


def on_post_page(output: str, **_: object) -> str:
    """Name the theme's search panel for those who hear it, say how the site is installed, and what can begin early.

    The theme's logo gets its shape, so that nothing beside it moves when it comes.
    """
    told = hastened(with_faces(installable(output))).replace(
        'data-md-component="search" role="dialog"', 'data-md-component="search" role="dialog" aria-label="Search"'
    )
    return with_ways(told.replace(' alt="logo">', ' alt="logo" width="24" height="24">'))


def on_post_build(config: MkDocsConfig) -> None:
    """Write the drawings that pages bring only when they are asked for."""
    folder = Path(config.site_dir) / FOLDER
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in _drawings.items():
        (folder / name).write_text(text, encoding="utf-8")
