"""Sheets that are from another, as a second lot is: they are bought and priced like that one."""

from collections.abc import Iterator, Sequence
from typing import TypeVar

from attrs import evolve

from casewright.compiler.shop.supply import Bought, Price
from casewright.compiler.text.resolve import Program

Heirs = tuple[tuple[str, tuple[str, ...]], ...]
"""Names of sheets, each with those it is from, nearest first."""

Named = TypeVar("Named", Bought, Price)


def sheets_from(program: Program) -> Heirs:
    """Every sheet that is from another, with those it is from, nearest first."""
    declared = (program.find("sheet", name) for name in program.names("sheet"))
    return tuple(
        (each.name, each.chain[1:]) for each in declared if each is not None and each.chain[1:]
    )


def passed_on(said: Sequence[Named], heirs: Heirs) -> Iterator[Named]:
    """What is said of a sheet and holds for those from it of which nothing is said themselves."""
    names = {each.name for each in said}
    for name, parents in heirs:
        nearest = next((parent for parent in parents if parent in names), None)
        if name not in names:
            yield from (evolve(each, name=name) for each in said if each.name == nearest)


def and_heirs(names: Sequence[str], heirs: Heirs) -> tuple[str, ...]:
    """Sheets, and those that are from one of them."""
    said = {*names}
    more = (name for name, parents in heirs if name not in said and said & {*parents})
    return (*names, *more)
