"""What is asked of the planner for solid wood: rough pieces, and the boards they come from.

A piece is cut from its board longer and wider than it ends up, by what the shop's text says is
taken off ends and edges; a rough size is taken up to 1/16 inch or a millimetre, as a mill sets it.
What is wider than a board yields is glued up from strips of one width. A board counts without its
ends and without the share of its length that is cut out for defects. Where boards come as wide as
they come, all sections of a thickness are planned together, rip and crosscut; where each section
is bought at its own width, its lengths are planned by themselves.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final

from attrs import evolve, frozen

from casewright.compiler.cutting.matched import Matched, MatchedSet, matched
from casewright.compiler.cutting.named import label
from casewright.compiler.model import Job, Material, Part, Placed
from casewright.compiler.plan.lumber import GlueUp, glue_up, rough_thickness
from casewright.compiler.plan.request import (
    FINEST,
    Inner,
    Piece,
    Request,
    Saw,
    Stock,
    Trim,
    on_step,
)
from casewright.compiler.shop.supply import Boards
from casewright.lang.measure import INCH, System

LUMBER: Final = "lumber"

MILLED: Final[Mapping[str, Fraction]] = {"in": Fraction(1, 16), "mm": Fraction(1)}
"""What rough sizes are taken up to, by measure (common practice)."""


@frozen
class RoughPiece:
    """A piece as it comes off the board, in inches. `strip` is its number among the `strips` that
    a panel is glued up from, 0 for a piece that is one part; `matched` names the piece whose
    parts were one on the board, so that their figure runs on."""

    address: str
    holder: str
    label: str
    title: str
    rough_length: Fraction
    rough_width: Fraction
    length: Fraction
    width: Fraction
    strip: int = 0
    strips: int = 0
    matched: str = ""


@frozen
class Panel:
    """A part that is glued up from strips: how, and for which parts it is the same."""

    glued: GlueUp
    rough_length: Fraction
    length: Fraction
    width: Fraction
    labels: tuple[str, ...]
    title: str


@frozen
class TooLong:
    """A part that no board holds."""

    placed: Placed
    part: Part


@frozen
class BoardsWanted:
    """One lumber of a job: how its boards come, what is asked of the planner (a list a section
    where sections are bought apart), and the pieces behind it by the planner's addresses."""

    material: Material
    boards: Boards
    rough: Fraction
    surfaced: Fraction
    requests: tuple[Request, ...]
    pieces: Mapping[str, RoughPiece]
    panels: tuple[Panel, ...]
    too_long: tuple[TooLong, ...]
    matched: Matched


def boards_wanted(job: Job) -> tuple[BoardsWanted, ...]:
    """Every lumber of a job whose boards the shop's text describes, by name."""
    found: list[BoardsWanted] = []
    for material in job.materials:
        boards = job.supply.boards_of(material.name)
        if material.kind == LUMBER and boards is not None and job.saw is not None:
            found.append(_Asking(job, material, boards).wanted())
    return tuple(found)


def surfaced_thickness(material: Material) -> Fraction:
    """What a lumber is planed to before its joints are made: as bought, else as it is."""
    bought = material.data.get("bought")
    return material.thick.value if bought is None or isinstance(bought, str) else bought.value


class _Asking:
    """Turns the solid parts of one lumber into what the planner is asked."""

    def __init__(self, job: Job, material: Material, boards: Boards) -> None:
        self.job, self.material, self.boards = job, material, boards
        self.measure = "mm" if job.system is System.MILLIMETRES else "in"
        self.pieces: dict[str, RoughPiece] = {}
        self.panels: dict[tuple[GlueUp, Fraction, str], Panel] = {}
        self.too_long: list[TooLong] = []

    def wanted(self) -> BoardsWanted:
        found = matched(self.job, self.material, self.holds)
        asked = [self.together(each) for each in found.sets]
        held = frozenset(each.address for one in found.sets for each in one.parts)
        asked += [piece for placed in self.job.placed for piece in self.of_unit(placed, held)]
        surfaced = surfaced_thickness(self.material)
        rough = self.boards.rough or rough_thickness(surfaced) or surfaced
        return BoardsWanted(
            self.material,
            self.boards,
            rough,
            surfaced,
            () if self.too_long or not asked else tuple(self.requests(asked)),
            self.pieces,
            tuple(self.panels.values()),
            tuple(self.too_long),
            found,
        )

    def of_unit(self, placed: Placed, held: frozenset[str]) -> Iterator[Piece]:
        """The pieces of one placed unit, but those that a matched set holds."""
        for part in placed.unit.parts if placed.unit is not None else ():
            address = f"{placed.address}.{part.address}"
            if part.material.name != self.material.name or part.hardware:
                continue
            if address not in held and address not in self.job.sawn:
                yield from self.single(placed, part)

    def single(self, placed: Placed, part: Part) -> Iterator[Piece]:
        """A part as one piece, or as the strips it is glued up from."""
        long, wide = self.rough_sizes(part)
        if long > self.longest:
            self.too_long.append(TooLong(placed, part))
            return
        if self.widest is None or wide <= self.widest:
            rough = self.kept(placed, part, part.address, long, wide)
            yield self.asked(placed, part.address, rough)
            return
        glued = glue_up(part.cut_width.value, self.widest, 2 * self.boards.edge)
        wide = self.taken_up(glued.ripped_width)
        for strip in range(1, glued.strips + 1):
            name = f"{part.address}.{strip}"
            rough = evolve(
                self.kept(placed, part, name, long, wide), strip=strip, strips=glued.strips
            )
            self.pieces[rough.address] = rough
            yield self.asked(placed, name, rough)
        self.noted(placed, part, evolve(glued, ripped_width=wide), long)

    def noted(self, placed: Placed, part: Part, glued: GlueUp, long: Fraction) -> None:
        title = _words(part.address)
        key = (glued, long, title)
        known = self.panels.get(key)
        labels = (*(known.labels if known is not None else ()), label(placed))
        self.panels[key] = Panel(
            glued, long, part.length.value, part.width.value, tuple(dict.fromkeys(labels)), title
        )

    def together_sizes(self, parts: MatchedSet) -> tuple[Fraction, Fraction]:
        """Length and width of the piece that matched parts are cut from, in inches."""
        sizes = [self.rough_sizes(each.part) for each in parts.parts]
        between = self.kerf * (len(sizes) - 1)
        long = [each for each, _ in sizes]
        wide = [each for _, each in sizes]
        if parts.along:
            return sum(long) + between, max(wide)
        return max(long), sum(wide) + between

    def holds(self, parts: MatchedSet) -> bool:
        """Whether a board holds matched parts as one piece."""
        length, width = self.together_sizes(parts)
        widest = self.widest_board
        return length <= self.longest and widest is not None and width <= widest

    def together(self, parts: MatchedSet) -> Piece:
        """Matched parts as one piece of one board, in order."""
        length, width = self.together_sizes(parts)
        inner: list[Inner] = []
        for each in parts.parts:
            long, wide = self.rough_sizes(each.part)
            rough = self.kept(each.placed, each.part, each.part.address, long, wide)
            self.pieces[rough.address] = evolve(rough, matched=f"{parts.holder}.{parts.name}")
            inner.append(Inner(rough.address, self.in_measure(long), self.in_measure(wide)))
        return Piece(
            parts.name,
            parts.holder,
            self.in_measure(length),
            self.in_measure(width),
            inner=tuple(inner),
            apart="crosscut" if parts.along else "rip",
        )

    def kept(
        self, placed: Placed, part: Part, name: str, long: Fraction, wide: Fraction
    ) -> RoughPiece:
        rough = RoughPiece(
            f"{placed.address}.{name}",
            placed.address,
            label(placed),
            _words(part.address),
            long,
            wide,
            part.length.value,
            part.width.value,
        )
        self.pieces[rough.address] = rough
        return rough

    def asked(self, placed: Placed, name: str, rough: RoughPiece) -> Piece:
        return Piece(
            name,
            placed.address,
            self.in_measure(rough.rough_length),
            self.in_measure(rough.rough_width),
        )

    def rough_sizes(self, part: Part) -> tuple[Fraction, Fraction]:
        """Length and width of a part as it comes off the board, in inches."""
        return (
            self.taken_up(part.cut_length.value + 2 * self.boards.over),
            self.taken_up(part.cut_width.value + 2 * self.boards.edge),
        )

    def requests(self, asked: Sequence[Piece]) -> Iterator[Request]:
        """One list for all sections, or a list each where they are bought at their own width."""
        if self.boards.wide is not None:
            yield self.request(tuple(asked), self.down(self.boards.wide), self.up(self.boards.edge))
            return
        for width in sorted({piece.width for piece in asked}, reverse=True):
            yield self.request(
                tuple(piece for piece in asked if piece.width == width), width, Fraction(0)
            )

    def request(self, pieces: tuple[Piece, ...], wide: Fraction, jointed: Fraction) -> Request:
        ends = self.up(self.boards.ends)
        several = len(self.boards.lengths) > 1
        stock = tuple(
            Stock(
                f"{self.material.name} {index}",
                self.down(long * (1 - self.boards.defects)),
                wide,
                # What a board costs goes with its whole length, defects and all.
                cost=self.in_measure(long) * wide if several else None,
            )
            for index, long in enumerate(self.boards.lengths, 1)
        )
        saw = Saw(
            self.in_measure(self.kerf),
            Trim(fence=jointed, head=ends, foot=ends),
            first=self.boards.first,
        )
        return Request(self.measure, pieces, stock, saw)

    @property
    def kerf(self) -> Fraction:
        """The kerf in inches, on the planner's grid."""
        assert self.job.saw is not None
        return self.in_inches(self.up(self.job.saw.kerf.value))

    @property
    def longest(self) -> Fraction:
        """What the longest board yields, in inches."""
        boards = self.boards
        whole = self.down(max(boards.lengths) * (1 - boards.defects)) - 2 * self.up(boards.ends)
        return self.in_inches(whole)

    @property
    def widest(self) -> Fraction | None:
        """The widest piece that isn't glued up, in inches, as a mill sets it; None where every
        width is bought."""
        widths = [each for each in (self.widest_board, self.boards.strip) if each is not None]
        if not widths:
            return None
        step = MILLED[self.measure]
        return self.in_inches(on_step(self.in_measure(min(widths)), step, up=False))

    @property
    def widest_board(self) -> Fraction | None:
        """What is left of a board's width once an edge is jointed."""
        if self.boards.wide is None:
            return None
        return self.in_inches(self.down(self.boards.wide) - self.up(self.boards.edge))

    def taken_up(self, value: Fraction) -> Fraction:
        """A rough size in inches, taken up to what a mill sets."""
        return self.in_inches(on_step(self.in_measure(value), MILLED[self.measure], up=True))

    def up(self, value: Fraction) -> Fraction:
        return on_step(self.in_measure(value), FINEST[self.measure], up=True)

    def down(self, value: Fraction) -> Fraction:
        return on_step(self.in_measure(value), FINEST[self.measure], up=False)

    def in_measure(self, value: Fraction) -> Fraction:
        return value * INCH if self.measure == "mm" else value

    def in_inches(self, value: Fraction) -> Fraction:
        return value / INCH if self.measure == "mm" else value


def _words(address: str) -> str:
    return address.replace(".", " ").replace("_", " ")
