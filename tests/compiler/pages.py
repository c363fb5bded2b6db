"""Pages: texts in the language whose comments state what is found in them.

    # page: what it shows           divides a file into pages
    # file: shop.case               divides a page into files; the first is the kitchen
    S1: cupboard 27  # expect: error run-too-long  run wall is 3" longer | over 3"

An expectation stands at the end of the line it is about, or on lines of its own above it. Behind
the severity and the slug stand pieces, parted by ` | `, that the finding's full text must hold
(runs of blanks count as one). `# expect nowhere:` is a finding without a line, `# expect in
FILE:LINE:` one in a text outside the page. Every finding is expected, every expectation used.
"""

import re
from collections.abc import Iterator, Mapping

from attrs import frozen

from casewright.compiler.compile import Compiled
from casewright.lang.findings import Finding, Progress
from casewright.lang.printing import Printing
from casewright.lang.render_full import render_full
from tests.compiler.examples import CASES, compiled

FIRST_FILE = "page.case"

_HEADING = re.compile(r"^# (?P<what>page|file): (?P<name>.+)$")
_EXPECT = re.compile(
    r"# expect(?: (?P<nowhere>nowhere)| in (?P<where>\S[^#]*:[0-9]+))?: "
    r"(?P<severity>error|warning|advice) (?P<slug>[a-z0-9-]+)(?:  ?(?P<pieces>.*))?$"
)


@frozen
class Expected:
    """A finding that a page states: `where` it is as `file:line`, empty for nowhere."""

    where: str
    severity: str
    slug: str
    pieces: tuple[str, ...]

    def missing(self, finding: Finding) -> list[str]:
        """The pieces that the finding's full text doesn't hold."""
        text = " ".join(render_full((finding,), Progress(), Printing()).split())
        return [piece for piece in self.pieces if piece not in text]


@frozen
class Page:
    """A page: its texts, the first the kitchen's, and what is to be found in them."""

    name: str
    texts: Mapping[str, str]
    expected: tuple[Expected, ...]

    def compiled(self) -> Compiled:
        return compiled({path: text.encode() for path, text in self.texts.items()}, self.entry)

    @property
    def entry(self) -> str:
        return next(iter(self.texts))


def read_pages() -> Iterator[Page]:
    """Every page under tests/cases, but for the texts that pages use."""
    for path in sorted(CASES.rglob("*.case")):
        folder = path.relative_to(CASES).with_suffix("").as_posix()
        if not folder.startswith("around/"):
            yield from pages_of(folder, path.read_text(encoding="utf-8"))


def pages_of(name: str, text: str) -> Iterator[Page]:
    """The pages of one file."""
    title = ""
    lines: list[str] = []
    for line in text.splitlines():
        heading = _HEADING.match(line)
        if heading is not None and heading["what"] == "page":
            if title or any(each.strip() for each in lines):
                yield _page(f"{name}: {title}" if title else name, lines)
            title, lines = heading["name"], []
        else:
            lines.append(line)
    yield _page(f"{name}: {title}" if title else name, lines)


def _page(name: str, lines: list[str]) -> Page:
    texts: dict[str, list[str]] = {}
    for line in lines:
        heading = _HEADING.match(line)
        if heading is not None:
            texts[heading["name"]] = []
        elif texts:
            next(reversed(texts.values())).append(line)
        elif line.strip():
            texts[FIRST_FILE] = [line]
    expected = [each for path, held in texts.items() for each in _expected(path, held)]
    bare = {path: "".join(f"{_unmarked(line)}\n" for line in held) for path, held in texts.items()}
    return Page(name, bare, tuple(expected))


def _unmarked(line: str) -> str:
    """A line without its expectation: a finding shows its line, and would hold what is expected."""
    return line[: line.index("# expect")].rstrip() if "# expect" in line else line


def _expected(path: str, lines: list[str]) -> Iterator[Expected]:
    waiting: list[re.Match[str]] = []
    for number, line in enumerate(lines, start=1):
        found = _EXPECT.search(line)
        if found is None and "# expect" in line:
            raise ValueError(f"{path}:{number} is no expectation: {line.strip()}")
        alone = found is not None and line.strip().startswith("#")
        if found is not None:
            waiting.append(found)
        if alone or (not waiting) or line.strip().startswith("#"):
            continue
        for each in waiting:
            yield _expectation(each, f"{path}:{number}")
        waiting.clear()
    for each in waiting:
        yield _expectation(each, f"{path}:{len(lines)}")


def _expectation(found: re.Match[str], here: str) -> Expected:
    where = "" if found["nowhere"] else found["where"] or here
    pieces = tuple(
        " ".join(piece.split()) for piece in (found["pieces"] or "").split(" | ") if piece.strip()
    )
    return Expected(where, found["severity"], found["slug"], pieces)


def where_of(finding: Finding) -> str:
    return "" if finding.span is None else finding.span.where
