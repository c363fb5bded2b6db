"""What may be read: the project inside its root, the library, nothing else."""

import os
import socket
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.compiler.commands import world as on_disk
from casewright.compiler.commands.world import (
    InstalledLibrary,
    ProjectWorld,
    open_project,
    read_bounded,
)
from casewright.compiler.compile import compile_job
from casewright.compiler.world import (
    HeldWorld,
    Outside,
    Unreadable,
    World,
    inside,
    world_of,
)
from casewright.lang.reading import LONGEST_TEXT


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """A shop's folder with a kitchen two folders down, and a secret outside."""
    root = tmp_path / "shop"
    (root / "jobs" / "galley").mkdir(parents=True)
    (root / "shop.case").write_text("shop")
    (root / "jobs" / "galley" / "kitchen.case").write_text("kitchen")
    (tmp_path / "secret.case").write_text("secret")
    return root


def test_the_root_is_the_nearest_folder_with_a_shop(project: Path) -> None:
    world, entry = open_project(project / "jobs" / "galley" / "kitchen.case")
    assert world.root == project.resolve()
    assert entry == "jobs/galley/kitchen.case"
    assert world.read(entry) == b"kitchen"
    assert world.read("shop.case") == b"shop"
    (project / "jobs" / "shop.case").write_text("nearer")
    world, entry = open_project(project / "jobs" / "galley" / "kitchen.case")
    assert (world.root.name, entry) == ("jobs", "galley/kitchen.case")


def test_without_a_shop_the_root_is_the_kitchens_folder(tmp_path: Path) -> None:
    (tmp_path / "kitchen.case").write_text("kitchen")
    world, entry = open_project(tmp_path / "kitchen.case")
    assert (world.root, entry) == (tmp_path.resolve(), "kitchen.case")


@pytest.mark.parametrize(
    "path",
    ["../secret.case", "jobs/../../secret.case", "/etc/passwd", "", ".", "a/..", "..\\x", "c:/x",
     "a\0b"],
)  # fmt: skip
def test_no_path_leaves_the_project(project: Path, path: str) -> None:
    world = ProjectWorld(project.resolve())
    assert not world.exists(path)
    with pytest.raises(Outside, match="leads out of the project"):
        world.read(path)


def test_no_link_leaves_the_project(project: Path) -> None:
    (project / "link.case").symlink_to(project.parent / "secret.case")
    (project / "door").symlink_to(project.parent)
    (project / "fine.case").symlink_to("shop.case")
    (project / "loop.case").symlink_to("loop.case")
    world = ProjectWorld(project.resolve())
    for path in ("link.case", "door/secret.case"):
        assert not world.exists(path)
        with pytest.raises(Outside):
            world.read(path)
    assert world.read("fine.case") == b"shop"
    assert not world.exists("loop.case")
    with pytest.raises(Outside, match="circle"):
        world.read("loop.case")


def test_a_use_through_a_link_says_that_it_leads_out(project: Path) -> None:
    (project / "link.case").symlink_to(project.parent / "secret.case")
    (project / "loop.case").symlink_to("loop.case")
    (project / "kitchen.case").write_text("use link\nuse loop\nuse nothing\n", encoding="utf-8")
    result = compile_job(ProjectWorld(project.resolve()), "kitchen.case")
    assert [each.headline for each in result.findings if each.slug == "use-not-found"] == [
        "link.case can't be used: a link in it leads out of the project",
        "loop.case can't be used: a link in it leads in a circle",
        "there is no nothing.case in this project",
    ]


def test_a_kitchen_behind_a_link_is_read_where_it_is(project: Path) -> None:
    (project.parent / "here.case").symlink_to(project / "jobs" / "galley" / "kitchen.case")
    world, entry = open_project(project.parent / "here.case")
    assert (world.root, entry) == (project.resolve(), "jobs/galley/kitchen.case")


def test_a_missing_text_and_a_folder_are_said(project: Path) -> None:
    world = ProjectWorld(project.resolve())
    with pytest.raises(Unreadable, match=r"gone\.case can't be read: there is no such file"):
        world.read("gone.case")
    with pytest.raises(Unreadable, match="jobs can't be read: it is a folder"):
        world.read("jobs")
    with pytest.raises(Unreadable, match="not a folder"):
        world.read("shop.case/inner.case")
    with pytest.raises(Unreadable, match="it is a folder"):
        open_project(project)


def test_what_is_no_file_is_refused_without_waiting(project: Path) -> None:
    os.mkfifo(project / "pipe.case")
    listening = socket.socket(socket.AF_UNIX)
    try:
        listening.bind(str(project / "socket.case"))
        world = ProjectWorld(project.resolve())
        with pytest.raises(Unreadable, match="it is not a file"):
            world.read("pipe.case")
        with pytest.raises(Unreadable, match=r"socket\.case"):
            world.read("socket.case")
        assert not world.exists("pipe.case")
        with pytest.raises(Unreadable, match="it is not a file"):
            open_project(project / "pipe.case")
    finally:
        listening.close()


def test_no_more_is_read_than_tells_that_it_is_too_long(tmp_path: Path) -> None:
    (tmp_path / "long.case").write_bytes(b"x" * (LONGEST_TEXT + 500))
    assert len(read_bounded(tmp_path / "long.case", "long.case")) == LONGEST_TEXT + 1
    held = HeldWorld({"long.case": b"x" * (LONGEST_TEXT + 500)})
    assert len(held.read("long.case")) == LONGEST_TEXT + 1


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may read all")
def test_a_text_without_permission_is_said(project: Path) -> None:
    (project / "shop.case").chmod(0)
    with pytest.raises(Unreadable, match="permission is denied"):
        ProjectWorld(project.resolve()).read("shop.case")


def test_the_library_is_found_where_it_was_installed() -> None:
    library = InstalledLibrary()
    assert all(path.endswith(".case") for path in library.texts())
    assert not any(path.startswith(on_disk.START) for path in library.texts())
    assert library.exists(f"{on_disk.START}kitchen.case")
    for path in library.texts():
        assert library.exists(path)
        assert library.read(path)
    assert not library.exists("../pyproject.toml")
    with pytest.raises(Outside):
        library.read("../lang/measure.py")
    with pytest.raises(Unreadable, match=r"std gone\.case"):
        library.read("gone.case")


def test_a_world_in_memory_keeps_the_same_rules() -> None:
    world: World = world_of({"kitchen.case": "job"}, HeldWorld({"units.case": b"unit"}))
    assert world.read("a/../kitchen.case") == b"job"
    assert world.std.texts() == ("units.case",)
    assert not world.exists("units.case")
    with pytest.raises(Outside):
        world.read("../kitchen.case")
    with pytest.raises(Unreadable, match="no such file"):
        world.read("gone.case")


@given(st.text(alphabet="ab./\\:\0 ", max_size=12))
def test_a_path_in_its_shortest_form_is_inside(path: str) -> None:
    try:
        short = inside(path)
    except Outside:
        return
    assert not short.startswith("/")
    assert ".." not in short.split("/")
    assert inside(short) == short
