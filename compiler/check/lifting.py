"""Lifting: what weighs more than those who carry it in and hang it should lift."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.hanging import HUNG, weight_of, weight_of_parts
from casewright.compiler.check.site import Site, Standing, inside, weight
from casewright.compiler.model import Unit
from casewright.lang.findings import Figure, Severity
from casewright.lang.measure import Dimension, Measure

LOAD_CONSTANT = Fraction(51)
"""What NIOSH's equation starts from, in pounds (94-110, rev. 2021)."""

HANGING = ("lift_reach", "lift_from", "lift_travel", "lift_grip")
CARRYING = ("carry_reach", "carry_from", "carry_travel", "carry_grip")
"""The allowances of a posture, in the order in which the equation takes them."""

COMES_OUT = ("front", "pull", "shelf")
"""What is taken off or out of a unit before it is carried, beside its drawers."""


def lifting_limit(reach: Fraction, start: Fraction, travel: Fraction, grip: Fraction) -> Fraction:
    """NIOSH's recommended weight limit in pounds, for a straight lift now and then: `reach` of the
    hands from the ankles, height of the hands at the `start`, how far up it goes (all inches), and
    the factor of the grip (NIOSH 94-110, rev. 2021: LC x HM x VM x DM x CM)."""
    horizontal = min(Fraction(1), Fraction(10) / max(reach, Fraction(10)))
    vertical = 1 - Fraction(75, 10_000) * abs(start - 30)
    distance = min(Fraction(1), Fraction(82, 100) + Fraction(18, 10) / max(travel, Fraction(10)))
    return LOAD_CONSTANT * horizontal * vertical * distance * grip


@check(
    "heavy-to-lift",
    Severity.ADVICE,
    doc="A unit that is lifted to the wall weighs more than two people should lift.",
    why="Backs, and the unit.",
    mend="Hang it without its doors and shelves, prop it, or fetch a lift.",
    source=(
        "NIOSH 94-110 (rev. 2021): 51 lb x reach, height, travel and grip; the posture is the "
        "shop's allowance, two people are taken to lift twice as much (common practice)"
    ),
    bad="""
    use plain_room
    run uppers on north from left length 42 {
      filler 2
      U1: wall_unit share  high 36  hung left  hinges 3
    }
    """,
    good={"length 42": "length 18", "36  hung left  hinges 3": "24  hung left"},
)
def heavy_to_lift(site: Site) -> Iterator[Report]:
    one = _one_lifts(site, HANGING)
    heavy: list[tuple[Fraction, Standing]] = []
    for unit, standings in site.units if one is not None else ():
        pounds = weight_of(site, unit)
        if one is not None and unit.role == HUNG and pounds is not None and pounds > 2 * one:
            heavy.extend((pounds, each) for each in standings)
    if heavy and one is not None:
        yield _too_heavy_to_lift(site, one, heavy)


def _too_heavy_to_lift(
    site: Site, one: Fraction, heavy: Sequence[tuple[Fraction, Standing]]
) -> Report:
    heaviest, where = max(heavy, key=_pounds)
    about = tuple(standing for _, standing in heavy)
    names = f"{len(about)} units on the wall weigh" if len(about) > 1 else f"{where.name} weighs"
    return Report(
        f"{names} more than the {site.say(2 * one, Dimension.WEIGHT)} that two people should lift "
        "there",
        None,
        about,
        (weight(f"{where.name}, without hardware", heaviest), *_by_how_many(heaviest, one)),
        help="hang them without their doors and shelves, prop them, or fetch a lift",
        among=lambda some: _too_heavy_to_lift(
            site, one, [each for each in heavy if each[1] in some]
        ),
    )


def _one_lifts(site: Site, posture: Sequence[str]) -> Fraction | None:
    """What one person should lift, by the allowances of a posture; None where one isn't said."""
    found = [site.allowance(word) for word in posture]
    known = [each.value for each in found if each is not None]
    return lifting_limit(*known) if len(known) == len(found) else None


def _by_how_many(pounds: Fraction, one: Fraction) -> tuple[Figure, ...]:
    people = Measure(Fraction(-(-pounds // one)), Dimension.COUNT)
    return (weight("one should lift", one), Figure("people", people))


def _carried(options: str) -> str:
    """An example: a tall unit to carry in, by a posture that the shop says."""
    return f"""
    use checks_shop
    use plain_room
    job Boathouse {{
      built shop
      allowances ours
    }}
    allowances ours from usual {{
      carry_reach  12
      carry_from   20
      carry_travel 10
      carry_grip   0.95
    }}
    run tall on north from left length 28 {{
      space 2
      T1: tall_unit 24  hung left  hinges 5  {options}
      space 2
    }}
    """


@check(
    "heavy-to-carry",
    Severity.ADVICE,
    doc="A unit that stands on the floor weighs more than two people should carry, its doors, "
    "drawers and shelves taken out. One report tells of all, and which ones want two.",
    why="It is found out on the stairs.",
    mend="Have more people or a dolly there, or build it in two.",
    source=(
        "NIOSH 94-110 (rev. 2021): 51 lb x reach, height, travel and grip; the posture is the "
        "shop's allowance, two people are taken to lift twice as much (common practice)"
    ),
    bad=_carried("depth 23"),
    good=_carried("depth 12"),
)
def heavy_to_carry(site: Site) -> Iterator[Report]:
    one = _one_lifts(site, CARRYING)
    if one is None:
        return
    weighed = [
        (pounds, standing)
        for unit, standings in site.units
        if unit.role not in (HUNG, "filler") and (pounds := _as_carried(site, unit)) is not None
        for standing in standings
    ]
    heavy = sorted((each for each in weighed if each[0] > 2 * one), key=_pounds, reverse=True)
    if heavy:
        two = [standing for pounds, standing in weighed if one < pounds <= 2 * one]
        yield _too_heavy_to_carry(site, one, heavy, _and_two(two))


def _too_heavy_to_carry(
    site: Site, one: Fraction, heavy: Sequence[tuple[Fraction, Standing]], others: str
) -> Report:
    heaviest, where = heavy[0]
    about = tuple(standing for _, standing in heavy)
    names = f"{len(about)} units weigh" if len(about) > 1 else f"{where.name} weighs"
    return Report(
        f"{names} more than the {site.say(2 * one, Dimension.WEIGHT)} that two people should carry",
        None,
        about,
        (weight(f"{where.name}, without what comes out", heaviest), *_by_how_many(heaviest, one)),
        help="have more people or a dolly there" + others,
        among=lambda some: _too_heavy_to_carry(
            site, one, [each for each in heavy if each[1] in some], others
        ),
    )


def _pounds(weighed: tuple[Fraction, Standing]) -> Fraction:
    return weighed[0]


def _and_two(two: Sequence[Standing]) -> str:
    names = " ".join(dict.fromkeys(each.name for each in two))
    return f"; two people for {names}" if names else ""


def _as_carried(site: Site, unit: Unit) -> Fraction | None:
    """What a unit weighs without what is taken out of it to carry it, in pounds."""
    trays = [each.path for each in unit.assemblies if each.role == "tray"]
    return weight_of_parts(
        site,
        (
            part
            for part in unit.parts
            if part.role not in COMES_OUT and not any(inside(part.path, each) for each in trays)
        ),
    )
