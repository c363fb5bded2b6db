"""Limits of rule packs that can't all be kept."""

from collections.abc import Iterator, Mapping

from attrs import frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import Site
from casewright.compiler.shop.yardstick import Limit, Pack
from casewright.lang.cells import Quantity as Value
from casewright.lang.findings import Figure, Severity


@frozen(eq=False)
class Contradiction:
    """Two limits of one quantity, of which the least is more than the most."""

    least: tuple[Pack, Limit]
    most: tuple[Pack, Limit]
    at_least: Value
    at_most: Value


def contradicted(site: Site) -> Mapping[str, Contradiction]:
    """By its word, each quantity that no size would satisfy."""
    found: dict[str, Contradiction] = {}
    every = [(pack, limit) for pack in site.yardstick.packs for limit in pack.limits]
    for word in dict.fromkeys(limit.quantity for _, limit in every):
        of = [each for each in every if each[1].quantity == word]
        least = [(pack, limit, limit.least) for pack, limit in of if limit.least is not None]
        most = [(pack, limit, limit.most) for pack, limit in of if limit.most is not None]
        if not least or not most:
            continue
        one, low, at_least = max(least, key=lambda each: each[2].value)
        other, high, at_most = min(most, key=lambda each: each[2].value)
        if at_least.value > at_most.value:
            found[word] = Contradiction((one, low), (other, high), at_least, at_most)
    return found


@check(
    "rules-contradict",
    Severity.ERROR,
    doc="Two limits can't both be kept: one wants more of something than the other allows.",
    why="Whatever is built breaks one of them, so neither says anything.",
    mend="Name one of the two packs, or a pack of your own from one of them.",
    source="arithmetic",
    bad="""
    use checks_shop
    job Boathouse {
      built shop
      rules ours theirs
    }
    use plain_room
    rule_pack ours   { limit counter_height least 37 }
    rule_pack theirs { limit counter_height most 34 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good={"least 37": "least 34", "most 34": "most 37"},
)
def rules_contradict(site: Site) -> Iterator[Report]:
    for word, found in site.once(contradicted).items():
        (one, least), (other, most) = found.least, found.most
        later = max(one, other, key=site.yardstick.packs.index)
        names = one.name if one is other else f"{one.name} and {other.name}"
        low, high = found.at_least, found.at_most
        yield Report(
            f"{names} can't be kept: {word.replace('_', ' ')} is to be "
            f"{site.say(low.value, low.dimension)} at least and "
            f"{site.say(high.value, high.dimension)} at most",
            most.span if one is other else later.asked,
            figures=(
                Figure("at least", low.measure, least.span),
                Figure("at most", high.measure, most.span),
            ),
            help="name one of them, or a pack of your own in which they agree",
        )
