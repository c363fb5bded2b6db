"""Whether it can be made: sheets and saws, boxes a little too deep."""

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.mends import for_each, moved_by
from casewright.compiler.check.site import (
    Site,
    Standing,
    assemblies,
    figure,
    inside,
    length,
    parts,
    words_of,
)
from casewright.compiler.model import Blank, Material, Part, Saw, Stock
from casewright.lang.findings import Edit, Figure, Severity
from casewright.lang.measure import Dimension, Measure

SHEET = "sheet"


def _usable(stock: Stock, saw: Saw | None) -> tuple[Fraction, Fraction]:
    """What is left of a sheet, width and length, when its factory edges are off."""
    if saw is None:
        return stock.width, stock.length
    return stock.width - saw.trim.across, stock.length - saw.trim.along


def _fits(part: Part | Blank, material: Material, stock: Stock, saw: Saw | None) -> bool:
    wide, long = _usable(stock, saw)
    width, tall = part.cut_width.value, part.cut_length.value
    if width <= wide and tall <= long:
        return True
    return not material.grained and width <= long and tall <= wide


@check(
    "part-larger-than-sheet",
    Severity.ERROR,
    doc="A part is larger than every sheet its material is bought in, the grain considered.",
    why="It can't be cut.",
    mend="Part it in two, choose a larger sheet, or turn the grain where that may be seen.",
    source="arithmetic: cut size against stock less trim",
    bad="""
    use plain_room
    sheet short_board { thick 3/4  stock 24 by 36  grain none  density 45  modulus 1800000 }
    run sink_wall on north from left length 42 {
      S1: open_base 42  case short_board  backing short_board
    }
    """,
    good={"24 by 36": "48 by 96"},
)
def larger_than_sheet(site: Site) -> Iterator[Report]:
    saw = site.job.saw
    for unit, standings in (*site.units, *site.bases):
        blanks = {blank.name: blank for blank in unit.blanks}
        told: set[str] = set()
        by_size = sorted(unit.parts, key=lambda part: -part.cut_length.value * part.cut_width.value)
        for part in by_size:
            material = part.material
            piece = blanks.get(part.blank, part)
            if part.hardware or material.kind != SHEET or not material.stock:
                continue
            if any(_fits(piece, material, stock, saw) for stock in material.stock):
                continue
            # The largest stands for the others of its material.
            if material.name in told:
                continue
            told.add(material.name)
            best = max(material.stock, key=lambda stock: stock.width * stock.length)
            wide, long = _usable(best, saw)
            turned = _fits_turned(piece, material, saw)
            yield Report(
                f"{words_of(part)} fits a sheet of {material.title} only across the grain"
                if turned
                else f"{words_of(part)} is larger than any sheet of {material.title}",
                part.origin,
                standings,
                (
                    length("its length, cut", piece.cut_length.value),
                    length("the sheet has", long),
                    length("its width, cut", piece.cut_width.value),
                    length("the sheet has", wide),
                ),
                help="let its grain run the other way where that may be seen, or part it in two"
                if turned
                else "part it in two, or choose a larger sheet",
            )


def _fits_turned(piece: Part | Blank, material: Material, saw: Saw | None) -> bool:
    """Whether a piece too large for every sheet would fit one if its grain were free."""
    width, tall = piece.cut_width.value, piece.cut_length.value
    usable = (_usable(stock, saw) for stock in material.stock)
    return any(width <= long and tall <= wide for wide, long in usable)


@check(
    "strip-too-narrow",
    Severity.WARNING,
    doc="A part is narrower than the shop rips against the fence, and isn't cut from a blank.",
    why="The hand comes too near the blade, and a narrow strip is slow to band.",
    mend="Cut it as a wider blank that is banded first and ripped afterwards: `rip`.",
    source="common practice; the least strip is the saw's own data",
    bad="""
    use plain_room
    run sink_wall on north from left length 24 {
      S1: open_base 24  cleat_high 1
    }
    """,
    good={"cleat_high 1": "cleat_high 3"},
)
def too_narrow(site: Site) -> Iterator[Report]:
    saw = site.job.saw
    for unit, standings in site.units if saw is not None else ():
        for part in unit.parts:
            if saw is None or part.hardware or part.material.kind != SHEET or part.blank:
                continue
            # A filler falls off the edge of a wide piece, whatever its own width.
            if part.role == "filler":
                continue
            narrow = min(part.cut_width, part.cut_length, key=lambda size: size.value)
            least, short = narrow.value, saw.least.value - narrow.value
            if short > 0:
                yield Report(
                    f"{words_of(part)} is a strip of {site.say(least)}; "
                    f"{site.say(saw.least.value)} is the least that is ripped",
                    part.origin,
                    standings,
                    (
                        figure("the least the saw rips", saw.least),
                        length("it is", least),
                        length("too narrow by", short, ruled=True),
                    ),
                    help="rip it from a wider blank",
                    edits=for_each(standings, partial(moved_by, site, quantity=narrow, by=short)),
                )
                break


@check(
    "rips-just-too-wide",
    Severity.ADVICE,
    doc="Boxes are a little too deep for one more rip out of each sheet.",
    why=(
        "Two 24s and a cut of 1/8 are 48 1/8: only one comes out of a 48 sheet, two out of a 49. A "
        "box a little shallower saves sheets."
    ),
    mend="Make the boxes as deep as the report says, or buy the wider sheet.",
    source="arithmetic: n x width + (n - 1) x kerf against the sheet less trim",
    bad="""
    use plain_room
    unit shallow from open_base { depth 23 7/8 }
    run sink_wall on north from left {
      S1: shallow share
      S2: shallow share
      S3: shallow share
      S4: shallow share
      S5: shallow share
    }
    """,
    good={"23 7/8": "23 5/8"},
)
def rips_too_wide(site: Site) -> Iterator[Report]:
    saw, near = site.job.saw, site.allowance("rip_near")
    if saw is None or near is None:
        return
    groups: dict[tuple[str, Fraction, Fraction], list[tuple[Part, tuple[Standing, ...]]]] = {}
    for unit, standings in site.units:
        trays = [tray.path for tray in assemblies(unit, "tray")]
        for part in parts(unit, "side"):
            if any(inside(part.path, tray) for tray in trays):
                continue
            if part.material.kind == SHEET and len(part.material.stock) == 1 and not part.blank:
                key = (part.material.name, part.cut_width.value, part.cut_length.value)
                groups.setdefault(key, []).append((part, standings))
    for (_, width, tall), found in groups.items():
        material = found[0][0].material
        pieces = sum(len(standings) for _, standings in found)
        wide, long = _usable(material.stock[0], saw)
        now = int((wide + saw.kerf.value) / (width + saw.kerf.value))
        if now < 1:
            continue
        could = (wide + saw.kerf.value) / (now + 1) - saw.kerf.value
        each = max(1, int((long + saw.kerf.value) / (tall + saw.kerf.value)))
        saved = -(-pieces // (now * each)) - -(-pieces // ((now + 1) * each))
        if not 0 < width - could <= near.value or saved < 1:
            continue
        standing = found[0][1][0]
        less = site.up_to_step(width - could)
        yield Report(
            f"sides {site.say(less)} narrower would come {now + 1} and not {now} from each rip of "
            f"{material.title}",
            standing.line,
            (standing,),
            (
                length("sheet, trimmed", wide),
                figure("a cut takes", saw.kerf),
                length("sides are", width),
                length(f"{now + 1} to a sheet if at most", could, ruled=True),
                Figure("sides of this width", Measure(Fraction(pieces), Dimension.COUNT)),
            ),
            help=f"boxes {site.say(less)} shallower save {saved} of the sheets for sides",
            edits=_shallower(site, found, less),
        )


def _shallower(
    site: Site, found: list[tuple[Part, tuple[Standing, ...]]], less: Fraction
) -> tuple[Edit, ...]:
    """Takes so much off the depth of every box of a width, where all of them can be."""
    widths = [(part.cut_width, standing) for part, standings in found for standing in standings]
    edits = [moved_by(site, standing, width, -less) for width, standing in widths]
    return tuple(dict.fromkeys(edit for each in edits for edit in each)) if all(edits) else ()
