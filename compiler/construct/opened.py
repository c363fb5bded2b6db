"""What an assembly or a mouth is opened with: its text, and the options chosen for it."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from attrs import evolve

from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.things import Thing
from casewright.lang.shape import Clause, Statement, suggestion

if TYPE_CHECKING:
    from casewright.compiler.construct.holder import Holder
    from casewright.compiler.construct.scope import Scope

Settings = dict[str, tuple[Clause, "Scope | None"]]
"""Options by name: what was chosen, and where that is read; None for the holder's own scope."""


def assembly_text(holder: "Holder", thing: Thing) -> tuple[Statement, ...]:
    """The text of an assembly that `holder` holds: its pattern's and its own. Raises Fault."""
    clause = thing.statement.clause("of")
    if clause is None:
        return thing.statement.body
    word = getattr(clause.values[0], "text", "")
    pattern = holder.build.program.find("pattern", word)
    if pattern is None:
        raise fault(
            "unknown-pattern",
            f"no pattern is called {word}",
            clause.values[0].origin,
            help=suggestion(word, holder.build.program.names("pattern")),
        )
    if word in _patterns_around(holder):
        raise fault(
            "holds-itself",
            f"pattern {word} holds itself",
            clause.values[0].origin,
            help="a thing is made of others; place another pattern in it",
        )
    return holder.build.opened(pattern.statement, thing.statement)


def assembly_settings(holder: "Holder", thing: Thing) -> Settings:
    """Options chosen for an assembly: on its own line, else those `holder` offers of it."""
    settings: Settings = {word: (each, thing.scope) for word, each in _chosen(thing).items()}
    for word, setting in _offered(holder, thing.name).items():
        settings.setdefault(word, setting)
    return settings


def mouth_text(holder: "Holder", mouth: Thing) -> tuple[Statement, ...]:
    """The text of a mouth: what its unit's text makes in each of them, opened again by its own.
    Raises Fault."""
    chosen = _chosen(mouth)
    for word, clause in chosen.items():
        if word not in holder.index:
            raise fault(
                "unknown-option",
                f"nothing in {holder.name} has an option {word}",
                clause.origin,
                help=suggestion(word, holder.index),
            )
    options = tuple(holder.index[word][0].statement for word in chosen)
    shared = evolve(mouth.statement, body=(*options, *holder.in_mouths))
    return holder.build.opened(shared, mouth.statement)


def mouth_settings(holder: "Holder", mouth: Thing) -> Settings:
    """Options of a mouth: those it chooses are its own, all others its unit's."""
    own: Settings = {word: (each, mouth.scope) for word, each in _chosen(mouth).items()}
    return {**holder.settings, **own}


def _chosen(thing: Thing) -> dict[str, Clause]:
    return {each.word: each for each in thing.statement.options if each.values}


def _patterns_around(holder: "Holder") -> Iterator[str]:
    """The patterns a holder is of, and those it stands in."""
    around: Holder | None = holder
    while around is not None and around.thing is not None:
        clause = around.thing.statement.clause("of")
        if clause is not None:
            yield getattr(clause.values[0], "text", "")
        around = around.outer.holder if around.outer is not None else None


def _offered(holder: "Holder", name: str) -> Settings:
    """Settings of a holder that it offers of the assembly `name`."""
    result: Settings = {}
    for statement in holder.body:
        clause = statement.clause("of") if statement.rule == "offers" else None
        if clause is None or getattr(clause.values[0], "text", "") != name:
            continue
        for value in statement.values:
            word = getattr(value, "text", "")
            if word in holder.settings:
                result[word] = holder.settings[word]
    return result
