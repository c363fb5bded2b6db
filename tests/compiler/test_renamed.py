"""The compiler knows no name of the library: put into other words, all of it comes out the same."""

import random
from collections.abc import Iterator
from pathlib import Path

import pytest

from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import Compiled, compile_job
from casewright.compiler.model import Joint, Part, Placed, Step, Unit
from casewright.compiler.world import HeldWorld, Shelf
from tests.compiler.renaming import Renaming

ROOT = Path(__file__).parents[2]
STD = "std/"

BAD = """measure in inches
use std edition 1
job Faults in every phase {
  built shop
}
construction shop from face_frame {
  case   white_melamine
  fronts birch_ply
}
room bench {
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 120
}
run only on north from left {
  S1: drawer_base 27 {
    stack {
      drawer opening 5 1/2
      drawer opening 11
      drawer opening 11
    }
  }
  S2: door_base 6
  S3: sink_base 36  reach 40
  S4: drawer_base 30  proud board
}
"""


def texts(kitchen: str) -> dict[str, str]:
    """The texts of a kitchen and of the library under one another's labels."""
    library = InstalledLibrary()
    held = {STD + path: library.read(path).decode() for path in library.texts()}
    if kitchen == "bad":
        return {"bad.case": BAD, **held}
    galley = ROOT / "examples" / "galley"
    own = {path.name: path.read_text(encoding="utf-8") for path in galley.glob("*.case")}
    # Every entry file declares its own `shop`, so only one of them can stand in a build.
    entries = {"galley.case", "framed.case"} - {f"{kitchen}.case"}
    return {name: text for name, text in own.items() if name not in entries} | held


def built(held: dict[str, str], kitchen: str) -> Compiled:
    own = {label: text.encode() for label, text in held.items() if not label.startswith(STD)}
    library = {
        label.removeprefix(STD): text.encode()
        for label, text in held.items()
        if label.startswith(STD)
    }
    return compile_job(HeldWorld(own, Shelf(library)), f"{kitchen}.case")


def shape_of(placed: Placed) -> object:
    """Everything about a placed thing but its names."""
    unit = placed.unit
    sizes = [placed.at, placed.width, placed.up, placed.height, placed.depth]
    return (placed.tag, [size.value for size in sizes], None if unit is None else _unit(unit))


def _unit(unit: Unit) -> object:
    number = {part.path: index for index, part in enumerate(unit.parts)}
    inside = {each.path: tuple(number[path] for path in each.parts) for each in unit.assemblies}

    def thing(path: str) -> object:
        return number[path] if path in number else ("assembly", inside[path])

    return (
        unit.role,
        [_part(part) for part in unit.parts],
        [_joint(joint, number) for joint in unit.joints],
        [_step(step, thing) for step in unit.steps],
        [
            (blank.cut_length.value, blank.cut_width.value, len(blank.strips))
            for blank in unit.blanks
        ],
        [
            (each.across.low.value, each.across.high.value, each.up.low.value, each.up.high.value)
            for each in unit.openings
        ],
        len(unit.named),
    )


def _part(part: Part) -> object:
    return (
        part.box,
        part.role,
        part.hardware,
        part.thick.value,
        part.cut_length.value,
        part.cut_width.value,
        part.grained,
        [banding.edge for banding in part.bands],
        [(cut.kind, cut.box, cut.depth.value) for cut in part.cuts],
        len(part.holes),
    )


def _joint(joint: Joint, number: dict[str, int]) -> object:
    fasteners = [(each.use, each.count, each.spacing) for each in joint.fasteners]
    ends = (number[joint.first], number[joint.second])
    return (ends, joint.kind, joint.axis, joint.side, joint.area, fasteners)


def _step(step: Step, thing: object) -> object:
    ways = [(thing(way.thing), way.axis, way.side) for way in step.ways]  # type: ignore[operator]
    return (step.number, ways, step.lies, step.joints)


def faults(compiled: Compiled) -> Iterator[object]:
    for each in compiled.findings:
        figures = [figure.measure for figure in each.figures]
        line = None if each.span is None else (each.span.source.label, each.span.line)
        yield (each.slug, each.severity, line, figures, len(each.labels), each.tags)


@pytest.mark.parametrize("kitchen", ["galley", "framed", "bad"])
def test_in_other_words_all_is_the_same(kitchen: str) -> None:
    seed = random.SystemRandom().randrange(1 << 32)
    original = texts(kitchen)
    renaming = Renaming(original, seed)
    other = renaming.renamed()
    before, after = built(original, kitchen), built(other, kitchen)

    assert list(faults(after)) == list(faults(before)), f"seed {seed}"
    assert after.progress == before.progress, f"seed {seed}"
    if kitchen == "bad":
        assert len(before.findings) > 3
        return
    assert before.job is not None
    assert after.job is not None
    one, two = before.job.placed, after.job.placed
    assert [shape_of(each) for each in two] == [shape_of(each) for each in one], f"seed {seed}"
    assert len(after.job.materials) == len(before.job.materials)


def test_everything_was_renamed() -> None:
    """A name that stayed would prove nothing of itself."""
    original = texts("galley")
    renaming = Renaming(original, 1)
    assert {"drawer", "face", "white_melamine", "toe_up", "door_base"} <= renaming.names
    assert len(renaming.names) > 150
    again = Renaming(renaming.renamed(), 2)
    assert len(again.names) == len(renaming.names)
    assert again.names & renaming.names == set()
    assert renaming.word("left_side").startswith("left_")
    assert renaming.word("left_side").removeprefix("left_") == renaming.word(
        "right_side"
    ).removeprefix("right_")
