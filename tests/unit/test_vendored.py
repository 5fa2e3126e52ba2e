"""Files made elsewhere are the files that their manifest names, and each has its licence beside it."""

import hashlib
import json
from pathlib import Path
from typing import Any

import pytest

PACKAGE = Path(__file__).resolve().parents[2] / "src" / "counterpoise"
MANIFESTS = sorted(PACKAGE.rglob("MANIFEST.json"))


def listed(manifest: Path) -> list[dict[str, Any]]:
    files: list[dict[str, Any]] = json.loads(manifest.read_text(encoding="utf-8"))["files"]
    return files


def names_of(paths: list[Path]) -> list[str]:
    return [path.parent.relative_to(PACKAGE).as_posix() for path in paths]


def test_pages_and_sheets_each_ship_their_fonts() -> None:
    assert {"web/static/fonts", "sheets/fonts"} <= set(names_of(MANIFESTS))


@pytest.mark.parametrize("manifest", MANIFESTS, ids=names_of(MANIFESTS))
def test_every_vendored_file_has_the_hash_that_its_manifest_states(manifest: Path) -> None:
    found = {
        path.name: hashlib.sha256(path.read_bytes()).hexdigest()
        for path in manifest.parent.iterdir()
        if path.is_file() and path != manifest
    }
    assert found == {each["name"]: each["sha256"] for each in listed(manifest)}


@pytest.mark.parametrize("manifest", MANIFESTS, ids=names_of(MANIFESTS))
def test_every_vendored_file_names_source_version_and_a_licence_that_lies_beside_it(manifest: Path) -> None:
    licences = {each["licence_file"] for each in listed(manifest) if "licence_file" in each}
    for each in listed(manifest):
        if each["name"] not in licences:
            assert each["version"]
            assert each["source"]
            assert each["licence"] in {"OFL-1.1", "Bitstream-Vera", "0BSD", "MIT", "BSD-3-Clause", "Apache-2.0"}
            assert (manifest.parent / each["licence_file"]).is_file()
