"""The bill of materials: every part that a reader gets, in CycloneDX, for programs that look for known weaknesses.

Parts, their versions and their licences are read from the table of `docs/reference/code/licences.md`; what "as locked"
means, from the packages of this build.
"""

from __future__ import annotations

import json
import os
import re
import tomllib
from base64 import b64decode
from datetime import UTC, datetime
from importlib.metadata import version
from uuid import NAMESPACE_URL, uuid5

from cyclonedx.model import HashAlgorithm, HashType
from cyclonedx.model.bom import Bom
from cyclonedx.model.component import Component, ComponentType
from cyclonedx.model.license import LicenseAcknowledgement, LicenseExpression
from cyclonedx.output import make_outputter
from cyclonedx.schema import OutputFormat, SchemaVersion
from packageurl import PackageURL

from site_build.setup.packages import HERE, LISTS
from site_build.setup.paths import ROOT

FILE = "assets/licences/plied-true.cdx.json"
SCHEMA = SchemaVersion.V1_6
PAGE = ROOT / "docs" / "reference" / "code" / "licences.md"
THEME = "mkdocs-material"
_ROW = re.compile(
    r"^\| (?P<name>[^|]+) \|(?P<version>[^|]*)\| (?P<what>[^|]+) \| \[(?P<licence>[\w.-]+)\]", re.MULTILINE
)
_LOCKED = "as locked"


def text() -> str:
    """Return the bill as JSON: the same for the same sources, with the time of the last commit."""
    lock = json.loads((HERE / LISTS[-1]).read_text(encoding="utf-8"))["packages"]
    own, *parts = (_component(lock, **row.groupdict()) for row in _ROW.finditer(PAGE.read_text(encoding="utf-8")))
    own.type = ComponentType.APPLICATION
    bom = Bom(components=parts, serial_number=uuid5(NAMESPACE_URL, PAGE.read_text(encoding="utf-8") + json.dumps(lock)))
    bom.metadata.component = own
    bom.metadata.timestamp = datetime.fromtimestamp(int(os.environ.get("SOURCE_DATE_EPOCH") or 0), UTC)
    bom.register_dependency(own, parts)
    return make_outputter(bom, OutputFormat.JSON, SCHEMA).output_as_string(indent=2) + "\n"


def _component(lock: dict[str, dict[str, str]], name: str, version: str, what: str, licence: str) -> Component:
    """Return a row of the table as a part: one in code marks has the name of a package."""
    bare = name.strip("`")
    held = lock.get(f"node_modules/{bare}")
    group, _, short = bare.rpartition("/")
    number = _version(version.strip())
    address = None
    if held:
        address = PackageURL("npm", group or None, short, number)
    elif name != bare:
        address = PackageURL("pypi", None, bare, number)
    return Component(
        name=bare,
        version=number,
        type=ComponentType.LIBRARY,
        bom_ref=str(address or bare),
        purl=address,
        description=what.replace("`", ""),
        licenses=[LicenseExpression(licence, acknowledgement=LicenseAcknowledgement.DECLARED)],
        hashes=[HashType(alg=HashAlgorithm.SHA_512, content=_hex(held["integrity"]))] if held else (),
    )


def _version(told: str) -> str:
    """Return the version that a row tells of: ours where it tells none."""
    if not told:
        return str(tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"])
    return version(THEME) if told == _LOCKED else told.partition(",")[0]


def _hex(integrity: str) -> str:
    """Return a hash of the lock as CycloneDX writes it.

    >>> _hex("sha512-AQI=")
    '0102'
    """
    return b64decode(integrity.removeprefix("sha512-")).hex()
