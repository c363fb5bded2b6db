"""Folders and files are whole, whatever happens while they are written."""

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from casewright.compiler.commands import writing
from casewright.compiler.commands.terminal import Unusable
from casewright.compiler.commands.writing import MARKER, replace_file, write_folder, write_new

OLD = {"book.html": b"old", "saw/cuts.csv": b"1"}
NEW = {"book.html": b"new", "band/list.csv": b"2"}


def content(folder: Path) -> dict[str, bytes]:
    """Every file of a folder but our mark."""
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in folder.rglob("*")
        if file.is_file() and file.name != MARKER
    }


def test_a_folder_is_made_with_its_files(tmp_path: Path) -> None:
    write_folder(tmp_path / "deep" / "galley", NEW)
    assert content(tmp_path / "deep" / "galley") == NEW
    assert (tmp_path / "deep" / "galley" / MARKER).read_text() == "band/list.csv\nbook.html\n"


@pytest.fixture(params=[True, False], ids=["in one act", "by two renames"])
def exchanging(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both ways to put a folder in the place of another."""
    if not request.param:
        monkeypatch.setattr(writing, "_exchange", lambda _one, _other: False)


@pytest.mark.usefixtures("exchanging")
def test_an_older_folder_of_ours_is_replaced_whole(tmp_path: Path) -> None:
    target = tmp_path / "galley"
    write_folder(target, OLD)
    (target / ".DS_Store").write_bytes(b"litter")
    write_folder(target, NEW)
    assert content(target) == NEW
    assert [each.name for each in tmp_path.iterdir()] == ["galley"]


def test_an_empty_folder_is_used(tmp_path: Path) -> None:
    (tmp_path / "galley").mkdir()
    write_folder(tmp_path / "galley", NEW)
    assert content(tmp_path / "galley") == NEW


def test_a_link_to_a_folder_of_ours_stays_a_link(tmp_path: Path) -> None:
    write_folder(tmp_path / "real", OLD)
    (tmp_path / "galley").symlink_to("real")
    write_folder(tmp_path / "galley", NEW)
    assert (tmp_path / "galley").is_symlink()
    assert content(tmp_path / "real") == NEW


def test_a_folder_that_is_not_ours_is_refused(tmp_path: Path) -> None:
    (tmp_path / "letters.txt").write_text("dear")
    with pytest.raises(Unusable, match="holds files that casewright did not write"):
        write_folder(tmp_path, NEW)
    assert content(tmp_path) == {"letters.txt": b"dear"}


@pytest.mark.parametrize("strange", ["notes.txt", "saw/notes.txt", "photos"])
def test_a_strange_file_among_ours_is_never_lost(tmp_path: Path, strange: str) -> None:
    target = tmp_path / "galley"
    write_folder(target, OLD)
    if strange == "photos":
        (target / strange).symlink_to(tmp_path)
    else:
        (target / strange).write_text("mine")
    with pytest.raises(Unusable, match=f"holds {strange}, which casewright did not write"):
        write_folder(target, NEW)
    assert content(target).items() >= OLD.items()
    assert (target / strange).exists()


def test_a_file_in_the_way_is_refused(tmp_path: Path) -> None:
    (tmp_path / "galley").write_text("a text")
    with pytest.raises(Unusable, match="is a file"):
        write_folder(tmp_path / "galley", NEW)
    assert (tmp_path / "galley").read_text() == "a text"


def test_the_folder_one_stands_in_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for target in (Path(), tmp_path, Path("/")):
        with pytest.raises(Unusable, match="name another with -o"):
            write_folder(target, NEW)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("path", ["../out", "/etc/out", "a/../../out", "", "a//b", MARKER, "a\\b"])
def test_a_path_out_of_the_folder_is_a_defect(tmp_path: Path, path: str) -> None:
    with pytest.raises(ValueError, match="is no path for a file"):
        write_folder(tmp_path / "galley", {path: b""})
    assert list(tmp_path.iterdir()) == []


def full_disk(_file: Path, _content: bytes) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


def test_a_full_disk_leaves_the_old_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_folder(tmp_path / "galley", OLD)
    monkeypatch.setattr(writing, "_write_through", full_disk)
    with pytest.raises(Unusable, match="galley can't be written: the disk is full"):
        write_folder(tmp_path / "galley", NEW)
    assert content(tmp_path / "galley") == OLD
    assert [each.name for each in tmp_path.iterdir()] == ["galley"]


def test_a_folder_that_may_not_be_written_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_folder(tmp_path / "galley", OLD)

    def refuse(_folder: Path, *_more: object, **_named: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied")

    # The tests may run as a user whom no permission stops, so the system's answer is played.
    with monkeypatch.context() as patch:
        patch.setattr(Path, "mkdir", refuse)
        with pytest.raises(Unusable, match="permission is denied"):
            write_folder(tmp_path / "galley", NEW)
    assert content(tmp_path / "galley") == OLD


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write all")
def test_a_real_folder_without_permission_is_said(tmp_path: Path) -> None:
    write_folder(tmp_path / "galley", OLD)
    tmp_path.chmod(0o555)
    try:
        with pytest.raises(Unusable, match="permission is denied"):
            write_folder(tmp_path / "galley", NEW)
    finally:
        tmp_path.chmod(0o755)
    assert content(tmp_path / "galley") == OLD


def test_a_failed_second_rename_brings_the_old_folder_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_folder(tmp_path / "galley", OLD)
    monkeypatch.setattr(writing, "_exchange", lambda _one, _other: False)
    rename = Path.rename

    def failing(self: Path, target: Path) -> Path:
        if self.name.endswith(".new"):
            raise OSError(errno.EIO, "Input/output error")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises(Unusable, match="input/output error"):
        write_folder(tmp_path / "galley", NEW)
    assert content(tmp_path / "galley") == OLD
    assert [each.name for each in tmp_path.iterdir()] == ["galley"]


KILLED = """
import os, signal, sys
from pathlib import Path
from casewright.compiler.commands import writing

calls = 0

def dying(function):
    def call(*arguments, **named):
        global calls
        calls += 1
        if calls == int(sys.argv[2]):
            os.kill(os.getpid(), signal.SIGKILL)
        return function(*arguments, **named)
    return call

if sys.argv[3] == "by two renames":
    writing._exchange = lambda one, other: False
writing._exchange = dying(writing._exchange)
os.fsync = dying(os.fsync)
Path.rename = dying(Path.rename)
writing.shutil.rmtree = dying(writing.shutil.rmtree)
writing.write_folder(Path(sys.argv[1]), {"book.html": b"new", "band/list.csv": b"2"})
"""


@pytest.mark.parametrize("way", ["in one act", "by two renames"])
def test_a_kill_at_any_moment_leaves_the_old_or_the_new_folder(tmp_path: Path, way: str) -> None:
    target = tmp_path / "galley"
    outcomes = []
    for moment in range(1, 12):
        write_folder(target, OLD)
        run = subprocess.run(
            [sys.executable, "-c", KILLED, str(target), str(moment), way], check=False
        )
        killed = run.returncode == -signal.SIGKILL
        if target.exists():
            outcomes.append(content(target) == NEW)
            assert content(target) in (OLD, NEW)
        else:
            # Only between two renames; the next run takes the old one back before all else.
            assert way == "by two renames"
            writing._take_back(target)
            assert content(target) == OLD
            outcomes.append(False)
        if not killed:
            assert run.returncode == 0
            break
    assert outcomes[0] is False
    assert outcomes[-1] is True
    assert len(outcomes) > 4
    write_folder(target, NEW)
    assert content(target) == NEW
    # Whatever the killed runs left beside it is gone.
    assert list(tmp_path.iterdir()) == [target]


def test_what_another_run_is_writing_and_what_is_not_ours_stays(tmp_path: Path) -> None:
    target = tmp_path / "galley"
    live, strange, half = (tmp_path / f".galley.{digit * 8}.new" for digit in "abc")
    for folder in (live, strange, half):
        folder.mkdir()
    (half / ".casewright").write_text("book.html\ncut.csv\n")
    (half / "book.html").write_text("half")
    (strange / "letter.txt").write_text("mine")
    with writing._held(live) as held:
        assert held
        write_folder(target, NEW)
        assert sorted(tmp_path.iterdir()) == [live, strange, target]
    write_folder(target, NEW)
    assert sorted(tmp_path.iterdir()) == [strange, target]


def test_a_file_is_replaced_and_keeps_its_permissions(tmp_path: Path) -> None:
    file = tmp_path / "kitchen.case"
    file.write_bytes(b"old")
    file.chmod(0o640)
    (tmp_path / "link.case").symlink_to("kitchen.case")
    replace_file(tmp_path / "link.case", b"new")
    assert file.read_bytes() == b"new"
    assert file.stat().st_mode & 0o777 == 0o640
    assert (tmp_path / "link.case").is_symlink()
    assert len(list(tmp_path.iterdir())) == 2


def test_a_file_that_can_not_be_replaced_is_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "kitchen.case"
    file.write_bytes(b"old")
    monkeypatch.setattr(writing, "_write_through", full_disk)
    with pytest.raises(Unusable, match="the disk is full; what was there is untouched"):
        replace_file(file, b"new")
    assert file.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [file]


def test_a_new_file_never_overwrites(tmp_path: Path) -> None:
    write_new(tmp_path / "kitchen.case", b"one")
    with pytest.raises(Unusable, match="is there already"):
        write_new(tmp_path / "kitchen.case", b"two")
    assert (tmp_path / "kitchen.case").read_bytes() == b"one"


def test_a_new_file_that_fails_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def failing(_handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", failing)
    with pytest.raises(Unusable, match="the disk is full"):
        write_new(tmp_path / "kitchen.case", b"one")
    assert list(tmp_path.iterdir()) == []


def test_a_new_file_in_no_folder_is_said(tmp_path: Path) -> None:
    with pytest.raises(Unusable, match="its folder is not there"):
        write_new(tmp_path / "nowhere" / "kitchen.case", b"one")
