"""Writing files so that whatever happens the old ones or the new ones are there, whole.

A folder is written beside its place and then put into it. A folder that holds anything this
program did not write is never touched.
"""

import ctypes
import os
import re
import secrets
import shutil
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from casewright.compiler.commands.terminal import Unusable
from casewright.compiler.commands.world import in_words

if sys.platform != "win32":
    import fcntl

MARKER = ".casewright"
"""The file that makes a folder ours; it lists, a line each, what was written."""

_LITTER = frozenset({".DS_Store", "Thumbs.db", "desktop.ini"})
"""What file managers leave in any folder they show; nobody misses it."""


def write_folder(target: Path, files: Mapping[str, bytes]) -> None:
    """Makes `target` a folder of `files` (by posix path in it) and nothing else.

    Raises Unusable where it may not be written or holds what is not ours; it is then as it was.
    Raises ValueError for a path that leaves the folder: paths are ours, so that is a defect.
    """
    for path in files:
        if not _stays_inside(path):
            raise ValueError(f"{path!r} is no path for a file of a folder")
    try:
        place = target.resolve()
        if not place.name:
            raise Unusable(f"{target} can't be a folder of ours; name another with -o")
        _take_back(place)
        _refuse_if_not_ours(place, target)
    except OSError as problem:
        raise _unwritten(target, problem) from problem
    fresh = place.with_name(f".{place.name}.{secrets.token_hex(4)}.new")
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        _clear_remains(place)
        fresh.mkdir()
        with _held(fresh):
            _fill(fresh, files)
            _put(fresh, place)
    except OSError as problem:
        raise _unwritten(target, problem) from problem
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def _unwritten(target: Path, problem: OSError) -> Unusable:
    return Unusable(f"{target} can't be written: {in_words(problem)}; what was there is untouched")


def _stays_inside(path: str) -> bool:
    steps = path.split("/")
    return (
        path != MARKER
        and "\\" not in path
        and "\0" not in path
        and all(step not in ("", ".", "..") for step in steps)
    )


def _refuse_if_not_ours(place: Path, target: Path) -> None:
    if not os.path.lexists(place):
        return
    if not place.is_dir():
        raise Unusable(f"{target} is a file, and a folder is to be written there")
    here = Path.cwd().resolve()
    if here == place or place in here.parents:
        raise Unusable(
            f"{target} is the folder you stand in; step out of it, or name another with -o"
        )
    found = set(_contents(place))
    if not found:
        return
    ours = _listed(place)
    if not ours:
        raise Unusable(f"{target} holds files that casewright did not write; name another with -o")
    strange = sorted(found - ours)
    if strange:
        more = f" and {len(strange) - 1} more" if len(strange) > 1 else ""
        raise Unusable(
            f"{target} holds {strange[0]}{more}, which casewright did not write; "
            "move it, or name another folder with -o"
        )


def _contents(place: Path) -> list[str]:
    """Every file, link and empty folder of `place`, by posix path; links are not followed."""
    found = []
    for folder, folders, names in os.walk(place):
        inner = Path(folder).relative_to(place)
        links = [name for name in folders if (Path(folder) / name).is_symlink()]
        found += [(inner / name).as_posix() for name in (*names, *links) if name not in _LITTER]
        if not folders and not names and inner != Path():
            found.append(inner.as_posix())
    return found


def _clear_remains(place: Path) -> None:
    """Takes away the folders beside `place` that killed runs left half written, where nobody
    writes them any more and nothing strange is in them."""
    name = re.compile(rf"\.{re.escape(place.name)}\.[0-9a-f]{{8}}\.new")
    for each in place.parent.iterdir():
        if not name.fullmatch(each.name) or each.is_symlink() or not each.is_dir():
            continue
        with _held(each) as is_held:
            found = set(_contents(each))
            if is_held and (not found or found <= _listed(each)):
                shutil.rmtree(each, ignore_errors=True)


def _listed(place: Path) -> set[str]:
    """What the marker of a folder of ours lists, and the marker; nothing where there is none."""
    marker = place / MARKER
    if not marker.is_file():
        return set()
    return {MARKER, *marker.read_text("utf-8", "replace").splitlines()}


@contextmanager
def _held(folder: Path) -> Iterator[bool]:
    """Holds `folder` as being written by this run, as long as it lives; False where another run
    holds it, or where the system can't say (Windows, some disks of other machines)."""
    if sys.platform == "win32":
        yield False
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            got = True
        except OSError:
            got = False
        yield got
    finally:
        os.close(handle)


def _fill(fresh: Path, files: Mapping[str, bytes]) -> None:
    """Writes the files, after the marker that lists them: so that remains are known as ours."""
    listed = "".join(f"{path}\n" for path in sorted(files))
    for path, content in {MARKER: listed.encode(), **files}.items():
        file = fresh / path
        file.parent.mkdir(parents=True, exist_ok=True)
        _write_through(file, content)


def _write_through(file: Path, content: bytes) -> None:
    """Writes and waits until the disk has it, so that no rename ever overtakes its content."""
    with file.open("xb") as opened:
        opened.write(content)
        opened.flush()
        os.fsync(opened.fileno())


def _aside(place: Path) -> Path:
    """Where the old folder waits in the moment that neither stands in its place."""
    return place.with_name(f".{place.name}.old")


def _put(fresh: Path, place: Path) -> None:
    """Puts the folder `fresh` where `place` is; on return `fresh` is what was there, or gone."""
    if not place.exists() or not any(place.iterdir()):
        fresh.rename(place)
        return
    if _exchange(fresh, place):
        return
    aside = _aside(place)
    place.rename(aside)
    try:
        fresh.rename(place)
    except BaseException:
        aside.rename(place)
        raise
    shutil.rmtree(aside, ignore_errors=True)


def _take_back(place: Path) -> None:
    """Ends what a killed run left half done where folders can't be exchanged in one act."""
    aside = _aside(place)
    if not (aside / MARKER).is_file():
        return
    if os.path.lexists(place):
        shutil.rmtree(aside)
    else:
        aside.rename(place)


_AT_THE_WORKING_FOLDER = -100
_RENAME_EXCHANGE = 2


def _exchange(one: Path, other: Path) -> bool:
    """Exchanges two folders in one act, where the system can (Linux: renameat2); else False."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    names = os.fsencode(one), os.fsencode(other)
    here = _AT_THE_WORKING_FOLDER
    return bool(rename(here, names[0], here, names[1], _RENAME_EXCHANGE) == 0)


def replace_file(file: Path, content: bytes) -> None:
    """Replaces the content of `file`, which keeps its permissions; a link is followed.

    Raises Unusable where it can't be; the file is then as it was.
    """
    real = file.resolve()
    fresh = real.with_name(f".{real.name}.{secrets.token_hex(4)}.new")
    try:
        mode = real.stat().st_mode
        if not os.access(real, os.W_OK):
            raise PermissionError(13, "permission denied")
        _write_through(fresh, content)
        fresh.chmod(mode & 0o7777)
        fresh.replace(real)
    except OSError as problem:
        raise _unwritten(file, problem) from problem
    finally:
        with suppress(OSError):
            fresh.unlink()


def write_new(file: Path, content: bytes) -> None:
    """Writes `file`, which must not be there yet.

    Raises Unusable where it is, or where it can't be written; then nothing is left of it.
    """
    try:
        with file.open("xb") as opened:
            try:
                opened.write(content)
                opened.flush()
                os.fsync(opened.fileno())
            except BaseException:
                file.unlink()
                raise
    except FileNotFoundError:
        raise Unusable(f"{file} can't be written: its folder is not there") from None
    except FileExistsError:
        raise Unusable(f"{file} is there already, and nothing is ever overwritten") from None
    except OSError as problem:
        raise Unusable(f"{file} can't be written: {in_words(problem)}") from problem
