"""What the shop says is sawn already: it isn't planned again."""

from collections.abc import Mapping, Sequence

from casewright.compiler.model import Run
from casewright.compiler.text.resolve import Program
from casewright.lang.findings import Finding, error
from casewright.lang.shape import bare_word, span_of, suggestion
from casewright.lang.tree import Expression, Name


def read_sawn(program: Program, runs: Sequence[Run]) -> tuple[frozenset[str], tuple[Finding, ...]]:
    """The addresses of all parts that texts list as sawn: by their own address, or all of a
    placed thing's or assembly's; `of` keeps those of one sheet, `but` leaves some out."""
    findings: list[Finding] = []
    lines = [line for text in program.texts for line in text.statements if line.rule == "sawn"]
    materials = _sheet_parts(runs) if lines else {}
    found: set[str] = set()
    for line in lines:
        named = _all_of(line.values, materials, findings)
        of = line.clause("of")
        if of is not None and of.values:
            sheet = bare_word(of.values[0])
            if program.find("sheet", sheet) is None:
                findings.append(_unknown_sheet(program, of.values[0], sheet))
                continue
            named = {address for address in named if materials[address] == sheet}
        but = line.clause("but")
        found |= named - (_all_of(but.values, materials, findings) if but is not None else set())
    return frozenset(found), tuple(findings)


def _sheet_parts(runs: Sequence[Run]) -> Mapping[str, str]:
    """The sheet of every part that is sawn from one, by address."""
    return {
        f"{placed.address}.{part.address}": part.material.name
        for run in runs
        for placed in run.placed
        for part in (placed.unit.parts if placed.unit is not None else ())
        if part.material.kind == "sheet" and not part.hardware
    }


def _all_of(
    values: Sequence[Expression], materials: Mapping[str, str], findings: list[Finding]
) -> set[str]:
    found: set[str] = set()
    for value in values:
        words = value.words if isinstance(value, Name) else ()
        address = ".".join(words)
        parts = {each for each in materials if each == address or each.startswith(f"{address}.")}
        if not parts or not address:
            findings.append(
                error(
                    "sawn-unknown",
                    f"nothing that is sawn from a sheet has the address {address}"
                    if address
                    else "what is sawn is named by its address, as S1.left_side",
                    span_of(value.origin),
                    help=suggestion(address, materials),
                )
            )
        found |= parts
    return found


def _unknown_sheet(program: Program, value: Expression, name: str) -> Finding:
    return error(
        "unknown-material",
        f"no sheet is called {name}",
        span_of(value.origin),
        help=suggestion(name, program.names("sheet")),
    )
