"""Worlds for small texts: the text, whatever it stands in, and the library."""

from collections.abc import Mapping
from pathlib import Path

from casewright.compiler.catalogue import Around
from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import Compiled, compile_job
from casewright.compiler.world import HeldWorld

CASES = Path(__file__).parents[1] / "cases"

AROUND: Mapping[str, bytes] = {
    path.name: path.read_bytes() for path in sorted((CASES / "around").glob("*.case"))
}
"""Texts that a small text may `use`, so that it holds only what it is about."""


def world_of(texts: Mapping[str, bytes]) -> HeldWorld:
    """`texts` beside those of `AROUND`, over the installed library."""
    return HeldWorld({**AROUND, **texts}, InstalledLibrary())


def compiled(texts: Mapping[str, bytes], entry: str) -> Compiled:
    """What comes of `texts` beside those of `AROUND`, over the installed library."""
    return compile_job(world_of(texts), entry)


def example_world(text: str, around: Around) -> tuple[HeldWorld, str]:
    """An example of the catalogue in what it stands in, and its entry. A lone surrogate in it is a
    byte that is not UTF-8."""
    head = f"use {around.value}\n" if around.value else ""
    bytes_of = (head + text).encode("utf-8", "surrogateescape")
    return world_of({"example.case": bytes_of}), "example.case"


def example(text: str, around: Around) -> Compiled:
    """What comes of an example of the catalogue."""
    return compile_job(*example_world(text, around))
