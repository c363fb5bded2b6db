"""Kitchens written for a test: units side by side on one wall, each by itself between two posts."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import lru_cache

from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import Compiled, compile_job
from casewright.compiler.model import Job, Part, Placed, Unit
from casewright.compiler.text.resolve import Program
from casewright.compiler.world import world_of
from casewright.lang.cells import Quantity
from casewright.lang.findings import Finding
from casewright.lang.measure import INCH

LIBRARY = InstalledLibrary()

HEAD = """measure in {measure}
use std edition 1
job Trial {{
  revision  1
  precision {precision}
  built     shop
}}
construction shop from {built} {{
{shop}
}}
appliance post {{
  wide  40"
  high  1"
  depth 1"
}}
room trial {{
  floor   finished
  ceiling 10'
  counter {counter}
  wall north length 400'
}}
{more}
run trials on north from left {{
  Z1: post
{lines}
  space share
}}
"""


def kitchen(
    lines: Sequence[str],
    built: str = "frameless",
    *,
    shop: str = "",
    more: str = "",
    metric: bool = False,
) -> str:
    """A kitchen with `lines` as its units, tagged S1, S2 and on, each between two posts so that
    none stands beside another. `shop` are options of the job's construction, `more` further
    declarations."""
    placed = "\n".join(
        f"  S{number}: {line}\n  Z{number + 1}: post" for number, line in enumerate(lines, 1)
    )
    return HEAD.format(
        measure="mm" if metric else "inches",
        precision="1" if metric else "1/32",
        built=built,
        shop=shop,
        counter="900 thick 40" if metric else "36 thick 1 1/2",
        more=more,
        lines=placed,
    )


@lru_cache(maxsize=4)
def compiled(text: str) -> Compiled:
    return compile_job(world_of({"kitchen.case": text}, LIBRARY), "kitchen.case")


def job_of(text: str) -> Job:
    """The job of a kitchen in whose units nothing is wrong."""
    found = compiled(text)
    assert found.job is not None, [finding.headline for finding in found.findings]
    blames = [
        blame.finding.headline
        for placed in found.job.placed
        for blame in (placed.unit.blames if placed.unit is not None else ())
    ]
    assert blames == []
    return found.job


def units_of(text: str) -> tuple[Unit, ...]:
    """The units of a kitchen, without what they stand on."""
    runs = job_of(text).runs
    return tuple(each.unit for run in runs for each in run.placed if each.unit is not None)


def bases_of(text: str) -> tuple[Placed, ...]:
    """What the units of a kitchen stand on."""
    return tuple(base for run in job_of(text).runs for base in run.bases)


def base_of(line: str, built: str = "frameless", *, shop: str = "") -> Unit:
    """What the one unit of a kitchen stands on."""
    (base,) = bases_of(kitchen([line], built, shop=shop))
    assert base.unit is not None
    return base.unit


def unit_of(
    line: str, built: str = "frameless", *, shop: str = "", more: str = "", metric: bool = False
) -> Unit:
    """The one unit of a kitchen in which nothing is wrong."""
    (unit,) = units_of(kitchen([line], built, shop=shop, more=more, metric=metric))
    return unit


def findings_of(
    line: str, built: str = "frameless", *, shop: str = "", more: str = "", metric: bool = False
) -> tuple[Finding, ...]:
    """What is said of the one unit of a kitchen."""
    found = compiled(kitchen([line], built, shop=shop, more=more, metric=metric))
    return tuple(finding for finding in found.findings if finding.tags or not found.tree_read)


def program_of(text: str) -> Program:
    found = compiled(text).program
    assert found is not None
    return found


def part(unit: Unit, address: str) -> Part:
    found = {each.address: each for each in unit.parts}
    assert address in found, f"no {address}; there are {', '.join(sorted(found))}"
    return found[address]


def inches(words: str) -> Fraction:
    """`23 1/4` as the trade writes it."""
    return sum((Fraction(word) for word in words.split()), Fraction(0))


def millimetres(words: str) -> Fraction:
    return Fraction(words) / INCH


Size = tuple[Fraction | int, Fraction | int]
"""Two lengths in inches, whole ones as they are written."""


def size(unit: Unit, address: str) -> Size:
    """A part's finished length and width in inches."""
    found = part(unit, address)
    return found.length.value, found.width.value


def values(figures: Mapping[str, Quantity], *addresses: str) -> tuple[Fraction, ...]:
    return tuple(figures[address].value for address in addresses)
