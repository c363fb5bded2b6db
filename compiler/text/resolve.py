"""From texts to a program: every declaration by kind and name, with its parents opened again.

`from` reopens one parent: a block of the same kind and name is opened again, a line replaces the
line of the same word, `without NAME` removes; an opening tree is replaced whole. `from A with B`
opens A, and in it B: choices that several ways to build share.
"""

from collections.abc import Mapping

from attrs import evolve, field, frozen

from casewright.compiler.model import EDGES
from casewright.compiler.text.load import Text, Texts
from casewright.lang.findings import Finding, Label, Severity, error
from casewright.lang.measure import System
from casewright.lang.shape import Clause, Statement, bare_word, span_of, suggestion
from casewright.lang.source import Origin, Own, Source, Span
from casewright.lang.tree import Binary, Expression, Group, Not

DECLARED = frozenset(
    (
        "construction",
        "pattern",
        "unit",
        "appliance",
        "filling",
        "sheet",
        "lumber",
        "band",
        "slide",
        "hinge",
        "fitting",
        "fixing",
        "fastener",
        "saw",
        "offcut",
        "lot",
        "linear",
        "setting",
        "coat",
        "rates",
        "offer",
        "allowances",
        "rule_pack",
    )
)
"""Rules whose statements declare something by name, one flat namespace each."""

DATA = ("sheet", "lumber", "band", "slide", "hinge", "fitting", "fixing", "fastener")
"""Kinds of declared things that are data: they have properties and no parts."""

MEASURED = ("sheet",)
"""Kinds of things that come in lots, each with its own thickness."""

INHERITING = ("construction", "pattern", "unit", "rates", "allowances", "rule_pack", *MEASURED)

NOT_INHERITED = ("called",)
"""What a material keeps for itself: two that papers call by one name can't be told apart."""


@frozen
class Declaration:
    """A declared thing, its parents already opened into it. `chain` names it and its parents,
    nearest first. `shared` are the options that were chosen for several ways to build at once
    (`with`): one of them may have nothing that reads them."""

    kind: str
    name: str
    statement: Statement
    chain: tuple[str, ...]
    level: int
    shared: frozenset[str] = frozenset()


@frozen
class Program:
    """Everything declared, and the kitchen's own statements in the order they were read."""

    declarations: Mapping[str, Mapping[str, Declaration]] = field(eq=False)
    jobs: tuple[Statement, ...]
    rooms: tuple[Statement, ...]
    runs: tuple[Statement, ...]
    texts: tuple[Text, ...]
    systems: Mapping[str, System] = field(eq=False)

    def find(self, kind: str, name: str) -> Declaration | None:
        return self.declarations.get(kind, {}).get(name)

    def names(self, kind: str) -> tuple[str, ...]:
        return tuple(self.declarations.get(kind, {}))

    @property
    def sources(self) -> tuple[Source, ...]:
        return tuple(text.source for text in self.texts)

    def system_of(self, origin: Origin | None, own: System) -> System:
        """The measure of bare numbers written at `origin`; `own` for a unit's own text."""
        if isinstance(origin, Own) or origin is None:
            return own
        return self.systems[origin.source.label]


def resolve(texts: Texts) -> tuple[Program, tuple[Finding, ...]]:
    """The program of `texts`; nearer texts go over farther ones, and each shadowing is said."""
    resolver = _Resolver()
    for text in texts.texts:
        for statement in text.statements:
            resolver.declare(statement, text)
    declarations = resolver.inherit()
    program = Program(
        declarations,
        tuple(resolver.kitchen["job"]),
        tuple(resolver.kitchen["room"]),
        tuple(resolver.kitchen["run"]),
        texts.texts,
        {text.source.label: text.system for text in texts.texts},
    )
    return program, tuple(resolver.findings)


class _Resolver:
    def __init__(self) -> None:
        self.written: dict[str, dict[str, tuple[Statement, int]]] = {}
        self.kitchen: dict[str, list[Statement]] = {"job": [], "room": [], "run": []}
        self.names: dict[tuple[str, str], Statement] = {}
        self.findings: list[Finding] = []
        self.done: dict[tuple[str, str], Declaration] = {}

    def declare(self, statement: Statement, text: Text) -> None:
        rule = statement.rule
        if rule in self.kitchen:
            self.place_kitchen(statement)
        self.check_names(statement)
        if rule not in DECLARED or not statement.name:
            return
        of_kind = self.written.setdefault(rule, {})
        if statement.name not in of_kind:
            of_kind[statement.name] = (statement, text.level)
            return
        nearer, level = of_kind[statement.name]
        label = Label(_span(statement), "the other")
        if level == text.level:
            self.findings.append(
                error(
                    "declared-twice",
                    f"{rule} {statement.name} is declared twice",
                    _span(nearer),
                    labels=(label,),
                    help=_second_lot(nearer, statement)
                    if rule == "lot"
                    else "give one of them another name",
                )
            )
        else:
            self.findings.append(
                Finding(
                    "goes-over",
                    Severity.ADVICE,
                    f"this {rule} {statement.name} goes over the one in {_span(statement).where}",
                    _span(nearer),
                    labels=(label,),
                )
            )

    def check_names(self, statement: Statement) -> None:
        """What is made in a construction can't be called by an edge word: `top` is a place."""
        waiting = list(statement.body)
        while waiting:
            line = waiting.pop()
            waiting.extend(line.body)
            if line.rule in _NAMED and line.name in EDGES:
                self.findings.append(
                    error(
                        "edge-word-as-name",
                        f"{line.name} is an edge; a {line.rule} needs another name",
                        span_of(line.values[0].origin),
                        help="front, back, left, right, top and bottom are edges everywhere",
                    )
                )

    def place_kitchen(self, statement: Statement) -> None:
        rule = statement.rule
        name = statement.name if rule == "run" else rule
        first = self.names.setdefault((rule, name), statement)
        if first is not statement:
            said = f"run {name} is there already" if rule == "run" else f"there is a {rule} already"
            self.findings.append(
                error(
                    "declared-twice",
                    said,
                    _span(statement),
                    labels=(Label(_span(first), "the first"),),
                )
            )
            return
        self.kitchen[rule].append(statement)

    def inherit(self) -> dict[str, dict[str, Declaration]]:
        for kind, of_kind in self.written.items():
            for name in of_kind:
                self.open(kind, name, ())
        self.check_lots()
        result: dict[str, dict[str, Declaration]] = {}
        for (kind, name), declaration in self.done.items():
            result.setdefault(kind, {})[name] = declaration
        return result

    def open(self, kind: str, name: str, chain: tuple[str, ...]) -> Declaration:
        """The declaration with its parents opened into it."""
        if (kind, name) in self.done:
            return self.done[kind, name]
        statement, level = self.written[kind][name]
        declaration = Declaration(kind, name, statement, (name,), level)
        clause = statement.clause("from") if kind in INHERITING else None
        parent = self.parent(clause, kind, (*chain, name))
        if parent is not None and clause is not None:
            given, shared = parent.statement, parent.shared
            if kind in MEASURED:
                given = evolve(given, clauses=_without(given.clauses, NOT_INHERITED))
            choices = self.choices(clause.clause("with"), kind, (*chain, name))
            if choices is not None:
                given = reopen(given, choices.statement)
                shared |= {each.word for each in choices.statement.options}
            declaration = evolve(
                declaration,
                statement=reopen(given, statement),
                chain=(name, *parent.chain),
                shared=shared - {each.word for each in statement.options},
            )
        if kind in MEASURED:
            declaration = evolve(declaration, statement=self.as_measured(declaration))
        self.done[kind, name] = declaration
        return declaration

    def parent(
        self, clause: Clause | None, kind: str, chain: tuple[str, ...]
    ) -> Declaration | None:
        """What a clause of `chain[-1]` names to be opened again; None where that can't be."""
        if clause is None or not clause.values:
            return None
        name = bare_word(clause.values[0])
        span = span_of(clause.values[0].origin)
        if name in chain:
            _, *others = chain[chain.index(name) :]
            by_way = f", by way of {', '.join(others)}" if others else ""
            headline = f"{kind} {name} comes from itself{by_way}"
            self.findings.append(error("from-itself", headline, span))
            return None
        if name not in self.written[kind]:
            self.findings.append(
                error(
                    "unknown-material" if kind in MEASURED else f"unknown-{kind}",
                    f"no {kind} is called {name}",
                    span,
                    help=suggestion(name, self.written[kind]),
                )
            )
            return None
        return self.open(kind, name, chain)

    def choices(
        self, clause: Clause | None, kind: str, chain: tuple[str, ...]
    ) -> Declaration | None:
        """What a `with` names: it may only choose, for parts of two parents can't be one box."""
        found = self.parent(clause, kind, chain)
        if clause is None or found is None or not found.statement.body:
            return found
        self.findings.append(
            error(
                "not-choices-alone",
                f"{found.name} does more than choose, and with takes choices alone",
                span_of(clause.values[0].origin),
                help="put what the two share into a construction that only chooses",
            )
        )
        return None

    def as_measured(self, declaration: Declaration) -> Statement:
        """A sheet's declaration with the thickness of its lot, where one was measured."""
        lot, _ = self.written.get("lot", {}).get(declaration.name, (None, 0))
        measured = tuple(each for each in lot.clauses if each.word == "thick") if lot else ()
        statement = declaration.statement
        return evolve(statement, clauses=_over(statement.clauses, measured))

    def check_lots(self) -> None:
        """A lot is of a sheet that is declared."""
        sheets = self.written.get("sheet", {})
        for name, (lot, _) in self.written.get("lot", {}).items():
            if name not in sheets:
                self.findings.append(
                    error(
                        "unknown-material",
                        f"no sheet is called {name}",
                        span_of(lot.values[0].origin),
                        help=suggestion(name, sheets),
                    )
                )


def _second_lot(first: Statement, second: Statement) -> str:
    """How to say that a sheet stands in the shop in two lots."""
    name = second.name
    thick = second.clause("thick") or first.clause("thick")
    span = span_of(thick.values[0].origin) if thick is not None and thick.values else None
    said = f"thick {span.text}" if span is not None else "thick"
    return (
        f"a second lot is a sheet of its own, sheet {name}_2 from {name} {{ {said} }}; "
        "what is made of it says so"
    )


def _without(clauses: tuple[Clause, ...], words: tuple[str, ...]) -> tuple[Clause, ...]:
    return tuple(each for each in clauses if each.word not in words)


def _span(statement: Statement) -> Span:
    origin = statement.head.origin
    assert isinstance(origin, Span), "declarations are never detached from their lines"
    return origin


TREE_RULES = frozenset(("stack", "row"))
_NAMED = frozenset(("part", "hardware", "assembly", "mouth", "option", "let", "limit"))


def _key(statement: Statement) -> tuple[object, ...] | None:
    """What makes two statements of a block the same one, or None for those that add up."""
    if statement.rule in _NAMED:
        return (statement.rule if statement.rule == "option" else "named", statement.name)
    if statement.rule in TREE_RULES:
        return ("tree",)
    if statement.rule == "openings":
        return ("openings",)
    if statement.rule in ("for", "when"):
        return (
            statement.rule,
            *(_written(value) for value in statement.values),
            *(
                (clause.word, *(_written(value) for value in clause.values))
                for clause in statement.clauses
            ),
        )
    return None


def _written(expression: Expression) -> object:
    """An expression without its places, so that two which say the same are equal."""
    match expression:
        case Binary():
            return expression.operator, _written(expression.left), _written(expression.right)
        case Not() | Group():
            return type(expression), _written(expression.inner)
        case _:
            words = getattr(expression, "words", None) or getattr(expression, "written", None)
            return words or expression


def makes_parts(statement: Statement) -> bool:
    """Whether any line in a statement's body, at any depth, makes a part or sets hardware."""
    return any(line.rule in ("part", "hardware") or makes_parts(line) for line in statement.body)


def reopen(parent: Statement, child: Statement) -> Statement:
    """`parent` opened again by `child`: what the child says goes over what the parent says."""
    removed = {line.name for line in child.body if line.rule == "without"}
    body = [line for line in parent.body if not (line.rule in _NAMED and line.name in removed)]
    places = {key: index for index, line in enumerate(body) if (key := _key(line)) is not None}
    for line in child.body:
        key = _key(line)
        if key is None or key not in places:
            body.append(line)
            continue
        index = places[key]
        same = body[index]
        opens = line.rule == same.rule and line.rule in (
            "part",
            "hardware",
            "assembly",
            "mouth",
            "for",
            "when",
            "openings",
        )
        body[index] = reopen(same, line) if opens else line
    return evolve(
        child,
        values=child.values or parent.values,
        clauses=_over(parent.clauses, child.clauses),
        options=_over(parent.options, child.options),
        value=child.value if child.value is not None else parent.value,
        body=tuple(body),
    )


def _over(parent: tuple[Clause, ...], child: tuple[Clause, ...]) -> tuple[Clause, ...]:
    said = {clause.word for clause in child}
    return (*(clause for clause in parent if clause.word not in said), *child)
