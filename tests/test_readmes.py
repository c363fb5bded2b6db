"""The pages that show a folder name everything in it, so that none is stale."""

from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]

UNSHOWN = frozenset(("__init__.py", "__pycache__"))


@pytest.mark.parametrize(
    ("folder", "pattern"),
    [
        ("lang", "*.py"),
        ("compiler", "*"),
        ("compiler/plan", "*.py"),
        ("compiler/papers", "*"),
        ("stdlib", "*.case"),
        ("examples", "*"),
        ("tests", "*"),
    ],
)
def test_a_folders_page_names_what_is_in_it(folder: str, pattern: str) -> None:
    page = (ROOT / folder / "README.md").read_text(encoding="utf-8")
    shown = 0
    for path in (ROOT / folder).glob(pattern):
        kept = path.is_file() and path.suffix in (".py", ".case")
        if path.name in UNSHOWN or not (kept or path.is_dir()):
            continue
        family = f"{path.stem.split('_')[0]}_*{path.suffix}"
        named = (path.name, f"{path.name}/", f"[{path.name}]", family)
        assert any(name in page for name in named), f"{folder}/README.md doesn't name {path.name}"
        shown += 1
    assert shown > 3
