"""The project on disk and the library that came with the program."""

import errno
import os
import stat
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from attrs import field, frozen

from casewright.compiler.world import Library, Outside, Unreadable, inside
from casewright.lang.reading import LONGEST_TEXT

START = "start/"
"""The library's folder of beginnings to copy (`new`); they are kitchens, not library."""

SHOP = "shop.case"
"""The file whose folder is the project's root."""


def in_words(problem: OSError) -> str:
    """What the system said, as a clause."""
    match problem.errno:
        case errno.ENOENT:
            return "there is no such file"
        case errno.EACCES | errno.EPERM:
            return "permission is denied"
        case errno.EISDIR:
            return "it is a folder"
        case errno.ENOTDIR:
            return "a part of its path is not a folder"
        case errno.ENOSPC | errno.EDQUOT:
            return "the disk is full"
        case errno.EROFS:
            return "the disk can only be read"
        case errno.ENAMETOOLONG:
            return "the name is too long"
        case errno.ELOOP:
            return "its links lead in a circle"
        case _:
            return (problem.strerror or "the system refused").lower()


def is_file(path: Path) -> bool:
    """Whether `path` is a file; False too where one may not look."""
    try:
        return path.is_file()
    except OSError:
        return False


def read_bounded(path: Path, asked: str) -> bytes:
    """The bytes of a file, at most one more than the limit.

    Raises Unreadable, with `asked` as the name that the person used; also for what is not a
    file, since reading a pipe or a device may never end.
    """
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0))
        with os.fdopen(handle, "rb") as opened:
            mode = os.fstat(opened.fileno()).st_mode
            if stat.S_ISDIR(mode):
                raise Unreadable(asked, "it is a folder")
            if not stat.S_ISREG(mode):
                raise Unreadable(asked, "it is not a file")
            return opened.read(LONGEST_TEXT + 1)
    except OSError as problem:
        raise Unreadable(asked, in_words(problem)) from problem
    except ValueError:
        raise Unreadable(asked, "no file can have such a name") from None


@frozen
class InstalledLibrary:
    """The standard library as it was installed."""

    folder: Traversable = field(factory=lambda: files("casewright.stdlib"))

    def read(self, path: str) -> bytes:
        try:
            return self.folder.joinpath(*inside(path).split("/")).read_bytes()
        except OSError as problem:
            raise Unreadable(f"std {path}", in_words(problem)) from problem

    def exists(self, path: str) -> bool:
        try:
            return self.folder.joinpath(*inside(path).split("/")).is_file()
        except Outside:
            return False

    def texts(self) -> tuple[str, ...]:
        found = _texts_under(self.folder, "")
        return tuple(sorted(path for path in found if not path.startswith(START)))


def _texts_under(folder: Traversable, prefix: str) -> list[str]:
    found: list[str] = []
    for each in folder.iterdir():
        if each.is_dir():
            found += _texts_under(each, f"{prefix}{each.name}/")
        elif each.name.endswith(".case"):
            found.append(prefix + each.name)
    return found


@frozen
class ProjectWorld:
    """A project on disk. `root` is resolved; nothing outside it is read, through links neither."""

    root: Path
    std: Library = field(factory=InstalledLibrary)

    def _place(self, path: str) -> Path:
        wanted = self.root / inside(path)
        try:
            real = wanted.resolve()
        except (OSError, RuntimeError):
            raise Outside(path, "leads in a circle") from None
        if not real.is_relative_to(self.root):
            raise Outside(path)
        return real

    def read(self, path: str) -> bytes:
        return read_bounded(self._place(path), path)

    def exists(self, path: str) -> bool:
        try:
            return is_file(self._place(path))
        except Unreadable:
            return False


def open_project(kitchen: Path) -> tuple[ProjectWorld, str]:
    """The project that `kitchen` belongs to, and the kitchen's path in it.

    The root is the nearest folder upward that holds a `shop.case`, else the kitchen's own.
    Raises Unreadable where the kitchen is not there or is no file.
    """
    try:
        mode = kitchen.stat().st_mode
        if stat.S_ISDIR(mode):
            raise Unreadable(str(kitchen), "it is a folder")
        if not stat.S_ISREG(mode):
            raise Unreadable(str(kitchen), "it is not a file")
        real = kitchen.resolve(strict=True)
    except OSError as problem:
        raise Unreadable(str(kitchen), in_words(problem)) from problem
    except RuntimeError:
        raise Unreadable(str(kitchen), "its links lead in a circle") from None
    except ValueError:
        raise Unreadable(str(kitchen), "no file can have such a name") from None
    root = next((up for up in real.parents if is_file(up / SHOP)), real.parent)
    return ProjectWorld(root), real.relative_to(root).as_posix()
