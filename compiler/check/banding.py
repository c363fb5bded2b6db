"""Edges at the bander: what it holds, and what it takes, at the moment each edge is banded.

A part goes through the bander as it comes from the saw; a strip of a blank first as the blank, on
its long edges, and again by itself once it is ripped, on its short ones.
"""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import Site, figure, length, words_of
from casewright.compiler.model import EDGES, Unit
from casewright.lang.cells import Quantity
from casewright.lang.findings import Severity
from casewright.lang.source import Origin


@frozen
class Pass:
    """One edge at the bander: what goes through, how long it is along the banded edge and how
    wide across it, at that moment. `ripped`: it hung in a blank until then."""

    words: str
    origin: Origin | None
    long: Quantity
    wide: Quantity
    ripped: bool = False


def passes(unit: Unit) -> Iterator[Pass]:
    """Every edge of a unit that is banded, at its moment."""
    for part in unit.parts:
        for banding in part.bands:
            end = EDGES[banding.edge][0] == part.length_axis
            if part.blank and not end:
                continue
            long, wide = (part.width, part.length) if end else (part.length, part.width)
            yield Pass(words_of(part), part.origin, long, wide, bool(part.blank))
    for blank in unit.blanks:
        if blank.bands:
            words = f"the blank of {len(blank.strips)} strips"
            yield Pass(words, blank.origin, blank.cut_length, blank.cut_width)


@check(
    "too-narrow-to-band",
    Severity.WARNING,
    doc="A part is banded that is narrower than the bander holds, and isn't ripped from a blank.",
    why="It tips on the bander's table, and its band comes out crooked.",
    mend="Band it as a wider blank that is ripped afterwards: `rip`.",
    source="common practice; the least width is the shop's allowance",
    bad="""
    use plain_room
    band edge { thick 1/32  wide 7/8 }
    sheet banded { thick 3/4  stock 48 by 96  grain none  density 42  modulus 1800000  band edge }
    construction ours from shop {
      part rail of banded  across 36 centred  up 1 3/4 from box.floor  deep from front + 6  band top
      join rail to box.floor with screwed
      step rail
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
    good={"1 3/4": "2"},
)
def too_narrow_to_band(site: Site) -> Iterator[Report]:
    least, saw = site.allowance("band_least"), site.job.saw
    for unit, standings in site.units if least is not None else ():
        for each in passes(unit):
            wide = each.wide.value
            # What is too narrow for the saw already has a report of its own.
            if least is None or wide >= least.value or (saw and wide < saw.least.value):
                continue
            yield Report(
                f"{each.words} is {site.say(wide)} wide where it is banded; "
                f"{site.say(least.value)} is the least",
                each.origin,
                standings,
                (
                    figure("the least that is banded", least),
                    length("it is", wide),
                    length("too narrow by", least.value - wide, ruled=True),
                ),
                help="band a wider blank, and rip it afterwards",
            )
            break


@check(
    "too-short-to-band",
    Severity.WARNING,
    doc="An edge is banded that is shorter, at the moment it is banded, than the bander takes: the "
    "end of a strip once it is ripped from its blank is as short as the strip is wide.",
    why="The bander's feed loses it between two rollers, and it is thrown or chipped.",
    mend="Band that edge by hand, don't band it, or rip wider strips.",
    source="common practice; the least length is the shop's allowance",
    bad="""
    use plain_room
    band edge { thick 1/32  wide 7/8 }
    sheet banded { thick 3/4  stock 48 by 96  grain none  density 42  modulus 1800000  band edge }
    construction ours from shop {
      part one of banded  across 36 centred  deep 3 from front + 2  band front left {
        up from box.floor
      }
      part other of banded  across 36 centred  deep 3 to box.back_panel  band front {
        up from box.floor
      }
      join one other to box.floor with screwed
      rip one other  kerf 1/8
      step one other
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
    good={"band front left": "band front"},
)
def too_short_to_band(site: Site) -> Iterator[Report]:
    least = site.allowance("band_shortest")
    for unit, standings in site.units if least is not None else ():
        short = [each for each in passes(unit) if least and each.long.value < least.value]
        if least is None or not short:
            continue
        worst = min(short, key=lambda each: each.long.value)
        ripped = ", once it is ripped," if worst.ripped else ""
        yield Report(
            f"an edge of {worst.words}{ripped} is {site.say(worst.long.value)} long; "
            f"{site.say(least.value)} is the shortest that is banded",
            worst.origin,
            standings,
            (
                figure("the shortest that is banded", least),
                length("it is", worst.long.value),
                length("too short by", least.value - worst.long.value, ruled=True),
            ),
            help="band that edge by hand, or not at all",
        )


@check(
    "band-narrower-than-edge",
    Severity.WARNING,
    doc="An edge is banded that is wider than its band.",
    why="A strip of the core stays bare beside the band; a bevelled end is wider than its board.",
    mend="Name a `wider` band of the same kind at the band, or a material with another band.",
    source="arithmetic on the band's own width",
    bad="""
    use plain_room
    band edge { thick 1/32  wide 7/8 }
    sheet banded { thick 1  stock 48 by 96  grain none  density 42  modulus 1800000  band edge }
    construction ours from shop {
      part rail of banded  across 36 centred  up 12 from box.floor  deep from front + 6  band top
      join rail to box.floor with screwed
      step rail
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
    good="""
    use plain_room
    band edge { thick 1/32  wide 7/8  wider edge_wide }
    band edge_wide { thick 1/32  wide 1 3/4 }
    sheet banded { thick 1  stock 48 by 96  grain none  density 42  modulus 1800000  band edge }
    construction ours from shop {
      part rail of banded  across 36 centred  up 12 from box.floor  deep from front + 6  band top
      join rail to box.floor with screwed
      step rail
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
)
def band_narrower_than_edge(site: Site) -> Iterator[Report]:
    for unit, standings in site.units:
        said: set[str] = set()
        for part in unit.parts:
            edges = [
                *((banding.band, part.thick) for banding in part.bands),
                *((edge.band, edge.wide) for edge in part.cut_edges),
            ]
            for band, wide in edges:
                has = band.data.get("wide")
                if not isinstance(has, Quantity) or has.value >= wide.value or band.name in said:
                    continue
                said.add(band.name)
                yield Report(
                    f"{words_of(part)} is banded where it is {site.say(wide.value)} wide; "
                    f"its band is {site.say(has.value)}",
                    part.origin,
                    standings,
                    (
                        figure("the edge", wide),
                        figure("its band", has),
                        length("stays bare", wide.value - has.value, ruled=True),
                    ),
                    help=f"add `wider` and a wider band to band {band.name}",
                )


@check(
    "blank-too-wide-to-band",
    Severity.WARNING,
    doc="A blank that is banded before it is ripped is wider than the bander takes.",
    why="It is cut in two at the bander, and its strips no longer come out of it.",
    mend="Say less strips in one `rip`.",
    source="arithmetic; the widest is the shop's allowance",
    bad="""
    use plain_room
    band edge { thick 1/32  wide 7/8 }
    sheet banded { thick 3/4  stock 48 by 96  grain none  density 42  modulus 1800000  band edge }
    construction ours from shop {
      part one of banded  across 36 centred  deep 12 from front + 2  band front {
        up from box.floor
      }
      part other of banded  across 36 centred  deep 12 to box.back_panel  band front {
        up from box.floor + 10
      }
      join one to box.floor with screwed
      join other to box.back_panel with pinned
      rip one other  kerf 1/8
      step one other
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
    good={
        "deep 12 from": "deep 10 from",
        "deep 12 to": "deep 10 to",
    },
)
def blank_too_wide(site: Site) -> Iterator[Report]:
    widest = site.allowance("band_widest")
    for unit, standings in site.units if widest is not None else ():
        for blank in unit.blanks:
            wide = blank.cut_width.value
            if widest is not None and blank.bands and wide > widest.value:
                yield Report(
                    f"the blank of {len(blank.strips)} strips is {site.say(wide)} wide; "
                    f"{site.say(widest.value)} is the widest that is banded",
                    blank.origin,
                    standings,
                    (
                        length("the blank is", wide),
                        figure("the widest that is banded", widest),
                        length("too wide by", wide - widest.value, ruled=True),
                    ),
                    help="rip fewer strips from one blank",
                )
