"""How a check is declared: one function, and beside it all that is the same each time."""

from collections.abc import Callable, Hashable, Iterable, Sequence

from attrs import field, frozen

from casewright.compiler.check.site import Site, Standing
from casewright.compiler.examples import Mend, mended
from casewright.lang.findings import Edit, Figure, Label, Severity
from casewright.lang.source import Origin


@frozen
class Report:
    """What a check has found in one place, before it is bound to lines.

    `origin` is the place at fault. `about` are the placed things it is about: a fault inside a
    unit is told once for all that are equal, and `origin` may then lie in the unit's own text. The
    headline stands alone. `severity` goes over that of the check. `among` is the report of only
    some of what this one is `about`, where it counts or compares them: the text may accept the
    others. `and_of` are other things without which there were no fault: it may be accepted on
    their lines as well. Reports that are `gathered` under one key are one finding, but for those
    that the text accepts.
    """

    headline: str
    origin: Origin | None
    about: tuple[Standing, ...] = ()
    figures: tuple[Figure, ...] = ()
    labels: tuple[Label, ...] = ()
    help: str = ""
    edits: tuple[Edit, ...] = ()
    severity: Severity | None = None
    among: "Callable[[tuple[Standing, ...]], Report] | None" = field(
        default=None, eq=False, repr=False
    )
    and_of: tuple[Standing, ...] = ()
    gathered: "Gathered | None" = field(default=None, eq=False, repr=False)


@frozen
class Gathered:
    """What gathers reports of one cause: those of an equal `key`, and how one report is made of
    them."""

    key: Hashable
    tell: Callable[[Sequence[Report]], Report] = field(eq=False, repr=False)


Finder = Callable[[Site], Iterable[Report]]


@frozen
class Check:
    """A check. `doc` says what it finds, `why` what would come of it, `mend` how it is mended in
    most cases, `source` what it rests on. `bad` is a small kitchen that has the finding and no
    other, `good` the same one mended; both stand over the standard library. One `of_outlines` reads
    only where things stand and how large they are, so that it can judge a unit that is broken."""

    slug: str
    severity: Severity
    doc: str
    why: str
    mend: str
    source: str
    bad: str
    good: str
    find: Finder = field(eq=False, repr=False)
    of_outlines: bool = False


def check(
    slug: str,
    severity: Severity,
    *,
    doc: str,
    why: str,
    mend: str,
    source: str,
    bad: str,
    good: Mend,
    of_outlines: bool = False,
) -> Callable[[Finder], Check]:
    """Declares the function below it as a check."""

    def declared(find: Finder) -> Check:
        example = mended(bad, good)
        return Check(slug, severity, doc, why, mend, source, bad, example, find, of_outlines)

    return declared
