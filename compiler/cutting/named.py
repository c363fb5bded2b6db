"""What papers call the pieces of a plan: parts and blanks by the addresses that plans use."""

from collections.abc import Mapping
from fractions import Fraction

from attrs import frozen

from casewright.compiler.model import Blank, Job, Placed


@frozen
class Piece:
    """A piece as papers name it."""

    address: str
    holder: str
    label: str
    title: str
    blank: Blank | None
    widths: tuple[Fraction, ...]


def pieces_of(job: Job) -> Mapping[str, Piece]:
    """Every part and blank of the job by the address plans use."""
    found: dict[str, Piece] = {}
    for placed in job.placed:
        if placed.unit is None:
            continue
        by_address = {part.address: part for part in placed.unit.parts}
        for part in placed.unit.parts:
            if not part.hardware and not part.blank:
                address = f"{placed.address}.{part.address}"
                title = in_words(part.address)
                found[address] = Piece(address, placed.address, label(placed), title, None, ())
        for blank in placed.unit.blanks:
            address = f"{placed.address}.{blank.name}"
            title = blank_title(blank)
            widths = tuple(by_address[strip].width.value for strip in blank.strips)
            found[address] = Piece(address, placed.address, label(placed), title, blank, widths)
    return found


def label(placed: Placed) -> str:
    """What papers call a placed thing: its tag, or its address in words."""
    return placed.tag or in_words(placed.address)


def in_words(address: str) -> str:
    return address.replace(".", " ").replace("_", " ")


def blank_title(blank: Blank) -> str:
    """`2 strips`: what a blank is later ripped into."""
    return f"{len(blank.strips)} strips"


def later_rips(piece: Piece, width: Fraction) -> tuple[Fraction, ...]:
    """Where a blank is ripped after banding, from its fence edge: between its strips, with what
    is over shared by its two edges."""
    if len(piece.widths) < 2:
        return ()
    between = (width - sum(piece.widths)) / len(piece.widths)
    places: list[Fraction] = []
    at = between / 2
    for strip in piece.widths[:-1]:
        at += strip
        places.append(at + between / 2)
        at += between
    return tuple(places)
