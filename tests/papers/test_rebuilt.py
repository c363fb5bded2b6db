"""Units built again from the printed book alone, and held against the job."""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from fractions import Fraction
from html.parser import HTMLParser

import pytest
from attrs import field, frozen

from casewright.compiler.model import AXES, Job
from casewright.compiler.papers.pages.book import book as book_of
from casewright.compiler.papers.pieces import Built, built, sawn
from casewright.lang.measure import System
from tests.papers.kitchens import kitchen, printed_book
from tests.papers.test_machining import NEAR, inches
from tests.rooms.corners import in_corner as diagonal

KITCHENS = ("galley/framed", "one_wall/kitchen")

Corners = tuple[Fraction, ...]
"""Left, bottom, front, then size across, up and deep, in inches."""


@frozen
class Row:
    """A row of a list: the page it stands on, its own address, its cells as a reader has them, and
    where the links and marks in it are."""

    page: str
    table: str
    address: str
    cells: list[str] = field(factory=list)
    ids: list[str] = field(factory=list)
    links: list[str] = field(factory=list)


class Book(HTMLParser):
    """Every list of a book, row by row."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.rows: list[Row] = []
        self._page = self._table = ""
        self._in_cell = False
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: Sequence[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag == "section":
            self._page = given["id"]
        elif tag == "table":
            self._table = given.get("class", "")
        elif tag == "tr":
            address = given.get("data-parts") or given.get("id", "")
            self.rows.append(Row(self._page, self._table, address))
        elif tag == "td":
            self.rows[-1].cells.append("")
            self._in_cell = True
        elif self._in_cell and "id" in given:
            self.rows[-1].ids.append(given["id"])
        elif self._in_cell and tag == "a":
            self.rows[-1].links.append(given.get("href", ""))

    def handle_data(self, data: str) -> None:
        if self._in_cell:
            self.rows[-1].cells[-1] += data.replace("\u00a0", " ")

    def handle_endtag(self, tag: str) -> None:
        if tag == "td":
            self._in_cell = False

    def of(self, table: str) -> list[Row]:
        return [row for row in self.rows if row.table == table and row.cells]


def printed(cell: str, system: System) -> Fraction:
    """What a cell says, in inches; `3/4 before it` is less than nothing, brackets hold
    millimetres."""
    text, outside = re.subn(r" (left of|under|before) it$", "", cell)
    text = re.sub(r"\(([\d.]+)\)$", r"(\1 mm)", text)
    return -inches(text, system) if outside else inches(text, system)


def solids(text: str, system: System) -> dict[str, Corners]:
    """Every part's box as the book has it, by the part's address. A row of equal parts says one
    figure for all, or one for each in order."""
    found: dict[str, Corners] = {}
    for row in Book(text).of("places"):
        places = row.address.split(" ")
        size = tuple(printed(each, system) for each in row.cells[4].split(" × "))
        corners = [[printed(each, system) for each in cell.split(", ")] for cell in row.cells[1:4]]
        for index, address in enumerate(places):
            assert address not in found, "a part stands on two rows"
            corner = (told[index if len(told) > 1 else 0] for told in corners)
            found[address] = (*corner, *size)
        assert all(len(told) in (1, len(places)) for told in corners)
    return found


def solids_of(item: Built) -> dict[str, Corners]:
    """The same of the job."""
    return {
        f"{item.holder}.{part.address}": (
            *(part.box.along(axis)[0] for axis in AXES),
            *(part.box.size(axis) for axis in AXES),
        )
        for part in item.unit.parts
    }


def differences(book: Mapping[str, Corners], job: Job) -> list[str]:
    """The parts that the book has otherwise than the job, or not at all."""
    wanted: dict[str, Corners] = {}
    for item in built(job):
        if len(item.unit.parts) > 1:
            wanted.update(solids_of(item))
    return sorted(
        address
        for address in book.keys() | wanted.keys()
        if address not in book
        or address not in wanted
        or any(
            abs(one - other) > NEAR
            for one, other in zip(book[address], wanted[address], strict=True)
        )
    )


@pytest.mark.parametrize("name", KITCHENS)
def test_every_unit_is_built_from_the_book_as_it_is_in_the_job(name: str) -> None:
    job = kitchen(name)
    book = solids(printed_book(name), job.system)
    assert differences(book, job) == []
    assert len(book) > 80


def test_a_book_with_one_figure_wrong_is_found_out() -> None:
    job = kitchen("galley/framed")
    text = printed_book("galley/framed")
    (row,) = re.findall(r'<tr data-parts="S2\.left_side S2\.right_side">.*?</tr>', text, re.DOTALL)
    sides = ["S2.left_side", "S2.right_side"]
    cells = re.findall(r'<td class="number">(.*?)</td>', row)
    assert len(cells) == 4
    for cell in cells:
        wrong = cell.replace(cell.split(", ")[0].split(" × ")[0], "7\u00a03/16", 1)
        spoilt = row.replace(f">{cell}<", f">{wrong}<", 1)
        found = differences(solids(text.replace(row, spoilt), job.system), job)
        assert found == (sides[:1] if ", " in cell else sides)
    left, right = cells[0].split(", ")
    swapped = row.replace(cells[0], f"{right}, {left}")
    assert differences(solids(text.replace(row, swapped), job.system), job) == sides
    assert differences(solids(text.replace(row, ""), job.system), job) == sides


@pytest.mark.parametrize("name", KITCHENS)
def test_sizes_on_the_sheets_are_those_the_parts_stand_with(name: str) -> None:
    job = kitchen(name)
    text = printed_book(name)
    book = solids(text, job.system)
    rounded = job.precision.value / 2
    count = 0
    for row in Book(text).of("parts"):
        if not row.cells[4]:
            continue
        wide, long = (inches(each, job.system) for each in row.cells[4].split(" × "))
        for address in row.ids:
            sizes = book[address][3:]
            assert any(abs(wide - size) <= rounded for size in sizes), address
            assert any(abs(long - size) <= rounded for size in sizes), address
            count += 1
    assert count > 80


@pytest.mark.parametrize("name", KITCHENS)
def test_every_part_is_on_one_row_of_the_cut_list_and_in_one_step(name: str) -> None:
    job = kitchen(name)
    book = Book(printed_book(name))
    cut_rows = {row.address: row for row in book.of("cut") if row.address}
    steps: dict[str, str] = {}
    cut: dict[str, list[Row]] = {}
    at = Counter[str]()
    last = ""
    for row in book.of("parts"):
        last = row.cells[0] or last
        for address in row.ids:
            at[address] += 1
            steps[address] = last
            links = [each for each in row.links if each.startswith("#row-")]
            cut[address] = [cut_rows[each.removeprefix("#")] for each in links]
    pieces = 0
    for item in built(job):
        pieces += len(list(sawn(item.unit))) - sum(
            len(blank.strips) - 1 for blank in item.unit.blanks
        )
        if len(item.unit.parts) < 2:
            continue
        for part in sawn(item.unit):
            address = f"{item.holder}.{part.address}"
            assert at[address] == 1, address
            assert steps[address].isdigit(), address
            # A row of equal parts may be cut from rows of the cut list that differ in grain.
            assert cut[address], address
            assert all(item.label in row.cells[3].split(", ") for row in cut[address]), address
    assert sum(int(row.cells[1]) for row in cut_rows.values()) == pieces


def corners_cut(job: Job, text: str) -> dict[str, tuple[Fraction, Fraction]]:
    """What the cut list has cut off the corner of boards, across and deep, by the part's name."""
    said = re.findall(
        r"([a-z, ]+)[:;] corner cut off ([^;<]+?) by ([^;<]+)", text.replace("\u00a0", " ")
    )
    return {
        name.strip(): (inches(one, job.system), inches(other, job.system))
        for names, one, other in said
        for name in names.split(",")
    }


@pytest.mark.parametrize("construction", ["frameless", "face_frame"])
def test_a_diagonal_unit_is_built_from_the_book_alone(construction: str) -> None:
    found = diagonal("diagonal_base 36 return 40", construction)
    assert found.job is not None
    text = book_of(found.job, found.findings, {})
    book = solids(text, found.job.system)
    assert differences(book, found.job) == []
    (item,) = (each for each in built(found.job) if each.label == "S2")
    turned = {f"S2.{part.address}" for part in item.unit.parts if part.slant is not None}
    assert "S2.door_side_door.face" in turned
    # A turned part's row says so, as its figures are from its own mouth; no other's does.
    named = {
        address
        for row in Book(text).of("places")
        if row.cells[0].endswith(", as before the door side")
        for address in row.address.split(" ")
        if address.startswith("S2.")
    }
    assert named == turned
    cut = corners_cut(found.job, text)
    boards = {part.address: part.cuts[0] for part in item.unit.parts if part.address in cut}
    assert {"floor", "cap"} <= set(boards)
    # The cut list is for the saw: its figures are to the job's precision, before the band is on.
    rounded = found.job.precision.value / 2
    for name, each in boards.items():
        assert each.sawn is not None
        assert abs(cut[name][0] - each.sawn.size("across")) <= rounded, name
        assert abs(cut[name][1] - each.sawn.size("deep")) <= rounded, name
