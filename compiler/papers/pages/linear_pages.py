"""What runs along units, and bands, by the length: a page, and a list as CSV."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from attrs import frozen

from casewright.compiler.cutting.linear import LinearList, LinearPiece
from casewright.compiler.model import Job
from casewright.compiler.papers.figures import marked, printing_of, suffix
from casewright.compiler.papers.lists.spreadsheet import sheet
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pages.buy_pages import amount_words
from casewright.compiler.papers.pages.pages import Page, lines_in, paged, part_of, room_on
from casewright.compiler.shop.priced import BuyingList, Needed
from casewright.lang.measure import length
from casewright.lang.printing import decimal_of

SAY = (
    "For the owner, and whoever cuts by the length. Before: the runs are agreed and measured. "
    "After: order the lengths, cut the pieces, mark each with its run and number."
)

_LINE, _PADDING, _HEAD = 4.6, 1.8, 32.0


@frozen
class PieceRow:
    """A piece in words."""

    number: int
    where: str
    begins: str
    covers: str
    cut: str
    ends: str
    bar: str

    @property
    def height(self) -> float:
        """Millimetres the row takes on paper."""
        lines = max(lines_in(self.where, 40.0), lines_in(self.ends, 50.0))
        return lines * _LINE + _PADDING


@frozen
class Listed:
    """One list, or what of it is on this page."""

    title: str
    headline: str
    lengths: str
    over: str
    rows: tuple[PieceRow, ...]
    continued: bool


@frozen
class BandRow:
    """A band by the length: what is covered, what each edge is cut longer, what is needed."""

    title: str
    edges: str
    covered: str
    over: str
    needed: str


def linear_pages(job: Job, lists: Sequence[LinearList], buying: BuyingList) -> Iterator[Page]:
    """The linear lists, bands after them, over as many pages as they take."""
    bands = [_band_row(job, row) for row in buying.rows if row.section == "bands"]
    entries = [
        ((listed, piece_row(job, listed, piece)), piece is listed.pieces[0])
        for listed in lists
        for piece in listed.pieces
    ]
    if not entries:
        return
    sized = [(entry, entry[1].height + (_HEAD if first else 0.0)) for entry, first in entries]
    high = _HEAD + sum(2 * _LINE + _PADDING for _ in bands)
    shared = paged([*sized, *([(None, high)] if bands else [])], room_on(job), _HEAD)
    begun: set[str] = set()
    for number, held in enumerate(shared, 1):
        blocks: dict[str, tuple[LinearList, list[PieceRow]]] = {}
        for entry in held:
            if entry is not None:
                blocks.setdefault(entry[0].linear.name, (entry[0], []))[1].append(entry[1])
        yield Page(
            f"linear-{number}",
            "buy",
            "Linear list",
            SAY,
            "linear_list.html",
            {
                "lists": [
                    _listed(job, listed, rows, name in begun)
                    for name, (listed, rows) in blocks.items()
                ],
                "bands": bands if None in held else [],
            },
            find="linear list" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
        )
        begun |= set(blocks)


def piece_row(job: Job, listed: LinearList, piece: LinearPiece) -> PieceRow:
    """A piece as the page shows it."""
    printing = printing_of(job)
    to = f"{piece.first} to {piece.last}" if piece.first != piece.last else piece.first
    ends = f"left: {piece.left}; right: {piece.right}"
    return PieceRow(
        piece.number,
        f"{words(piece.run)}, {to}",
        marked(length(piece.at), printing),
        marked(length(piece.length), printing),
        marked(length(piece.cut), printing),
        "both ends free" if piece.left == piece.right == "end" else ends,
        f"{piece.bar}, {marked(length(listed.bars[piece.bar - 1]), printing)}",
    )


def _listed(job: Job, listed: LinearList, rows: Sequence[PieceRow], continued: bool) -> Listed:
    printing = printing_of(job)
    counts = {long: listed.bars.count(long) for long in sorted(set(listed.bars))}
    return Listed(
        listed.linear.title,
        listed.headline,
        ", ".join(f"{count} of {marked(length(long), printing)}" for long, count in counts.items()),
        marked(length(listed.linear.over), printing) if listed.linear.over else "",
        tuple(rows),
        continued,
    )


def _band_row(job: Job, row: Needed) -> BandRow:
    over = row.bought.over if row.bought is not None else Fraction(0)
    return BandRow(
        row.title,
        row.note,
        amount_words(job, row, row.net),
        marked(length(over), printing_of(job)) if over else "nothing",
        amount_words(job, row, row.needed),
    )


def linear_csv(job: Job, lists: Sequence[LinearList]) -> str:
    """The pieces as CSV (RFC 4180): where each begins on its run, what it covers, and its cut."""
    unit = suffix(printing_of(job))

    def size(value: Fraction) -> str:
        return decimal_of(length(value), job.system)

    return sheet(
        (
            "what", "piece", "run", "from", "to", f"begins_{unit}", f"covers_{unit}",
            f"cut_{unit}", "at_left", "at_right", "bought_length", f"bought_{unit}",
        ),
        (
            (
                listed.linear.title, str(piece.number), words(piece.run), piece.first, piece.last,
                size(piece.at), size(piece.length), size(piece.cut), piece.left, piece.right,
                str(piece.bar), size(listed.bars[piece.bar - 1]),
            )
            for listed in lists
            for piece in listed.pieces
        ),
    )  # fmt: skip
