"""Whether everything that was chosen is read: options of a unit and of its openings."""

from collections.abc import Iterable, Iterator

from casewright.compiler.blame import Blame, finding_at
from casewright.compiler.construct.chosen import option_of
from casewright.compiler.construct.faults import Fault
from casewright.compiler.construct.holder import Holder
from casewright.compiler.construct.leaf import Leaf
from casewright.compiler.construct.openings import Openings
from casewright.compiler.text.resolve import Declaration, Program
from casewright.lang.cells import Poisoned
from casewright.lang.findings import Severity
from casewright.lang.shape import Clause, Statement, bare_word, suggestion


def unread(
    root: Holder, openings: Iterable[Openings], chosen: frozenset[str], shared: frozenset[str]
) -> Iterator[Blame]:
    """Options that were `chosen` and that nothing has, or that can't be what they were chosen to
    be; these are read here, for it may be that no formula reads them. What is `shared` was chosen
    for other ways to build too, so that nothing here needs to have it."""
    openings = tuple(openings)
    for each in openings:
        for leaf in each.leaves:
            yield from _of_opening(leaf)
    here = set(root.index) | _offered(root) | _of_fillings(openings)
    strange = any(word not in here for word in root.settings)
    anywhere = _anywhere(root.build.program) if strange else set()
    for word, (clause, _) in root.settings.items():
        if word not in chosen:
            continue
        if word in here:
            yield from _read(root, word)
            continue
        if word in anywhere and word in shared:
            continue
        if word in anywhere:
            yield finding_at(
                clause.origin,
                "option-unread",
                f"nothing here reads {word}; another way to build does",
                help="leave it out, unless you mean to build otherwise",
                severity=Severity.ADVICE,
            )
        else:
            yield finding_at(
                clause.origin,
                "unknown-option",
                f"nothing in {root.name} has an option {word}",
                help=suggestion(word, here | anywhere),
            )


def _read(root: Holder, word: str) -> Iterator[Blame]:
    declared = root.index.get(word, ())
    if not declared or declared[0].statement.rule != "option":
        return
    try:
        option_of(root, declared[0].statement, None)
    except Fault as found:
        yield found.blame
    except Poisoned:
        return


def never_read(
    root: Holder, openings: Iterable[Openings], said: Iterable[Clause]
) -> Iterator[Blame]:
    """Options `said` of this unit that no formula of what it is made of has read, nor will of what
    is made for a stretch of units that agree in them."""
    declared = {
        word: lines[0].statement.head.origin
        for word, lines in root.index.items()
        if lines[0].statement.rule == "option"
    }
    idle = (set(declared) | _offered(root)) - root.build.options_read - _of_fillings(openings)
    idle -= root.build.cell("spanned", "spanned", None, lambda: _spanned(root.build.program))
    for clause in said:
        if clause.word in idle:
            known = clause.word in declared
            yield finding_at(
                clause.origin,
                "option-unread",
                f"nothing that is made in this {root.name.replace('_', ' ')} reads {clause.word}",
                labels=((declared[clause.word], "it is declared here"),) if known else (),
                help="leave it out, or choose what would have it read",
                severity=Severity.ADVICE,
            )


def _offered(root: Holder) -> set[str]:
    """Options of its assemblies that the unit offers as its own."""
    return {
        bare_word(value)
        for statement in root.body
        if statement.rule == "offers"
        for value in statement.values
    }


def _spanned(program: Program) -> set[str]:
    """Options that what stands under several units reads of them."""
    units = (program.find("unit", name) for name in program.names("unit"))
    clauses = (each.statement.clause("spans") for each in units if each is not None)
    return {bare_word(value) for clause in clauses if clause for value in clause.values}


def _of_fillings(openings: Iterable[Openings]) -> set[str]:
    fillings = {leaf.filling.name: leaf.filling for each in openings for leaf in each.leaves}
    return {word for filling in fillings.values() for word in options_of(filling)}


def _of_opening(leaf: Leaf) -> Iterator[Blame]:
    known = options_of(leaf.filling)
    for clause in leaf.statement.options:
        if clause.word not in known:
            yield finding_at(
                clause.origin,
                "unknown-option",
                f"{leaf.filling.name} has no option {clause.word}",
                help=suggestion(clause.word, known),
            )


def options_of(declaration: Declaration) -> set[str]:
    """Names of the options a declared thing has, wherever in its text they stand."""
    return {
        statement.name for statement in _lines(declaration.statement) if statement.rule == "option"
    }


def _lines(statement: Statement) -> Iterator[Statement]:
    for line in statement.body:
        yield line
        if line.rule in ("when", "for"):
            yield from _lines(line)


def _anywhere(program: Program) -> set[str]:
    """Options of every construction and pattern: what another way to build would read."""
    words: set[str] = set()
    for kind in ("construction", "pattern"):
        for name in program.names(kind):
            declaration = program.find(kind, name)
            if declaration is not None:
                words |= options_of(declaration)
    return words
