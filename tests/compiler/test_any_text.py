"""Random opening trees, shares and texts: sums close or are findings, and nothing ever breaks."""

import random
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import Compiled
from casewright.compiler.construct.shares import divide_in_shares
from casewright.compiler.model import Unit
from casewright.lang.cells import literal
from casewright.lang.printing import Printing
from casewright.lang.render_full import render_full
from casewright.lang.render_json import render_json
from tests.compiler.examples import AROUND, compiled

ROOT = Path(__file__).parents[2]

SLOW = settings(
    deadline=None,
    max_examples=40,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    phases=[Phase.explicit, Phase.reuse, Phase.generate, Phase.shrink],
)
"""No time is measured; how much is tried is what bounds these."""


def sound(built: Compiled) -> None:
    """What holds of any build: every finding can be shown, and an error leaves no whole job."""
    assert render_full(built.findings, built.progress, Printing())
    assert render_json(built.findings, built.progress, Printing())
    assert built.job is not None or built.findings or built.progress.units_placed == 0
    assert len(built.findings) <= 2_000


# -- trees of openings ---------------------------------------------------------------------------

FILLS = ("open", "door", "drawer", "false_front")


@st.composite
def trees(draw: st.DrawFn, depth: int, small: bool) -> list[str]:
    """The lines of a stack or a row, `depth` deep somewhere; in a `small` one sizes are such that
    most can't be built. Nothing stands between a pair of doors only."""
    head = draw(st.sampled_from(("stack", "row")))
    size = draw(st.sampled_from(("", "", "share", "2 shares", "opening 9")))
    # A partition is as thick as its board, so a wider post leaves a hinge nothing to hold.
    between = draw(st.sampled_from(("", "", "", "between 2"))) if head == "stack" else ""
    count = draw(st.integers(1, 3))
    deep = draw(st.integers(0, count - 1))
    sizes = ["", "share", "2 shares", "3 shares"]
    sizes += ["opening 40", "front 1/2", "opening 1/64"] if small else ["opening 5", "front 6"]
    lines = [" ".join(filter(None, (head, size, between, "{")))]
    for index in range(count):
        if depth > 1 and (index == deep or draw(st.booleans())):
            lines += [f"  {line}" for line in draw(trees(depth - 1, small))]
        elif head == "stack" and draw(st.integers(0, 4)) == 0:
            lines += ["  row between 0 {", "    door hung left", "    door hung right", "  }"]
        else:
            fill = draw(st.sampled_from(FILLS))
            hung = f"  hung {draw(st.sampled_from(('left', 'right')))}" if fill == "door" else ""
            lines.append(f"  {fill} {draw(st.sampled_from(sizes))}{hung}")
    return [*lines, "}"]


def kitchen(construction: str, width: int, high: int, units: list[list[str]]) -> Compiled:
    """A row of units, each with its tree of openings."""
    placed = "\n".join(
        "\n".join([f"  S{number}: base_unit {width} high {high} {{", *tree, "  }"])
        for number, tree in enumerate(units, start=1)
    )
    text = f"""measure in inches
use std edition 1
job Random openings {{
  built {construction}
}}
room bench {{
  ceiling 120
  counter 36 thick 1 1/2
  wall north length {width * len(units)}
}}
run only on north from left {{
{placed}
}}
"""
    return compiled({"tree.case": text.encode()}, "tree.case")


WOULD_FOLLOW = {
    "parts-overlap", "part-loose", "no-way-in", "groove-through", "joint-does-not-touch",
    "joint-does-not-enter", "thickness-differs", "unknown-name", "not-there", "needs-itself",
}  # fmt: skip
"""What a size that is nothing, or a sum that doesn't close, would lead to; it is said as itself."""


@pytest.mark.parametrize("small", [False, True], ids=["roomy", "small"])
@given(data=st.data())
@settings(SLOW, max_examples=12)
def test_random_openings_are_built_or_are_findings(small: bool, data: st.DataObject) -> None:
    construction = data.draw(st.sampled_from(("frameless", "face_frame")))
    units = data.draw(st.lists(trees(data.draw(st.integers(3, 4)), small), min_size=5, max_size=5))
    width, high = (22, 30) if small else (60, 110)
    built = kitchen(construction, width, high, units)
    sound(built)
    assert not {each.slug for each in built.findings} & WOULD_FOLLOW
    if built.job is not None:
        for placed in built.job.placed:
            assert placed.unit is not None
            in_their_places(placed.unit)


def in_their_places(unit: Unit) -> None:
    """Openings are more than nothing, within the unit, and share no room with one another or with
    what stands between."""
    blocks = [
        tuple((each.low.value, each.high.value) for each in (opening.across, opening.up))
        for opening in unit.openings
    ]
    members = [
        tuple((each.low.value, each.high.value) for each in (member.across, member.up))
        for member in unit.members
    ]
    for (left, right), (bottom, top) in blocks:
        assert 0 < right - left <= unit.width.value
        assert 0 < top - bottom <= unit.height.value
    both = [*blocks, *members]
    for index, one in enumerate(both):
        for other in both[index + 1 :]:
            if one in members and other in members:
                continue
            assert any(a[1] <= b[0] or b[1] <= a[0] for a, b in zip(one, other, strict=True))


# -- shares --------------------------------------------------------------------------------------

steps = st.sampled_from([Fraction(1, 32), Fraction(1, 16), Fraction(10, 254), Fraction(1, 128)])


@given(
    total=st.fractions(min_value=Fraction(1, 100), max_value=400, max_denominator=1_000),
    shares=st.lists(st.integers(1, 5), min_size=1, max_size=12),
    step=steps,
)
def test_shares_add_up_and_equal_ones_differ_by_a_step_at_most(
    total: Fraction, shares: list[int], step: Fraction
) -> None:
    sizes = divide_in_shares(literal(total), shares, literal(step))
    assert sum(each.value for each in sizes) == total
    on_step = total % step == 0
    assert [each.off for each in sizes[:-1]] == [False] * (len(sizes) - 1)
    assert sizes[-1].off == (not on_step)
    for each in sizes[:-1]:
        assert each.value % step == 0
    whole = sum(shares)
    for count in set(shares):
        equal = [size.value for size, of in zip(sizes, shares, strict=True) if of == count]
        # The last share takes what is off the step, which is less than half of one either way.
        least = step if on_step else step + step / 2
        assert max(equal) - min(equal) <= least
        for size in equal:
            assert abs(size - total * count / whole) <= step


@given(widths=st.lists(st.integers(1, 3), min_size=2, max_size=9), length=st.integers(60, 4_000))
@SLOW
def test_shares_of_a_run_fill_it(widths: list[int], length: int) -> None:
    lines = "\n".join(
        f"  S{number}: cupboard {'share' if count == 1 else f'{count} shares'}"
        for number, count in enumerate(widths, start=1)
    )
    text = f"""use library
job Shares {{
  built shop
}}
room bench {{
  ceiling 96
  wall north length {length}/7
}}
run only on north from left {{
{lines}
}}
"""
    built = compiled({"run.case": text.encode()}, "run.case")
    sound(built)
    if built.job is None:
        assert {each.slug for each in built.findings} == {"size-not-positive"}
        return
    placed = built.job.placed
    assert sum(each.width.value for each in placed) == Fraction(length, 7)
    for one, other in pairwise(placed):
        assert one.at.value + one.width.value == other.at.value
    equal = [each.width.value for each, count in zip(placed, widths, strict=True) if count == 1]
    if equal:
        assert max(equal) - min(equal) <= Fraction(3, 2) * built.job.precision.value


# -- any text ------------------------------------------------------------------------------------

SCRAPS = (
    "{", "}", "(", ")", '"', "..", " or else ", " if ", " else ", " - ", " + ", " * ", "/", "=",
    "0", "27", "-3", "1/0", "5½", "999999999", "share", "for each n of 200 ", "when ", "left",
    "use std edition 1", "use kitchen", "S1:", "right", "of", "from", "across", "up", "deep",
    "mirrors", "without", "stack {", "part a of board", "\n", "\t", "#", "<<<<<<<\n", "=======\n",
    ">>>>>>>\n", "\ufeff", "é", "\u202e", "job x", "run x on north", ".", ",", ";", "let a = a",
    "option a length = a",
)  # fmt: skip


@cache
def sources() -> tuple[tuple[str, str], ...]:
    """Texts to spoil, each with its kind: examples of a kitchen, pages, and the library's own."""
    library = InstalledLibrary()
    own = [
        *(("kitchen", path) for path in sorted((ROOT / "examples").rglob("*.case"))),
        *(("kitchen", path) for path in sorted((ROOT / "tests" / "cases").rglob("*.case"))),
    ]
    texts = [(kind, path.read_text(encoding="utf-8")) for kind, path in own]
    texts += [("library", library.read(path).decode()) for path in library.texts()]
    return tuple(texts)


def spoilt(text: str, chance: random.Random) -> str:
    """The text with a few stretches left out, doubled, exchanged or overwritten by scraps."""
    for _ in range(chance.randint(1, 6)):
        if not text:
            return chance.choice(SCRAPS)
        start = chance.randrange(len(text))
        end = min(len(text), start + chance.choice((1, 1, 3, 12, 60)))
        match chance.randrange(4):
            case 0:
                text = text[:start] + text[end:]
            case 1:
                text = text[:start] + chance.choice(SCRAPS) + text[start:]
            case 2:
                text = text[:end] + text[start:]
            case _:
                text = text[:start] + chance.choice(SCRAPS) + text[end:]
    return text


def mutants(seed: int) -> Iterator[tuple[str, str]]:
    chance = random.Random(seed)
    kind, text = chance.choice(sources())
    yield kind, spoilt(text, chance)


@given(seed=st.integers(0, 1 << 48))
@settings(SLOW, max_examples=80)
def test_a_spoilt_text_is_findings_and_no_traceback(seed: int) -> None:
    for kind, text in mutants(seed):
        if kind == "kitchen":
            sound(compiled({"page.case": text.encode()}, "page.case"))
        else:
            # A spoilt library, seen from a kitchen that uses all of it as its own text.
            page = (
                "use kitchen\nuse spoilt\nrun one on north from left {\n  S1: drawer_base share\n}"
            )
            sound(compiled({"page.case": page.encode(), "spoilt.case": text.encode()}, "page.case"))


@given(text=st.text(max_size=400) | st.lists(st.sampled_from(SCRAPS), max_size=60).map("".join))
@settings(SLOW, max_examples=80)
def test_any_characters_are_findings_and_no_traceback(text: str) -> None:
    data = text.encode("utf-8", "surrogatepass")
    sound(compiled({"page.case": data}, "page.case"))
    sound(compiled({"page.case": b"use kitchen\nrun one on north {\n" + data}, "page.case"))


@given(data=st.binary(max_size=200))
@SLOW
def test_any_bytes_are_findings_and_no_traceback(data: bytes) -> None:
    built = compiled({"page.case": AROUND["kitchen.case"] + data}, "page.case")
    sound(built)


# -- bounded work --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "slug"),
    [
        # Blocks that count in blocks that count
        (
            "for each a of 200 { for each b of 200 { for each c of 200 { part p of board } } }",
            "too-many-turns",
        ),
        ("for each a of 100000 { part p of board  deep from front }", "wrong-kind"),
        ("for each a of 200 { part p of board  deep from front }", "parts-overlap"),
        # Patterns that hold themselves
        ("assembly one of self_holder", "holds-itself"),
        ("assembly one { assembly two { assembly three of self_holder } }", "holds-itself"),
        # Figures that double, that are squared, and that stand on one another
        ("\n".join(["let a0 = 1", *(f"let a{n + 1} = a{n} + a{n}" for n in range(40))]), ""),
        (
            "\n".join(["let a0 = 2", *(f"let a{n + 1} = a{n} * a{n}" for n in range(40))]),
            "number-too-long",
        ),
        (
            "\n".join(
                [
                    "let b0 = 0",
                    *(f"let b{n + 1} = b{n} + 1" for n in range(5_000)),
                    "let a40 = b5000",
                ]
            ),
            "needs-too-many",
        ),
    ],
)
def test_work_is_bounded(lines: str, slug: str) -> None:
    """What can't be built is said soon: each of these would run on for hours, or end in a
    traceback."""
    text = f"""use bench
pattern self_holder {{
  assembly again of self_holder
}}
construction shop {{
  {lines}
  let tall = (1 if a40 > 0 else 2)
  part panel of board  deep from front  up (tall if tall > 0 else 5) * 4" from bottom
  step panel
}}
"""
    text = text if "a40" in lines else text.replace("a40", "1")
    built = compiled({"page.case": text.encode()}, "page.case")
    sound(built)
    assert slug in {each.slug for each in built.findings} | {""}
    assert len(built.findings) <= 40
