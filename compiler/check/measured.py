"""How a quantity is declared that limits of published sources may be put on.

A quantity is one function, from the site to what it measures there, with its declaration beside
it; what a limit says of it is one check. Which limits there are is text (`rule_pack`), on only
where a job names it.
"""

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction

from attrs import field, frozen

from casewright.compiler.check.contradictions import contradicted
from casewright.compiler.check.declare import Check, Report
from casewright.compiler.check.site import Site, Standing, figure
from casewright.compiler.examples import Mend, mended
from casewright.compiler.model import Feature
from casewright.compiler.shop.yardstick import Kind, Limit, Pack
from casewright.lang.findings import Figure, Label, Severity
from casewright.lang.measure import Measure
from casewright.lang.source import Span

DECIDE = "The local authority and the licensed trades decide."
"""What every report of a rule pack ends with."""

BASIS = {
    "recommended": "recommended",
    "code": "code text",
    "access": "standard of access",
    "practice": "common practice",
}

LOW = "base_unit"
LEDGE = Fraction(9)
"""What is shallower carries no counter to set things down on, inches: a panel, a plinth (common
practice)."""


@frozen(eq=False)
class Measured:
    """A quantity as found in one place: its value, the line it is blamed on, what it is about."""

    value: Fraction
    words: str
    span: Span | None
    about: tuple[Standing, ...] = ()


Measuring = Callable[[Site], Iterable[Measured]]


@frozen
class Quantity:
    """A quantity by its word, its kind, and the check that holds it against limits."""

    word: str
    kind: Kind
    check: Check
    measure: Measuring = field(eq=False, repr=False)


def _report(
    site: Site, quantity: str, kind: Kind, found: Measured, pack: Pack, limit: Limit
) -> Report | None:
    """A report where a limit is missed."""
    bound, word = limit.least, "least"
    short = bound.value - found.value if bound is not None else Fraction(0)
    if short <= 0:
        bound, word = limit.most, "most"
        short = found.value - bound.value if bound is not None else Fraction(0)
    if bound is None or short <= 0:
        return None
    source = ", ".join(filter(None, (pack.title, pack.edition, limit.section)))
    memory = "; from memory" if limit.from_memory else ""
    said = limit.words or quantity.replace("_", " ")
    shown = site.say(found.value, kind.dimension)
    limited = site.say(bound.value, kind.dimension)
    return Report(
        f"{found.words}: {shown}; {limited} is the {word} ({BASIS[limit.basis]})",
        found.span,
        found.about,
        (
            Figure("measured", Measure(found.value, kind.dimension), found.span),
            figure(f"the {word}", bound),
            Figure(
                "short" if word == "least" else "over", Measure(short, kind.dimension), ruled=True
            ),
        ),
        labels=(Label(limit.span, said),) if limit.span is not None else (),
        help=f"{source}{memory}. {DECIDE}",
        severity=Severity(limit.severity),
    )


def quantity(
    word: str, kind: Kind, slug: str, *, doc: str, why: str, bad: str, good: Mend
) -> Callable[[Measuring], Quantity]:
    """Declares the function below it as a quantity that limits may be put on."""

    def declared(measure: Measuring) -> Quantity:
        def find(site: Site) -> Iterator[Report]:
            limits = [
                (pack, limit)
                for pack in site.yardstick.packs
                for limit in pack.limits
                if limit.quantity == word and word not in site.once(contradicted)
            ]
            for found in measure(site) if limits else ():
                for pack, limit in limits:
                    report = _report(site, word, kind, found, pack, limit)
                    if report is not None:
                        yield report

        check = Check(
            slug,
            Severity.ADVICE,
            doc,
            why,
            "See the clause that the report names; the rule pack that says it is text.",
            "the rule packs that name it, each with title, edition, section and basis",
            _trial(bad),
            _trial(mended(bad, good)),
            find,
        )
        return Quantity(word, kind, check, measure)

    return declared


def _trial(text: str) -> str:
    """An example, with the job that holds itself to the pack it declares."""
    if not text:
        return ""
    job = """
    use checks_shop
    job Boathouse {
      built shop
      rules trial
    }
"""
    return job + text.removeprefix("\n")


# -- what lies beside what ------------------------------------------------------------------------


def serving(site: Site, role: str) -> Iterator[Standing]:
    return (standing for standing in site.standings if role in standing.stands.serves)


def main_sink(site: Site) -> Standing | None:
    """The widest sink, of equal ones the first; the others are second ones."""
    sinks = list(serving(site, "sink"))
    return max(sinks, key=lambda each: each.placed.width.value) if sinks else None


def carries_counter(standing: Standing) -> bool:
    """Whether a counter runs over it on which things may be set down."""
    busy = {"sink", "cooking", "cold"} & set(standing.stands.serves)
    if busy or (standing.placed.kind == "unit" and standing.depth < LEDGE):
        return False
    return (
        standing.role == LOW
        or standing.placed.kind == "filler"
        or ("dishes" in standing.stands.serves)
    )


def landings(site: Site, standing: Standing) -> tuple[Fraction, Fraction]:
    """Free counter to the left and right of a thing, from its own edges."""
    row = next(row for run, row in site.rows if run is standing.run)
    index = row.index(standing)
    found = []
    for beside in (reversed(row[:index]), iter(row[index + 1 :])):
        wide = Fraction(0)
        for other in beside:
            if not carries_counter(other):
                break
            wide += other.placed.width.value
        found.append(wide)
    return found[0], found[1]


def over(site: Site, standing: Standing) -> Iterator[Standing]:
    """What hangs over a thing on its wall."""
    for other in site.on_wall.get(standing.run.wall, ()):
        if other.placed.kind not in ("unit", "appliance") or other.low < standing.high:
            continue
        if other.left < standing.right and standing.left < other.right:
            yield other


def surface(site: Site, standing: Standing) -> Fraction:
    """The height of what is cooked or washed on: the counter's, or the appliance's own."""
    counter = site.job.room.counter.value
    return max(counter, standing.high) if standing.unit is None else (counter or standing.high)


def stretches(site: Site) -> Iterator[tuple[str, Fraction, Fraction, tuple[Standing, ...]]]:
    """Counter spaces: stretches of a wall, parted by ranges, sinks and refrigerators."""
    for name, standings in site.on_wall.items():
        low = [each for each in standings if each.low == 0 and each.placed.kind != "space"]
        group: list[Standing] = []
        for standing in [*low, None]:
            joins = (
                standing is not None
                and carries_counter(standing)
                and (not group or group[-1].right == standing.left)
            )
            if not joins and group:
                yield name, group[0].left, group[-1].right, tuple(group)
                group = []
            if standing is not None and carries_counter(standing):
                group.append(standing)


def outlets(site: Site, wall: str) -> list[Feature]:
    """Outlets above the counter of a wall."""
    counter = site.job.room.counter.value
    return [
        feature
        for feature in site.features.get(wall, ())
        if feature.kind == "outlet" and feature.up.value >= counter
    ]
