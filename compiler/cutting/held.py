"""Plans that were searched for long and are kept beside the kitchen: an input like any other, used
only where the check passes on one for exactly the pieces that are asked for now."""

from collections.abc import Iterable, Iterator

from attrs import frozen

from casewright.compiler.cutting.board_files import BOARDS
from casewright.compiler.cutting.plan_files import HeldPlan
from casewright.compiler.plan.certificate import request_mark
from casewright.compiler.plan.plan import Planned
from casewright.compiler.plan.request import Request
from casewright.compiler.plan.verify import verify
from casewright.lang.findings import Finding, Severity


@frozen
class Taken:
    """A kept plan that may be used, or what keeps it from that."""

    planned: Planned | None = None
    findings: tuple[Finding, ...] = ()


def take_held(request: Request, title: str, known: HeldPlan | None) -> Taken:
    """The kept plan of a material for its list; nothing where none was kept."""
    if known is None:
        return Taken()
    if known.mark != request_mark(request):
        return Taken(
            findings=(
                Finding(
                    "hard-plan-of-other-pieces",
                    Severity.ADVICE,
                    f"the kept plan of {title} is for other pieces, and isn't used",
                    None,
                    help="build with --plan hard to search for a new one",
                ),
            )
        )
    verdict = verify(request, known.plan, known.certificate)
    if verdict.sound:
        return Taken(Planned(request, known.plan, known.certificate, verdict))
    return Taken(
        findings=(
            Finding(
                "hard-plan-unsound",
                Severity.WARNING,
                f"the kept plan of {title} did not pass its check, and isn't used",
                None,
                help=f"{verdict.problems[0].message}; build with --plan hard to search anew",
            ),
        )
    )


def of_nothing(names: Iterable[str], materials: Iterable[str]) -> Iterator[Finding]:
    """That plans are kept for what isn't a material of the job: `names` are those of the plans."""
    known = [each for name in materials for each in (name, f"{BOARDS}{name}")]
    for name in sorted(names):
        stem, _, number = name.rpartition("_")
        if name in known or (stem in known and number.isdigit()):
            continue
        yield Finding(
            "hard-plan-of-nothing",
            Severity.ADVICE,
            f"a plan is kept for {name}, which nothing is made of here; it isn't used",
            None,
            help="build with --plan hard to keep plans of what there is now",
        )
