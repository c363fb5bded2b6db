"""Kitchens written for a test: units side by side on one wall, each by itself between two posts."""

from collections import Counter
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
from tests.stdlib.sizes import HUNG, TALL

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


PLAIN = """measure in {measure}
use std edition 1
job Trial {{
  revision  1
  precision {precision}
  built     shop
  accept heavy-to-carry brought in on a dolly
}}
construction shop from {built} {{
  ends {ends}
{shop}
}}
room trial {{
  floor   finished
  ceiling 10'
  counter {counter}
  wall north length 100'
  wall south length 100'
}}
run bases on north from left {{
  filler 3"
{bases}
  E1: end_panel 3/4"
  space share
}}
run uppers on north from left{up} {{
{accepted}
  filler 3"
{hung}
  space share
}}
run larder on south from left {{
  space 24"
  E2: tall_panel 3/4"  high {tall}
{standing}
  E3: tall_panel 3/4"  high {tall}
  space share
}}
"""


def plain_kitchen(
    units: Mapping[str, str], built: str, *, lifted: bool = False, metric: bool = False
) -> str:
    """A kitchen as kitchens are: bases side by side along one wall, others hung over them, tall
    units across the room, and all that is seen at its ends finished. `units` are names and what
    is said of each; `lifted` where those that hang are so heavy that it must be said how."""
    of: dict[str, list[str]] = {"S": [], "U": [], "P": []}
    for name, words in units.items():
        letter = "U" if name in HUNG else "P" if name in TALL else "S"
        more = ""
        if name == "sink_base":
            more = "  bowl 180 by 250 down 180" if metric else "  bowl 7 by 10 down 7"
        of[letter].append(f"  {letter}{len(of[letter]) + 1}: {name} {words}{more}")
    of["U"][-2] += "  shown right"  # the hood beside it leaves its lower half free
    of["U"][-1] += "  shown both"
    return PLAIN.format(
        measure="mm" if metric else "inches",
        precision="1" if metric else "1/32",
        built=built,
        ends="birch_ply_18" if metric else "birch_ply",
        shop="" if metric else "  wall_depth 13",  # plates want more than 12
        counter="900 thick 40" if metric else "36 thick 1 1/2",
        tall="2100" if metric else "84",
        accepted="  accept heavy-to-lift hung without doors, on a prop" if lifted else "",
        up=" up 1380" if metric else "",  # in line with what stands across the room
        bases="\n".join(of["S"]),
        hung="\n".join(of["U"]),
        standing="\n".join(of["P"]),
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
    """What is said of the one unit of a kitchen, whose ends are seen on both sides."""
    found = compiled(kitchen([line], built, shop=shop, more=more, metric=metric))
    of_unit = [finding for finding in found.findings if finding.tags or not found.tree_read]
    return tuple(finding for finding in of_unit if finding.slug != "seen-end-unfinished")


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


def check_whole(unit: Unit) -> None:
    """All of it is there: openings, parts, joints, and every part in one step."""
    assert unit.openings
    assert unit.joints
    brought = Counter(way.thing for step in unit.steps for way in step.ways)
    paths = [part.path for part in unit.parts]
    assemblies = [each.path for each in unit.assemblies if each.path]
    assert brought == Counter([*paths, *assemblies])
    for step in unit.steps:
        assert all(way.axis for way in step.ways[1:])
