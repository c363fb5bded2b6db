"""Why fewer sheets can't do, in a sentence, and what that holds for."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Final

from casewright.compiler.plan.plan import Planned
from casewright.compiler.plan.request import Request
from casewright.lang.measure import INCH, System, length
from casewright.lang.printing import Printing, printed

_WAYS: Final[Mapping[str, str]] = {
    "dual-feasible": (
        "Weighed by how they can share a sheet, the pieces weigh more than fewer sheets can carry."
    ),
    "stages": (
        "Give each size the price in the certificate: no sheet that is ripped, crosscut, ripped "
        "again and trimmed is worth more than the dearest named there, and the pieces are worth "
        "more than fewer sheets."
    ),
    "prices": (
        "Give each size the price in the certificate: no sheet, however it is cut through, is "
        "worth more than the dearest named there, and the pieces are worth more than fewer sheets."
    ),
}


def why_words(request: Request, planned: Planned) -> str:
    """The bound of the certificate in words; where plan and bound differ, what it does show."""
    kind = next(
        (
            line.partition(" ")[2]
            for line in planned.certificate.splitlines()
            if line.startswith("bound ")
        ),
        "",
    )
    if kind != "area" or len(request.stock) != 1:
        if planned.verdict.staged:
            kind = "stages"
        return _WAYS.get(kind, "The pieces' own area asks for so many sheets.")
    kerf = request.saw.kerf
    pieces = sum(piece.quantity for piece in request.pieces)
    if pieces == 1:
        return "There is one piece."
    covered = sum(
        ((piece.length + kerf) * (piece.width + kerf) * piece.quantity for piece in request.pieces),
        Fraction(0),
    )
    long, wide = request.usable[0]
    fewer = int(planned.verdict.least) - 1
    if fewer < 1:
        return f"The {pieces} pieces need a sheet."
    sheets = (
        "1 sheet within its trim gives" if fewer == 1 else f"{fewer} sheets within their trim give"
    )
    unit = "square inches" if request.measure == "in" else "square metres"
    return (
        f"The {pieces} pieces, each with its kerf, cover {_area(covered, request)} {unit}; "
        f"{sheets} {_area(fewer * (long + kerf) * (wide + kerf), request)}."
    )


def _area(value: Fraction, request: Request) -> str:
    if request.measure == "in":
        return f"{round(value):,}"
    hundredths = round(value / 10_000)
    return f"{hundredths // 100}.{hundredths % 100:02d}"


def scope_words(request: Request, *, staged: bool = False) -> str:
    """What the count holds for: through cuts (`staged`: in three stages), this saw, this grain."""
    metric = request.measure == "mm"
    # The steps of the planner's grid: no figure of the scope is rounded.
    printing = (
        Printing(System.MILLIMETRES, Fraction(1, 100) / INCH)
        if metric
        else Printing(System.INCHES, Fraction(1, 64))
    )

    def size(value: Fraction) -> str:
        return printed(length(value / INCH if metric else value), printing).bare

    trim = request.saw.trim
    edges = {trim.fence, trim.far, trim.head, trim.foot}
    trimmed = (
        f"trim {size(trim.fence)}"
        if len(edges) == 1
        else f"trim {size(trim.fence)} at the fence, {size(trim.far)} at the far edge, "
        f"{size(trim.head)} and {size(trim.foot)} at the ends"
    )
    turning = {piece.turn for piece in request.pieces}
    grain = (
        "no grain"
        if turning == {True}
        else "the grain lengthwise"
        if turning == {False}
        else "the grain as each piece has it"
    )
    cuts = "through cuts in three stages and a trimming cut" if staged else "through cuts"
    return f"Holds for {cuts}, kerf {size(request.saw.kerf)}, {trimmed}, {grain}."
