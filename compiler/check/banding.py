"""Edges at the bander: what it holds, and what it takes."""

from collections.abc import Iterator

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import Site, figure, length, words_of
from casewright.compiler.model import EDGES
from casewright.lang.findings import Severity


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
    good="""
    use plain_room
    band edge { thick 1/32  wide 7/8 }
    sheet banded { thick 3/4  stock 48 by 96  grain none  density 42  modulus 1800000  band edge }
    construction ours from shop {
      part rail of banded  across 36 centred  up 2 from box.floor  deep from front + 6  band top
      join rail to box.floor with screwed
      step rail
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
)
def too_narrow_to_band(site: Site) -> Iterator[Report]:
    least, saw = site.allowance("band_least"), site.job.saw
    for unit, standings in site.units if least is not None else ():
        for part in unit.parts:
            if least is None or part.blank or not part.bands:
                continue
            wide = min(part.box.size(EDGES[banding.edge][0]) for banding in part.bands)
            # What is too narrow for the saw already has a report of its own.
            if wide >= least.value or (saw is not None and wide < saw.least.value):
                continue
            yield Report(
                f"{words_of(part)} is {site.say(wide)} wide where it is banded; "
                f"{site.say(least.value)} is the least",
                part.origin,
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
    good="""
    use plain_room
    band edge { thick 1/32  wide 7/8 }
    sheet banded { thick 3/4  stock 48 by 96  grain none  density 42  modulus 1800000  band edge }
    construction ours from shop {
      part one of banded  across 36 centred  deep 10 from front + 2  band front {
        up from box.floor
      }
      part other of banded  across 36 centred  deep 10 to box.back_panel  band front {
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
