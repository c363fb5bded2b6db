"""Doors and what is screwed to them: the overlay a hinge is made for, the hand a door is fitted
for, and whether a pull stands on what carries it."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from attrs import frozen

from casewright.compiler.check.boring import into_another
from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.mends import for_each, named_instead
from casewright.compiler.check.site import Site, Standing, inside, length, parts, words_of
from casewright.compiler.model import Assembly, Axis, Hole, Opening, Part, Range, Unit
from casewright.compiler.shop.yardstick import Goods
from casewright.lang.findings import Edit, Severity

Edge = Literal["left", "right", "top", "bottom"]

EDGES: dict[str, tuple[Axis, bool]] = {
    "left": ("across", True),
    "right": ("across", False),
    "bottom": ("up", True),
    "top": ("up", False),
}
"""By the edge a door turns about: along which axis it lies, and whether at its lower end."""


@frozen(eq=False)
class Door:
    """A front that turns about one of its edges: the boards it is made of, its hinges and pulls."""

    front: Part | Assembly
    axis: Axis
    low: bool
    leaves: tuple[Part, ...]
    hinges: tuple[Part, ...]
    pulls: tuple[Part, ...]

    def is_far(self, at: Fraction) -> bool:
        """Whether a place along its axis lies in the half away from the edge it turns about."""
        begin, end = self.front.extents.box.along(self.axis)
        middle = (begin + end) / 2
        return at > middle if self.low else at < middle


def before_each_mouth(site: Site) -> Iterator[tuple[Unit, tuple[Standing, ...]]]:
    """Every distinct unit with its placings; those in corners also as seen before their other
    mouths."""
    yield from site.units
    for standing in (*site.returns, *site.slanted):
        if standing.unit is not None:
            yield standing.unit, (standing,)


def doors(unit: Unit) -> tuple[Door, ...]:
    """The doors of a unit that look to its front."""
    found = []
    moving: tuple[Part | Assembly, ...] = (*unit.parts, *unit.assemblies)
    for front in moving:
        motion = front.motion
        if motion is None or motion.kind != "about" or motion.edge not in EDGES:
            continue
        if front.faces != "front" or front.slant is not None:
            continue
        axis, low = EDGES[motion.edge]
        own = [part for part in unit.parts if front.opening and part.opening == front.opening]
        found.append(
            Door(
                front,
                axis,
                low,
                _boards(unit, front),
                tuple(part for part in own if part.role == "hinge"),
                tuple(part for part in own if part.role == "pull"),
            )
        )
    return tuple(found)


def _boards(unit: Unit, front: Part | Assembly) -> tuple[Part, ...]:
    if isinstance(front, Part):
        return (front,)
    return tuple(part for part in unit.parts if inside(part.path, front.path))


def _middle(extent: Range) -> Fraction:
    return (extent[0] + extent[1]) / 2


@check(
    "hinge-of-other-overlay",
    Severity.ERROR,
    doc="A door laps what it hangs on by more or by less than its hinges are made for.",
    why="Doors and hinges are ordered together: the door stands off its line, or doesn't close.",
    mend="Name a hinge that is made for the overlay, or change the overlay or the gap.",
    source="arithmetic: the door's edge against its opening's; what a hinge takes is its own data",
    bad="""
    use plain_room
    hinge inset_hinge { two_to 40  laps_least 0 - 1/8  laps_most 0 }
    hinge full_hinge  { two_to 40  laps_least 1/2  laps_most 3/4 }
    run sink_wall on north from left length 26 {
      filler 3
      S1: door_base 20  hung left  hinge_of inset_hinge
      filler 3
    }
    """,
    good={"hinge_of inset_hinge": "hinge_of full_hinge"},
)
def hinge_of_other_overlay(site: Site) -> Iterator[Report]:
    for unit, standings in before_each_mouth(site):
        openings = {each.address: each for each in unit.openings if each.faces == "front"}
        told: set[tuple[str, Fraction]] = set()
        for door in doors(unit):
            opening = openings.get(door.front.opening)
            goods = site.goods("hinge", door.hinges[0].material.name) if door.hinges else None
            if goods is None or opening is None:
                continue
            lap = _lap(door, opening)
            if _takes(goods, lap) or (goods.name, lap) in told:
                continue
            told.add((goods.name, lap))
            yield Report(
                f"a door {_lapping(site, lap)}; {goods.title} is made for one that "
                f"{_made_for(site, goods)}",
                door.front.origin,
                standings,
                (
                    length("the door laps its opening", lap),
                    *(
                        length(f"{goods.title}, {words}", each.value)
                        for words, word in (("at least", LEAST), ("at most", MOST))
                        if (each := goods.figures.get(word)) is not None
                    ),
                ),
                help=_others(site, goods, lap),
                edits=_hung_on_another(site, goods, lap, standings),
            )


LEAST, MOST = "laps_least", "laps_most"
"""How far a door laps what it hangs on that a hinge is made for: figures of its own."""


def _lap(door: Door, opening: Opening) -> Fraction:
    """How far a door reaches past its opening at the edge it turns about; less than nothing where
    it stands inside."""
    extent = opening.across if door.axis == "across" else opening.up
    begin, end = door.front.extents.box.along(door.axis)
    return extent.low.value - begin if door.low else end - extent.high.value


def _takes(goods: Goods, lap: Fraction) -> bool:
    least, most = goods.figures.get(LEAST), goods.figures.get(MOST)
    return (least is None or lap >= least.value) and (most is None or lap <= most.value)


def _lapping(site: Site, lap: Fraction) -> str:
    if lap > 0:
        return f"laps what it hangs on by {site.say(lap)}"
    return f"stands {site.say(-lap)} inside its opening" if lap < 0 else "ends at its opening"


def _made_for(site: Site, goods: Goods) -> str:
    least, most = goods.figures.get(LEAST), goods.figures.get(MOST)
    if most is not None and most.value <= 0:
        return "stands inside its opening"
    if least is None:
        return f"laps by {site.say(most.value)} at most" if most is not None else "laps"
    if most is None:
        return f"laps by {site.say(least.value)} at least"
    return f"laps by {site.say(least.value)} to {site.say(most.value)}"


def _others(site: Site, now: Goods, lap: Fraction) -> str:
    names = [goods.name for goods in _alike(site, now, lap)]
    if not names:
        return "change the overlay or the gap: no hinge here takes that"
    return f"name a hinge that is made for it: {' or '.join(names)}"


def _alike(site: Site, now: Goods, lap: Fraction) -> tuple[Goods, ...]:
    """Other hinges of the same make that take a lap and say what they take."""
    return tuple(
        goods
        for (kind, _), goods in sorted(site.yardstick.goods.items())
        if kind == "hinge"
        and {LEAST, MOST} & set(goods.figures)
        and goods.words.get("by") == now.words.get("by")
        and _takes(goods, lap)
    )


def _hung_on_another(
    site: Site, now: Goods, lap: Fraction, standings: tuple[Standing, ...]
) -> tuple[Edit, ...]:
    others = _alike(site, now, lap)
    if len(others) != 1:
        return ()
    return for_each(standings, lambda each: named_instead(each, now.name, others[0].name))


@check(
    "hands-disagree",
    Severity.ERROR,
    doc=(
        "A door turns about one edge and is fitted for the other: its hinges, or the cups bored "
        "for them, lie away from that edge, or its pull lies beside it."
    ),
    why="It is what comes of a frame or a door that was laid out in a mirror: it can't be hung.",
    mend="Give the hinge side in one place, and let hinges, cups and pull follow it.",
    source="geometry: which half of the door each lies in",
    bad="""
    use plain_room
    construction ours from shop {
      for each door {
        hardware knob of pulled  serves pull {
          across 1/2 from face.left + 1
          up     4 from face.top - 6
          deep   1 to face
        }
        join knob to face with pinned
        step knob
      }
    }
    run sink_wall on north from left length 26 {
      filler 3
      S1: door_base 20  hung left  built ours
      filler 3
    }
    """,
    good={"from face.left +": "to face.right -"},
)
def hands_disagree(site: Site) -> Iterator[Report]:
    for unit, standings in before_each_mouth(site):
        for door in doors(unit):
            found = _otherwise(door)
            if found is None:
                continue
            what, part, hole = found
            edge = door.front.motion.edge if door.front.motion is not None else ""
            yield Report(
                f"a door turns about its {edge} edge, and {what}",
                hole.origin if hole is not None else part.origin,
                standings,
                help=f"fit it for a door that turns about its {edge} edge, or hang it otherwise",
            )
            break


def _otherwise(door: Door) -> tuple[str, Part, Hole | None] | None:
    """What of a door is fitted for its other hand, in words, and the part and hole at fault."""
    for hinge in door.hinges:
        if door.is_far(_middle(hinge.box.along(door.axis))):
            return "its hinges lie at the other", hinge, None
    for leaf in door.leaves:
        for hole in leaf.holes:
            if _is_for_hinge(door, leaf, hole) and door.is_far(_at(hole, door.axis)):
                return f"the holes for {hole.use} are bored at the other", leaf, hole
    for pull in door.pulls:
        begin, end = door.front.extents.box.along(door.axis)
        at = _middle(pull.box.along(door.axis))
        # A knob in the middle serves either hand, and a long pull along that edge is what it is.
        if not door.is_far(at) and at != _middle((begin, end)):
            return "its pull lies beside that edge", pull, None
    return None


def _at(hole: Hole, axis: Axis) -> Fraction:
    return hole.at[hole.at_axes.index(axis)].value


def _is_for_hinge(door: Door, leaf: Part, hole: Hole) -> bool:
    """Whether a hole is bored blind into the back of a door, beside one of its hinges."""
    along: Axis = "up" if door.axis == "across" else "across"
    blind = hole.depth.value < leaf.box.size("deep")
    if hole.axis != "deep" or hole.side < 0 or not blind:
        return False
    at = _at(hole, along)
    extents = (hinge.box.along(along) for hinge in door.hinges)
    return any(begin <= at <= end for begin, end in extents)


@check(
    "pull-past-front",
    Severity.WARNING,
    doc="A pull reaches past the front, or past the stile or rail, that it is screwed to.",
    why="Its end hangs over the edge and catches sleeves, or bridges the hollow over a panel.",
    mend="Move it in, or choose a smaller pull or a wider stile.",
    source="geometry: the pull's own outline against the face it stands on",
    bad="""
    use plain_room
    construction ours from shop {
      for each door {
        hardware knob of pulled  serves pull {
          across 1 to face.right + 1/4
          up     4 from face.top - 6
          deep   1 to face
        }
        join knob to face with pinned
        step knob
      }
    }
    run sink_wall on north from left length 26 {
      filler 3
      S1: door_base 20  hung left  built ours
      filler 3
    }
    """,
    good={"face.right +": "face.right -"},
)
def pull_past_front(site: Site) -> Iterator[Report]:
    for unit, standings in before_each_mouth(site):
        pulls = (pull for pull in parts(unit, "pull") if pull.faces == "front")
        found = [past for pull in pulls if (past := _past(unit, pull)) is not None]
        worst = max(found, key=lambda each: each.by, default=None)
        # Where its screws run into a groove besides, that is told, and it is the worse of the two.
        if worst is None or into_another(worst.carrier) is not None:
            continue
        axis, pull, carrier = worst.axis, worst.pull, worst.carrier
        yield Report(
            f"a pull reaches {site.say(worst.by)} past {words_of(carrier)}",
            pull.origin,
            standings,
            (
                length(f"the pull takes, {axis}", pull.box.size(axis)),
                length(f"{words_of(carrier)} is, {axis}", carrier.box.size(axis)),
                length("past it by", worst.by, ruled=True),
            ),
            help=f"move it {site.say(worst.by)} in, or choose a smaller pull"
            if worst.fits
            else "choose a smaller pull, or set it the other way",
        )


@frozen(eq=False)
class Past:
    """A pull that reaches past what carries it: along which axis, by how much, and whether it would
    go on if it were moved."""

    pull: Part
    carrier: Part
    axis: Axis
    by: Fraction
    fits: bool


PLAN: tuple[Axis, Axis] = ("across", "up")


def _past(unit: Unit, pull: Part) -> Past | None:
    """How far a pull reaches past what it stands on; none where boards that lie flush carry all of
    it, or nothing is behind it."""
    behind = [
        part
        for part in unit.parts
        if part.opening == pull.opening
        and not part.hardware
        and (part.faces, part.slant) == (pull.faces, pull.slant)
        and part.box.deep[0] == pull.box.deep[1]
        and _shared(part, pull) > 0
    ]
    carried = sum((_shared(part, pull) for part in behind), Fraction(0))
    if not behind or carried == pull.box.size("across") * pull.box.size("up"):
        return None
    carrier = max(behind, key=lambda part: _shared(part, pull))
    found = []
    for axis in PLAN:
        begin, end = carrier.box.along(axis)
        low, high = pull.box.along(axis)
        fits = high - low <= end - begin
        found += [
            Past(pull, carrier, axis, begin - low, fits),
            Past(pull, carrier, axis, high - end, fits),
        ]
    return max(found, key=lambda each: each.by)


def _shared(part: Part, pull: Part) -> Fraction:
    """What two share of one plane."""
    area = Fraction(1)
    for axis in PLAN:
        (low, high), (begin, end) = part.box.along(axis), pull.box.along(axis)
        area *= max(Fraction(0), min(high, end) - max(low, begin))
    return area
