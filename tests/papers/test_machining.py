"""Machining pages: every hole, groove and cut of a job on one row, and where the row says."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from html.parser import HTMLParser

import pytest
from attrs import evolve, frozen
from syrupy.assertion import SnapshotAssertion

from casewright.compiler.model import AXES, EDGES, Axis, Box, Cut, Hole, Job, Part
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.lists.machining import Worked, worked
from casewright.compiler.papers.pages.machining_pages import (
    AsTold,
    Told,
    machining_pages,
    machining_views,
    said,
)
from casewright.compiler.papers.pages.press import Press
from casewright.compiler.papers.pieces import Built, built
from casewright.lang.measure import INCH, System
from tests.papers.kitchens import kitchen
from tests.papers.sample import galley
from tests.papers.sample_goods import WHITE, part, q

KITCHENS = ("galley/galley", "galley/framed", "one_wall/kitchen", "tack_room/tack_room")

NEAR = Fraction(1, 200) / INCH
"""Inches in half of 1/100 mm: to that a figure is printed where no fraction says it."""

OPPOSITE = {"left": "right", "right": "left", "front": "back", "back": "front"}
FIGURE = re.compile(r"(\d+/\d+|\d+(?:\.\d+)?(?: \d+/\d+)?)(?: (?:shy|full))?(?: \(([^)]+)\))?")


@frozen
class PrintedRow:
    """The cells of one row, as a reader has them."""

    what: str
    along: str
    beside: str
    size: str


class Tables(HTMLParser):
    """The rows of every list of machining on a page, by the part they are of."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.rows: dict[str, list[PrintedRow]] = {}
        self._part, self._cells = "", [""]
        self._inside = False
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: Sequence[tuple[str, str | None]]) -> None:
        if tag == "table":
            self._part = dict(attrs).get("data-part") or ""
        elif tag == "tr":
            self._cells = []
        elif tag == "td":
            self._cells.append("")
            self._inside = True
        elif tag == "br":
            self._cells.append("")

    def handle_data(self, data: str) -> None:
        if self._inside and self._cells:
            self._cells[-1] += data.replace("\u00a0", " ")

    def handle_endtag(self, tag: str) -> None:
        if tag == "td":
            self._inside = False
        elif tag == "tr" and len(self._cells) == 5:
            self.rows.setdefault(self._part, []).append(PrintedRow(*self._cells[1:]))


def printed_rows(job: Job, item: Built) -> Mapping[str, list[PrintedRow]]:
    press = Press(printing_of(job))
    pages = machining_pages(job, item)
    return Tables("".join(press.set(page.template, **page.values) for page in pages)).rows


def inches(text: str, system: System) -> Fraction:
    """What a printed figure is in inches: what is in its brackets where it has some."""
    match = FIGURE.fullmatch(text)
    assert match, text
    figure = re.sub(r" (shy|full)", "", match[2] or match[1])
    metric = figure.endswith(" mm") or (system is System.MILLIMETRES)
    value = sum((Fraction(word) for word in figure.removesuffix(" mm").split()), Fraction(0))
    return value / INCH if metric else value


def figures(text: str, system: System) -> list[Fraction]:
    return [inches(match[0], system) for match in FIGURE.finditer(text)]


def place(of: Part, edge: str, far: Fraction) -> tuple[Axis, Fraction]:
    axis, side = EDGES[edge]
    return axis, of.box.along(axis)[0 if side < 0 else 1] - side * far


def edge_in(text: str) -> str:
    (edge,) = re.findall(r"from the (\w+)", text)
    return str(edge)


def turned_words(row: PrintedRow, words: Iterable[str]) -> PrintedRow:
    """The row as it reads for a part mirrored or turned: its `words` are their opposites."""
    pattern = re.compile(rf"\b({'|'.join(words)})\b(?= (?:face|edge)|,|$)")

    def other(text: str) -> str:
        return pattern.sub(lambda match: OPPOSITE[match[0]], text)

    return PrintedRow(other(row.what), other(row.along), other(row.beside), row.size)


HoleKey = tuple[str, str, Fraction, Fraction, Fraction, Fraction]


def rebuilt_holes(of: Part, row: PrintedRow, system: System) -> Iterator[HoleKey]:
    match = re.fullmatch(r"(.+): (\d+) holes?, (?:in the )?(\w+) (?:face|edge)", row.what)
    assert match, row
    use, count, face = match[1], int(match[2]), match[3]
    edge = edge_in(row.along)
    numbers = figures(re.sub(r", \d+ in all", "", row.along), system)
    run = [numbers[0]]
    if "every" in row.along:
        (steps,) = re.findall(r", (\d+) in all", row.along)
        run = [numbers[0] + index * numbers[1] for index in range(int(steps))]
    beside = figures(row.beside, system)
    diameter, *deep = figures(row.size, system)
    depth = deep[0] if deep else of.box.size(EDGES[face][0])
    assert len(run) * len(beside) == count
    for first in run:
        for second in beside:
            at = dict((place(of, edge, first), place(of, edge_in(row.beside), second)))
            low, high = (at[axis] for axis in AXES if axis in at)
            yield use, face, low, high, diameter, depth


def holes_of(of: Part) -> Iterator[HoleKey]:
    for hole in of.holes:
        face = next(edge for edge, which in EDGES.items() if which == (hole.axis, hole.side))
        at = dict(zip(hole.at_axes, (each.value for each in hole.at), strict=True))
        low, high = (at[axis] for axis in AXES if axis in at)
        # As deep as the part is thick is right through.
        depth = min(hole.depth.value, of.box.size(hole.axis))
        yield hole.use.replace("_", " "), face, low, high, hole.diameter.value, depth


def rebuilt_cut(of: Part, row: PrintedRow, system: System) -> tuple[str, Box]:
    match = re.fullmatch(r"(\w+)(?: for .+?)?(?:, (?:in the )?(\w+) (?:face|edge))?", row.what)
    assert match, row
    ranges = {axis: of.box.along(axis) for axis in AXES}
    wide, *deep = figures(row.size, system)
    if match[2]:
        axis, side = EDGES[match[2]]
        low, high = ranges[axis]
        ranges[axis] = (low, low + deep[0]) if side < 0 else (high - deep[0], high)
    if row.beside != "all over":
        (near,) = figures(row.beside, system)
        ends = [place(of, edge_in(row.beside), far) for far in (near, near + wide)]
        ranges[ends[0][0]] = (min(end for _, end in ends), max(end for _, end in ends))
    if row.along != "all along":
        ends = [place(of, edge_in(row.along), far) for far in figures(row.along, system)]
        ranges[ends[0][0]] = (min(end for _, end in ends), max(end for _, end in ends))
    return match[1], Box(ranges["across"], ranges["up"], ranges["deep"])


def is_near(one: Sequence[object], other: Sequence[object], slack: Fraction) -> bool:
    return all(
        abs(first - second) <= slack
        if isinstance(first, Fraction) and isinstance(second, Fraction)
        else first == second
        for first, second in zip(one, other, strict=True)
    )


def assert_rows_are_the_work(of: Part, rows: Sequence[PrintedRow], system: System) -> None:
    """That `rows` say the holes and cuts of a part, each once and nothing else."""
    holes = [hole for row in rows if ": " in row.what for hole in rebuilt_holes(of, row, system)]
    for wanted in holes_of(of):
        # A row's last hole is its first and so many steps, each printed to 1/200 mm.
        slack = NEAR * (1 + len(of.holes))
        found = next((each for each in holes if is_near(each, wanted, slack)), None)
        assert found is not None, (of.address, wanted)
        holes.remove(found)
    assert holes == []
    cuts = [rebuilt_cut(of, row, system) for row in rows if ": " not in row.what]
    for cut in of.cuts:
        flat = [end for axis in AXES for end in cut.box.along(axis)]
        made = next(
            (
                each
                for each in cuts
                if each[0] == cut.kind
                and is_near([end for a in AXES for end in each[1].along(a)], flat, 2 * NEAR)
            ),
            None,
        )
        assert made is not None, (of.address, cut.kind, flat)
        cuts.remove(made)
    assert cuts == []


def assert_everything_is_said(job: Job) -> int:
    """That the pages of a job say all its machining once; how many holes and cuts that was."""
    count = 0
    for item in built(job):
        rows = printed_rows(job, item)
        said_of = worked(item)
        assert set(rows) == {f"{item.holder}.{each.part.address}" for each in said_of}
        told = [of.path for each in said_of for of in each.parts]
        assert sorted(told) == sorted(of.path for of in item.unit.parts if of.cuts or of.holes)
        for each in said_of:
            own = rows[f"{item.holder}.{each.part.address}"]
            for parts, swapped in (
                (each.same, ()),
                (each.mirrored, ("left", "right")),
                (each.turned, ("left", "right", "front", "back")),
            ):
                for of in parts:
                    theirs = [turned_words(row, swapped) for row in own] if swapped else own
                    assert_rows_are_the_work(of, theirs, job.system)
                    count += len(of.holes) + len(of.cuts)
    return count


@pytest.mark.parametrize("name", KITCHENS)
def test_the_printed_rows_are_the_machining_of_the_job(name: str) -> None:
    job = kitchen(name)
    wanted = sum(len(of.holes) + len(of.cuts) for item in built(job) for of in item.unit.parts)
    assert assert_everything_is_said(job) == wanted
    assert wanted > 50


@pytest.mark.parametrize("name", ["galley/framed", "island/framed"])
def test_a_part_told_on_another_units_page_is_worked_as_that_one(name: str) -> None:
    job = kitchen(name)
    press = Press(printing_of(job))
    told: dict[object, Told] = {}
    rows: dict[str, list[PrintedRow]] = {}
    alike: list[AsTold] = []
    parts = 0
    for item in built(job):
        parts += len(worked(item))
        for page in machining_pages(job, item, told=told):
            text = press.set(page.template, **page.values)
            rows.update(Tables(text).rows)
            alike += page.values["alike"]
            for each in page.values["alike"]:
                said_here = f'as <a href="#{each.told.holder}-machining-1">{each.told.label} '
                assert said_here in text
    assert len(alike) + len(rows) == parts
    assert len(alike) > 2
    for each in alike:
        own = rows[f"{each.told.holder}.{each.told.part.address}"]
        assert_rows_are_the_work(each.each.part, own, job.system)


def hole(use: str, side: int, up: str, deep: str) -> Hole:
    return Hole("across", side, (q(up), q(deep)), ("up", "deep"), q("3/16"), q("3/8"), use, None)


def a_side(path: str, across: tuple[str, str], side: int, *, holes: Sequence[Hole] = ()) -> Part:
    low, high = (Fraction(each) for each in across)
    entered = (high - Fraction(1, 4), high) if side > 0 else (low, low + Fraction(1, 4))
    own = Box((low, high), (Fraction(4), Fraction(30)), (Fraction(0), Fraction(24)))
    groove = Cut(
        "groove", Box(entered, own.up, (Fraction(22), Fraction(23))), "box.back", q("1/4"), None
    )
    made = part(path, "side", WHITE, own, "across", "up", holes=tuple(holes))
    return evolve(made, cuts=(groove,))


def unit_of(*parts: Part) -> tuple[Job, Built]:
    """A job whose S1 has these parts and no others."""
    job = galley()
    run, *others = job.runs
    placed = tuple(
        evolve(each, unit=evolve(each.unit, parts=parts, joints=(), steps=(), blanks=()))
        if each.tag == "S1" and each.unit is not None
        else each
        for each in run.placed
    )
    changed = evolve(job, runs=(evolve(run, placed=placed), *others))
    return changed, next(item for item in built(changed) if item.holder == "S1")


ROW = [("7 1/2", "1 1/2"), ("9", "1 1/2"), ("10 1/2", "1 1/2"), ("20", "3")]


def holes_in(side: int, places: Iterable[tuple[str, str]]) -> list[Hole]:
    return [
        hole(
            "pins", side, str(sum(map(Fraction, up.split()))), str(sum(map(Fraction, deep.split())))
        )
        for up, deep in places
    ]


def test_a_mirrored_side_is_said_with_the_one_it_mirrors() -> None:
    left = a_side("box.left_side", ("0", "3/4"), 1, holes=holes_in(1, ROW))
    right = a_side("box.right_side", ("69/4", "18"), -1, holes=holes_in(-1, ROW))
    job, item = unit_of(left, right)
    (each,) = worked(item)
    assert each.mirrored == (right,)
    assert each.others == "right side: as left side, mirrored"
    assert_everything_is_said(job)


def test_a_side_with_one_hole_elsewhere_is_not_a_mirrored_one() -> None:
    left = a_side("box.left_side", ("0", "3/4"), 1, holes=holes_in(1, ROW))
    moved = [*ROW[:-1], ("20", "3 1/64")]
    right = a_side("box.right_side", ("69/4", "18"), -1, holes=holes_in(-1, moved))
    job, item = unit_of(left, right)
    assert [each.part for each in worked(item)] == [left, right]
    assert_everything_is_said(job)


def test_a_side_bored_on_its_outside_is_not_a_mirrored_one() -> None:
    left = a_side("box.left_side", ("0", "3/4"), 1, holes=holes_in(1, ROW))
    right = a_side("box.right_side", ("69/4", "18"), -1, holes=holes_in(1, ROW))
    job, item = unit_of(left, right)
    assert len(worked(item)) == 2
    assert_everything_is_said(job)


def test_cuts_into_edges_and_right_through_are_said() -> None:
    panel = a_side("box.left_side", ("0", "3/4"), 1)
    through = Box(
        (Fraction(0), Fraction(3, 4)), (Fraction(4), Fraction(8)), (Fraction(0), Fraction(3))
    )
    mortise = Box(
        (Fraction(1, 4), Fraction(1, 2)), (Fraction(10), Fraction(12)), (Fraction(0), Fraction(1))
    )
    cuts = (
        *panel.cuts,
        Cut("cut", through, "", q("3/4"), None),
        Cut("cut", mortise, "", q(1), None),
    )
    edge_hole = Hole("up", 1, (q("3/8"), q(5)), ("across", "deep"), q("1/4"), q(1), "dowel", None)
    job, item = unit_of(evolve(panel, cuts=cuts, holes=(edge_hole, edge_hole)))
    assert_everything_is_said(job)
    whats = [row.what for row in printed_rows(job, item)["S1.left_side"]]
    assert whats == [
        "groove for back, right face",
        "cut",
        "cut, in the front edge",
        "dowel: 1 hole, in the top edge",
        "dowel: 1 hole, in the top edge",
    ]


def test_a_long_list_goes_on_with_its_part_named() -> None:
    places = [(str(5 + Fraction(index * index, 64)), str(1 + index % 7)) for index in range(38)]
    job, item = unit_of(a_side("box.left_side", ("0", "3/4"), 1, holes=holes_in(1, places)))
    pages = list(machining_pages(job, item))
    assert len(pages) > 1
    assert [page.part for page in pages] == [
        f"{n} of {len(pages)}" for n in range(1, len(pages) + 1)
    ]
    assert_everything_is_said(job)


def _told(job: Job, each: Worked) -> list[str]:
    printing = printing_of(job)
    return [
        "  "
        + "; ".join(
            said(note, printing) for note in (row.what, row.along, row.beside, row.size)
        ).replace("\u00a0", " ")
        for row in each.works
    ]


@pytest.mark.parametrize("tag", ["S1", "S2"])
def test_the_rows_read_aloud(tag: str, snapshot: SnapshotAssertion) -> None:
    job = kitchen("galley/galley")
    item = next(each for each in built(job) if each.holder == tag)
    lines = []
    for each in worked(item):
        lines += [f"{each.name}, {each.face} face. {each.others}".rstrip(), *_told(job, each)]
    assert "\n".join(lines) == snapshot


def test_a_drawing_has_a_letter_a_row_and_its_hands_spelt() -> None:
    job = kitchen("galley/galley")
    for item in built(job):
        for each, drawing in zip(worked(item), machining_views(job, item), strict=True):
            letters = [text.text for text in drawing.letters if text.kind == "bold"]
            assert letters == [row.mark for row in each.works]
            ends = " ".join(text.text for text in drawing.letters)
            wanted = ("front", "back") if each.part.thick_axis == "across" else ("LEFT", "RIGHT")
            assert all(word in ends for word in wanted)
            assert drawing.width <= 70
