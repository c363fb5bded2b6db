"""What stands outside the compiler: the texts of a project and of the library.

The phases are pure; whatever is read comes in through a `World`. Paths are posix paths relative
to the project's root (`kitchen.case`, `parts/islands.case`), never absolute and never upward.
"""

from collections.abc import Mapping
from pathlib import PurePosixPath
from typing import Protocol

from attrs import frozen

from casewright.lang.reading import LONGEST_TEXT


class Unreadable(Exception):
    """A text can't be had. `path` is as it was asked for, `reason` a clause without a stop."""

    def __init__(self, path: str, reason: str) -> None:
        super().__init__(f"{path} can't be read: {reason}")
        self.path = path
        self.reason = reason


class Outside(Unreadable):
    """A path that leaves the project, by its words or through a link, or whose links lead to no
    place at all."""

    def __init__(self, path: str, reason: str = "leads out of the project") -> None:
        super().__init__(path, reason)


class Reader(Protocol):
    """A folder of texts."""

    def read(self, path: str) -> bytes:
        """The bytes of `path`, at most `LONGEST_TEXT` + 1 of them: one more than the limit says
        that the text is past it.

        Raises Outside or Unreadable.
        """
        ...

    def exists(self, path: str) -> bool:
        """Whether `path` is a text that can be read; False for one that leaves the folder."""
        ...


class Library(Reader, Protocol):
    """A folder of texts that can be listed."""

    def texts(self) -> tuple[str, ...]:
        """Paths of every `*.case` text of the folder, sorted."""
        ...


class World(Reader, Protocol):
    """A project, and the library beside it."""

    @property
    def std(self) -> Library:
        """The standard library; its paths are relative to the library's folder."""
        ...


def inside(path: str) -> str:
    """`path` in its shortest form.

    Raises Outside where it is absolute, goes upward past its start, holds a character that no
    file name may have, or names nothing.
    """
    if "\\" in path or "\0" in path or ":" in path or path.startswith("/"):
        raise Outside(path)
    steps: list[str] = []
    for step in PurePosixPath(path).parts:
        if step != "..":
            steps.append(step)
        elif steps:
            steps.pop()
        else:
            raise Outside(path)
    if not steps:
        raise Outside(path)
    return "/".join(steps)


@frozen
class Shelf:
    """Texts held in memory, by path."""

    held: Mapping[str, bytes]

    def read(self, path: str) -> bytes:
        try:
            return self.held[inside(path)][: LONGEST_TEXT + 1]
        except KeyError:
            raise Unreadable(path, "there is no such file") from None

    def exists(self, path: str) -> bool:
        try:
            return inside(path) in self.held
        except Outside:
            return False

    def texts(self) -> tuple[str, ...]:
        return tuple(sorted(path for path in self.held if path.endswith(".case")))


@frozen
class HeldWorld(Shelf):
    """A project in memory over a library, for tests and for texts that are not saved yet."""

    std: Library = Shelf({})


def world_of(texts: Mapping[str, str], std: Library | None = None) -> HeldWorld:
    """A project of `texts` in memory, over the library `std` (none: an empty one)."""
    held = {path: text.encode() for path, text in texts.items()}
    return HeldWorld(held, Shelf({}) if std is None else std)
