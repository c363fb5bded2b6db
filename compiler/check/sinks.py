"""Sinks, as rule packs limit them: how they stand, and what lies beside a second one."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.knees import is_open, width_between_sides
from casewright.compiler.check.measured import (
    Measured,
    landings,
    main_sink,
    quantity,
    serving,
    surface,
)
from casewright.compiler.check.site import Site, Standing
from casewright.compiler.shop.yardstick import LENGTH


def second_sinks(site: Site) -> Iterator[Standing]:
    """Every sink but the main one."""
    return (each for each in serving(site, "sink") if each is not site.once(main_sink))


@quantity(
    "second_sink_landing_wide",
    LENGTH,
    "second-sink-landing-ruled",
    doc="The larger free counter beside a second sink is shorter than a rule asks for. The main "
    "sink is the widest, of equal ones the first.",
    why="Salad is washed there, and laid on the cooking surface.",
    bad="""
    use plain_room
    rule_pack trial { limit second_sink_landing_wide least 18 }
    run sink_wall on north from left {
      filler 2
      S1: sink_base 26  hung left
      S2: open_base 16
      S3: sink_base 15  hung left
      space share
    }
    """,
    good={"open_base 16": "open_base 18"},
)
def second_sink_landing_wide(site: Site) -> Iterator[Measured]:
    for standing in second_sinks(site):
        words = f"free counter on the better side of {standing.name}"
        yield Measured(max(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "second_sink_landing_narrow",
    LENGTH,
    "second-sink-other-landing-ruled",
    doc="The smaller free counter beside a second sink is shorter than a rule asks for. The main "
    "sink is the widest, of equal ones the first.",
    why="Its rim ends at a wall or a tall side: water runs down there.",
    bad="""
    use plain_room
    rule_pack trial { limit second_sink_landing_narrow least 3 }
    run sink_wall on north from left {
      filler 2
      S1: sink_base 26  hung left
      S2: open_base 23
      S3: sink_base 19  hung right
      filler share
    }
    """,
    good={"sink_base 19": "sink_base 18"},
)
def second_sink_landing_narrow(site: Site) -> Iterator[Measured]:
    for standing in second_sinks(site):
        words = f"free counter on the other side of {standing.name}"
        yield Measured(min(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "sink_height",
    LENGTH,
    "sink-height-ruled",
    doc="A sink's rim, or the counter that it hangs in, is higher than a rule allows.",
    why="From a wheelchair nobody reaches over it to the tap.",
    bad="""
    use plain_room
    rule_pack trial { limit sink_height most 34  basis access }
    run sink_wall on north from left length 34 {
      space 2
      S1: sink_base 30  hung left
      space 2
    }
    """,
    good={"most 34": "most 36"},
)
def sink_height(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "sink"):
        words = f"rim of {standing.name} above the floor"
        yield Measured(surface(site, standing), words, standing.line, (standing,))


@quantity(
    "bowl_down",
    LENGTH,
    "bowl-depth-ruled",
    doc="The bowl of a sink hangs deeper than a rule allows.",
    why="Knees under it meet the bowl.",
    bad="""
    use plain_room
    rule_pack trial { limit bowl_down most 6 1/2  basis access }
    run sink_wall on north from left length 34 {
      space 2
      S1: sink_base 30  hung left  bowl 8 by 8 down 8
      space 2
    }
    """,
    good={"down 8": "down 6 1/2"},
)
def bowl_down(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "sink"):
        bowl = standing.stands.bowl
        if bowl is not None:
            words = f"depth of the bowl of {standing.name}"
            yield Measured(bowl.down.value, words, standing.line, (standing,))


@quantity(
    "sink_knee_wide",
    LENGTH,
    "sink-knee-width-ruled",
    doc="The knee space under the sink is narrower than a rule asks for, or there is none.",
    why="Whoever sits in a wheelchair can't wash up.",
    bad="""
    use plain_room
    rule_pack trial { limit sink_knee_wide least 36  basis access }
    unit knees bare  serves base_unit  holds sink  bowl 8 by 8 down 6 {
      high  room.counter - room.counter_thick
      depth 23 5/8
      part left_side of ply  across from left  grain up  serves side
      part right_side mirrors left_side
      part rail of ply  across left_side .. right_side  up 4 to top  deep to back
      join rail to left_side right_side with screwed
      step left_side rail right_side
    }
    run sink_wall on north from left {
      filler 2
      S1: knees 37
      filler share
    }
    """,
    good={"knees 37": "knees 37 1/2"},
)
def sink_knee_wide(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "sink"):
        wide = width_between_sides(standing) if is_open(standing) else Fraction(0)
        words = f"knee space under {standing.name}"
        yield Measured(wide, words, standing.line, (standing,))
