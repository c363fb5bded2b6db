"""`explain`: where a figure comes from, what a finding means, what a thing of the library is."""

from argparse import Namespace
from collections.abc import Sequence
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from casewright.compiler.commands.kitchen import chosen, printing_of, report
from casewright.compiler.commands.list import HEADS, Entry, held, shaped, statements_of
from casewright.compiler.commands.meant import meant
from casewright.compiler.commands.new import BEGINNING
from casewright.compiler.commands.terminal import Terminal, Unusable
from casewright.compiler.commands.words import (
    clauses_called,
    clauses_json,
    example_of,
    explained_clauses,
    explained_word,
    word_json,
)
from casewright.compiler.commands.world import InstalledLibrary, open_project
from casewright.compiler.words.schema import SCHEMA
from casewright.lang.plain_text import cells, padded, visible, wrapped
from casewright.lang.printing import in_words
from casewright.lang.render_explain import explanation_json, render_explanation
from casewright.lang.render_json import VERSION, as_text
from casewright.lang.schema import HeadRule
from casewright.lang.shape import suggestion
from casewright.lang.source import Source

if TYPE_CHECKING:
    from casewright.compiler.model import Job


def run(arguments: Namespace, terminal: Terminal) -> int:
    from casewright.compiler.catalogue import CATALOGUE

    about = arguments.about
    # A finding's word has a dash where an address never has one, so it can't be taken for one.
    if about in CATALOGUE or (arguments.kitchen is None and "-" in about):
        return explain_finding(about, arguments, terminal)
    if arguments.kitchen is None:
        code = explain_named(about, arguments, terminal)
        if code is not None:
            return code
    return explain_figure(about, arguments, terminal)


def explain_named(about: str, arguments: Namespace, terminal: Terminal) -> int | None:
    """Explains what has the name in any kitchen: a statement, a thing of the library, a clause.
    None where nothing has."""
    rule = SCHEMA.heads.get(about)
    if rule is not None and about != SCHEMA.file:
        return explain_word(rule, arguments, terminal)
    declared = declared_as(about)
    if declared:
        return explain_things(about, declared, arguments, terminal)
    if clauses_called(about):
        return explain_clause(about, arguments, terminal)
    return None


def explain_finding(slug: str, arguments: Namespace, terminal: Terminal) -> int:
    from casewright.compiler.catalogue import CATALOGUE

    rule = CATALOGUE.get(slug)
    if rule is None:
        close = suggestion(slug, CATALOGUE)
        raise Unusable(f"no finding is called {slug}; {close or '`list findings` names them all'}")
    told = {
        "is": rule.severity.value,
        "why": rule.why,
        "mend": rule.mend,
        "source": rule.source,
        "bad": rule.bad,
        "good": rule.good,
    }
    if arguments.form == "json":
        told = {key: text for key, text in told.items() if text}
        if rule.no_example:
            told["no_example"] = rule.no_example
        terminal.report(as_text({"version": VERSION, "about": slug, "doc": rule.doc, **told}))
        return 0
    lines = [f"    {slug}", ""]
    lines += [f"    {line}" for line in wrapped(rule.doc, terminal.width - 4)]
    for name in ("is", "why", "mend", "source"):
        for line in wrapped(told[name], terminal.width - 12) if told[name] else ():
            lines.append(f"    {name:<6}  {line}")
            name = ""
    if rule.no_example:
        lines += ["", f"    no example  {rule.no_example}"]
    for name in ("bad", "good"):
        lines += ["", f"    {name}"] if told[name] else []
        lines += [f"      {line}".rstrip() for line in told[name].splitlines()]
    terminal.report("".join(f"{line}\n" for line in lines))
    return 0


def explain_word(rule: HeadRule, arguments: Namespace, terminal: Terminal) -> int:
    """What a statement says, and which clauses it takes."""
    if arguments.form == "json":
        terminal.report(word_json(rule))
    else:
        terminal.report(explained_word(rule, terminal.width, example(rule.name, clauses=False)))
    return 0


def explain_clause(word: str, arguments: Namespace, terminal: Terminal) -> int:
    """What a word within a statement says, and in which statements it stands."""
    found = clauses_called(word)
    if arguments.form == "json":
        terminal.report(clauses_json(word, found))
    else:
        terminal.report(explained_clauses(word, found, terminal.width, example(word)))
    return 0


def example(word: str, *, clauses: bool = True) -> str:
    """A line that says `word`, as a clause only where `clauses` are asked for: of the kitchen that
    `new` begins with, of the library, or of the right examples of findings, whichever has one
    first; empty where none has."""
    from casewright.compiler.catalogue import CATALOGUE

    library = InstalledLibrary()
    texts = (shaped(library, path)[1] for path in (BEGINNING, *library.texts()))
    rules = (statements_of(Source(slug, rule.good))[1] for slug, rule in CATALOGUE.items())
    every = (example_of(word, each, clauses=clauses) for each in chain(texts, rules))
    return next(filter(None, every), "")


def declared_as(name: str) -> list[Entry]:
    """Everything the library declares under this name."""
    return [each for each in library() if each.name == name]


def library() -> list[Entry]:
    """Everything the library declares under a name of its own."""
    heads = {head for kind, words in HEADS.items() if kind != "options" for head in words}
    return list(held(InstalledLibrary(), heads))


def explain_things(
    about: str, declared: list[Entry], arguments: Namespace, terminal: Terminal
) -> int:
    """What the library says of a thing: its comment, and the text that declares it."""
    if arguments.form == "json":
        told = [
            {"head": each.head, "doc": each.doc, "where": each.where, "text": each.text}
            for each in declared
        ]
        terminal.report(as_text({"version": VERSION, "about": about, "declared": told}))
        return 0
    for each in declared:
        lines = [f"    {each.head} {about}    {each.where}", ""]
        if each.doc:
            lines += [f"    {line}" for line in wrapped(visible(each.doc), terminal.width - 4)]
            lines.append("")
        lines += [f"    {visible(line)}".rstrip() for line in each.text.splitlines()]
        terminal.report("".join(f"{line}\n" for line in lines))
    return 0


def explain_all(job: "Job", within: Sequence[str], arguments: Namespace, terminal: Terminal) -> int:
    """Every figure of a thing, by its address."""
    from casewright.compiler.explain import Explainer

    printing = printing_of(job)
    explainer = Explainer(job)
    figures = {
        address: in_words(figure.measure, printing)
        for address in within
        if (figure := explainer.figure(address)) is not None
    }
    if arguments.form == "json":
        terminal.report(as_text({"version": VERSION, "figures": figures}))
        return 0
    column = max(cells(address) for address in figures) + 4
    terminal.report(
        "".join(f"    {padded(each, column)}{figure}\n" for each, figure in figures.items())
    )
    return 0


def explain_figure(about: str, arguments: Namespace, terminal: Terminal) -> int:
    kitchen = chosen(arguments.kitchen, Path())
    world, entry = open_project(kitchen)
    from casewright.compiler.compile import compile_job
    from casewright.compiler.explain import addresses, explain

    compiled = compile_job(world, entry)
    job = compiled.job
    printing = compiled.printing
    if job is None:
        report(arguments, terminal, compiled.findings, compiled.progress, printing)
        terminal.complain(f"nothing is explained, since {kitchen} can't be built as it is")
        return 2
    explained = explain(job, about)
    if explained is None:
        known = addresses(job)
        within = [address for address in known if address.startswith(f"{about}.")]
        if within:
            return explain_all(job, within, arguments, terminal)
        code = explain_named(about, arguments, terminal)
        if code is not None:
            return code
        raise Unusable(f"no figure of {kitchen} has the address {about}; {meant(about, known)}")
    if arguments.form == "json":
        terminal.report(explanation_json(about, explained.rows, explained.quantity, printing))
    elif arguments.form == "concise":
        figure = in_words(explained.quantity.measure, printing)
        terminal.report(f"{visible(about)}  {figure}\n")
    else:
        terminal.report(render_explanation(explained.rows, printing, width=terminal.width))
    return 0
