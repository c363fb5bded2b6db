"""The house's own rules, read from its sources: who may import whom, and who may name what."""

import ast
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from casewright.compiler.words.schema import SCHEMA
from casewright.lang.schema import ClauseRule

ROOT = Path(__file__).parents[1]

BACK_ENDS = ("check", "papers", "plan")
"""Folders of the compiler whose modules read the built job."""

PHASES = ("text.load", "text.resolve", "construct", "joints.contact", "bench.order")
"""Modules of the way from text to job, in their order; none may reach a back end."""

LARGEST_SNAPSHOT = 20_000
"""Bytes; a larger snapshot is one that nobody has read."""


def modules() -> dict[str, Path]:
    """Every module of ours by its installed name."""
    found = {}
    for folder in ("lang", "compiler", "stdlib"):
        for path in sorted((ROOT / folder).rglob("*.py")):
            steps = path.relative_to(ROOT).with_suffix("").parts
            found["casewright." + ".".join(steps).removesuffix(".__init__")] = path
    return found


def imports(path: Path) -> set[str]:
    """The modules that a file imports, also inside functions."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are absolute"
            assert node.module is not None
            found.add(node.module)
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return found


IMPORTS: Mapping[str, set[str]] = {name: imports(path) for name, path in modules().items()}


def under(name: str, *packages: str) -> bool:
    return any(name == package or name.startswith(f"{package}.") for package in packages)


def offences(importers: tuple[str, ...], forbidden: tuple[str, ...]) -> list[str]:
    """Which modules under `importers` import something under `forbidden`."""
    return [
        f"{name} imports {each}"
        for name, imported in IMPORTS.items()
        if under(name, *importers)
        for each in sorted(imported)
        if under(each, *forbidden)
    ]


def test_there_are_sources_to_look_at() -> None:
    assert len(IMPORTS) > 20
    assert under("casewright.lang.cells", "casewright.lang")
    assert "casewright.lang.measure.Measure" in IMPORTS["casewright.lang.printing"]
    assert offences(("casewright.compiler.commands",), ("casewright.lang",))


def test_the_language_knows_no_compiler() -> None:
    assert offences(("casewright.lang",), ("casewright.compiler", "casewright.stdlib")) == []


def test_nothing_imports_the_folders_by_their_bare_names() -> None:
    for name, imported in IMPORTS.items():
        for each in imported:
            assert not under(each, "lang", "compiler", "stdlib", "tests"), f"{name} imports {each}"


def test_only_commands_import_commands() -> None:
    commands = "casewright.compiler.commands"
    for name, imported in IMPORTS.items():
        if not under(name, commands):
            assert not any(under(each, commands) for each in imported), name


@pytest.mark.parametrize("back_end", BACK_ENDS)
def test_a_back_end_reads_the_job_and_nothing_before_it(back_end: str) -> None:
    here = f"casewright.compiler.{back_end}"
    before = tuple(f"casewright.compiler.{phase}" for phase in PHASES)
    parsing = tuple(
        f"casewright.lang.{each}"
        for each in ("grammar", "parser", "building", "recovery", "reading", "shape", "tree")
    )
    assert offences((here,), (*before, *parsing, "lark")) == []
    others = tuple(f"casewright.compiler.{other}" for other in BACK_ENDS if other != back_end)
    assert offences((here,), others) == []


PAPERS = ("lists", "drawings", "pages")
"""Folders of the papers, in their order: rows are drawn, rows and drawings are set on pages."""


@pytest.mark.parametrize("place", range(len(PAPERS) - 1))
def test_papers_are_made_of_what_comes_before_them(place: int) -> None:
    papers = "casewright.compiler.papers"
    earlier, later = PAPERS[place], tuple(f"{papers}.{each}" for each in PAPERS[place + 1 :])
    assert any(under(name, f"{papers}.{earlier}") for name in IMPORTS)
    assert offences((f"{papers}.{earlier}",), later) == []


@pytest.mark.parametrize("phase", PHASES)
def test_no_phase_reaches_a_back_end_or_a_later_phase(phase: str) -> None:
    later = PHASES[PHASES.index(phase) + 1 :]
    forbidden = [f"casewright.compiler.{each}" for each in (*later, *BACK_ENDS)]
    # Working a unit out is one phase that leads through contact and order, once a key.
    if phase == "construct":
        forbidden = [f"casewright.compiler.{each}" for each in BACK_ENDS]
    assert offences((f"casewright.compiler.{phase}",), tuple(forbidden)) == []


DECLARED = re.compile(
    r"""(?:^|\{)[ \t]*
    (?:unit|construction|pattern|filling|appliance|part|hardware|assembly|option|sheet|lumber|band
      |slide|hinge|fixing|fastener)
    [ \t]+([a-z][a-z0-9_]*)""",
    re.VERBOSE | re.MULTILINE,
)


def library_names() -> set[str]:
    """Every unit, part, material, filling, option … that the library declares."""
    texts = [path.read_text(encoding="utf-8") for path in (ROOT / "stdlib").rglob("*.case")]
    return {name for text in texts for name in declared(text)}


def declared(text: str) -> set[str]:
    return set(DECLARED.findall(re.sub(r"#.*", "", text)))


def clause_words(clauses: tuple[ClauseRule, ...]) -> Iterator[str]:
    for clause in clauses:
        yield clause.word
        yield from clause.choices
        yield from clause_words(clause.clauses)


def words_of_the_language() -> set[str]:
    """Words that the schema itself has, so that a library thing may share them by chance: heads,
    clauses, choices, and everything written as a plain tuple of words beside them (roles)."""
    known = set()
    for head in SCHEMA.heads.values():
        known |= {head.name, *clause_words(head.clauses)}
    sources = sorted((ROOT / "compiler" / "words").glob("*.py"))
    trees = [ast.parse(path.read_text(encoding="utf-8")) for path in sources]
    for node in (node for tree in trees for node in tree.body):
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Tuple):
            known |= {
                each.value
                for each in node.value.elts
                if isinstance(each, ast.Constant) and isinstance(each.value, str)
            }
    return known


def literals(path: Path) -> Iterator[tuple[int, str]]:
    """The texts that a source compares or looks up: every literal but docstrings."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    told = {
        id(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told:
            yield node.lineno, node.value


BY_CHANCE = {
    ("lang/unreadable.py", "open"): "the name of a group in a pattern",
    ("compiler/papers/pages/bench_pages.py", "joined"): "a name inside a page's template",
    ("compiler/papers/pages/fit_pages.py", "fronts"): "a name inside a page's template",
    ("compiler/papers/job_json.py", "reach"): "a field of the model's Motion",
    ("compiler/check/lifting.py", "lift"): "an allowance, what one person lifts",
}
"""Literals that are something else than the library's thing of that name, and what."""


def test_the_declarations_of_a_text_are_found() -> None:
    text = (
        "unit tall {\n  option deep_one length = 5\n  when x { part cap of case }\n}\n# { unit no\n"
    )
    assert declared(text) == {"tall", "deep_one", "cap"}


def test_no_source_names_a_thing_of_the_library() -> None:
    names = library_names() - words_of_the_language()
    found = [
        f"{path.relative_to(ROOT)}:{line} names {text}"
        for name, path in modules().items()
        if under(name, "casewright.lang", "casewright.compiler")
        for line, text in literals(path)
        if text in names and (path.relative_to(ROOT).as_posix(), text) not in BY_CHANCE
    ]
    assert found == []


def test_every_snapshot_is_small_enough_to_be_read() -> None:
    large = [
        f"{path.relative_to(ROOT)}: {path.stat().st_size} bytes"
        for path in (ROOT / "tests").rglob("*")
        if (path.suffix == ".ambr" or "__snapshots__" in path.parts)
        and path.is_file()
        and path.stat().st_size > LARGEST_SNAPSHOT
    ]
    assert large == []
