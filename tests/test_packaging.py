"""What is installed is whole: a wheel and a source distribution, far from the clone."""

import json
import os
import re
import shutil
import subprocess
import sys
import tarfile
import tomllib
import venv
import zipfile
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[1]
FOLDERS = ("lang", "compiler", "stdlib")
READ_AS_DATA = {".case", ".lark", ".json", ".html", ".css", ".js", ".jinja", ".svg", ".txt"}


def settings() -> dict[str, Any]:
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def sources() -> set[str]:
    """Every file of the three folders that the program needs, by its path in the clone."""
    return {
        path.relative_to(ROOT).as_posix()
        for folder in FOLDERS
        for path in (ROOT / folder).rglob("*")
        if path.is_file() and (path.suffix == ".py" or path.suffix in READ_AS_DATA)
    }


def test_every_package_is_named_in_the_settings() -> None:
    named = set(settings()["tool"]["setuptools"]["packages"])
    found = {
        "casewright." + path.parent.relative_to(ROOT).as_posix().replace("/", ".")
        for folder in FOLDERS
        for path in (ROOT / folder).rglob("__init__.py")
    }
    assert found == named


def test_every_kind_of_file_beside_the_sources_is_known() -> None:
    kinds = {
        path.suffix
        for folder in FOLDERS
        for path in (ROOT / folder).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert kinds - {".py", ".md"} <= READ_AS_DATA


def test_every_dependency_has_the_version_it_was_tried_with() -> None:
    project = settings()["project"]
    asked = [*project["dependencies"]]
    for extra in project["optional-dependencies"].values():
        asked += extra
    tried = {
        each.partition("==")[0] for each in settings()["tool"]["uv"]["constraint-dependencies"]
    }
    wanted = {name_of(each) for each in asked}
    assert wanted <= tried


def name_of(requirement: str) -> str:
    return requirement.partition(";")[0].partition("[")[0].split(">")[0].split("=")[0].strip()


def pip(*words: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "pip", "--disable-pip-version-check", *map(str, words)],
        check=False,
        capture_output=True,
        text=True,
    )


@pytest.fixture(scope="module")
def build_tool(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The build tool that the settings ask for. It comes from the package index, so without one
    the tests that build are skipped, by name."""
    target = tmp_path_factory.mktemp("build_tool")
    got = pip("install", "-q", "--target", target, *settings()["build-system"]["requires"])
    if got.returncode != 0 and "No matching distribution found" in got.stderr:
        pytest.skip("pip reaches no package index, so nothing can be built")
    assert got.returncode == 0, got.stderr
    return target


def built(kind: str, source: Path, out: Path, build_tool: Path) -> Path:
    """A `wheel` or an `sdist` of `source`, built as an installer builds it."""
    asked = f"import sys; from setuptools import build_meta; build_meta.build_{kind}(sys.argv[1])"
    done = subprocess.run(
        [sys.executable, "-c", asked, str(out)],
        check=False,
        capture_output=True,
        text=True,
        cwd=source,
        env={**os.environ, "PYTHONPATH": str(build_tool)},
    )
    assert done.returncode == 0, done.stderr
    (file,) = out.iterdir()
    return file


@pytest.fixture(scope="module")
def sdist(build_tool: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A source distribution of a copy of the clone, so that building leaves nothing in it."""
    clone = tmp_path_factory.mktemp("clone") / "casewright"
    leavings = shutil.ignore_patterns(".*", "__pycache__", "*.egg-info", "build", "dist")
    shutil.copytree(ROOT, clone, ignore=leavings)
    return built("sdist", clone, tmp_path_factory.mktemp("sdist"), build_tool)


@pytest.fixture(scope="module")
def wheel(sdist: Path, build_tool: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel of what the source distribution holds, so that both are tried."""
    unpacked = tmp_path_factory.mktemp("unpacked")
    with tarfile.open(sdist) as opened:
        if hasattr(tarfile, "data_filter"):
            opened.extraction_filter = tarfile.data_filter
        opened.extractall(unpacked)
    (source,) = unpacked.iterdir()
    return built("wheel", source, tmp_path_factory.mktemp("wheel"), build_tool)


def test_a_wheel_of_the_source_distribution_holds_every_source_and_nothing_else(
    wheel: Path,
) -> None:
    with zipfile.ZipFile(wheel) as opened:
        held = {name for name in opened.namelist() if ".dist-info/" not in name}
    assert held == {f"casewright/{path}" for path in sources()}


def test_a_wheel_installed_elsewhere_finds_its_library(wheel: Path, tmp_path: Path) -> None:
    venv.create(tmp_path / "venv", with_pip=False, symlinks=os.name != "nt")
    python = tmp_path / "venv" / "bin" / "python"
    got = pip("--python", python, "install", "-q", "--no-deps", "--no-index", wheel)
    assert got.returncode == 0, got.stderr
    # The dependencies are lent by this environment: only our own package is on trial.
    site = next((tmp_path / "venv" / "lib").glob("python*")) / "site-packages"
    lent = next(path for path in map(Path, sys.path) if (path / "lark" / "__init__.py").is_file())
    (site / "lent.pth").write_text(f"{lent}\n")

    def run(*words: str) -> str:
        return subprocess.run(
            [tmp_path / "venv" / "bin" / words[0], *words[1:]],
            check=True,
            capture_output=True,
            text=True,
            cwd=tmp_path,
            env={key: value for key, value in os.environ.items() if key != "PYTHONPATH"},
        ).stdout

    where = run("python", "-c", "import casewright.lang; print(casewright.lang.__file__)")
    assert Path(where.strip()).is_relative_to(tmp_path)
    units = json.loads(run("casewright", "list", "units", "--as", "json"))["entries"]
    declared = re.findall(r"^unit \w+", "\n".join(library()), re.MULTILINE)
    assert len(units) == len(declared)
    assert "is started" in run("casewright", "new", "galley")


def library() -> list[str]:
    return [
        (ROOT / path).read_text(encoding="utf-8")
        for path in sources()
        if path.endswith(".case") and not path.startswith("stdlib/start/")
    ]
