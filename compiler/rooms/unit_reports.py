"""What is wrong with units, bound to the lines of their placings: one cause, one report."""

from collections.abc import Callable, Sequence

from attrs import evolve

from casewright.compiler.blame import Blame, bind, bound_row
from casewright.compiler.construct.unit import Wanted
from casewright.compiler.keys import binder
from casewright.compiler.model import Unit
from casewright.compiler.rooms.kitchen import Reader
from casewright.compiler.rooms.otherwise import otherwise
from casewright.compiler.rooms.place import Slot
from casewright.compiler.text.load import STANDARD
from casewright.compiler.text.resolve import Program
from casewright.lang.findings import Finding, Label
from casewright.lang.shape import span_of
from casewright.lang.source import Origin, Span

OF_SIZES = frozenset(
    (
        "blank-too-narrow",
        "cleat-on-air",
        "cut-corner-off",
        "fasteners-too-close",
        "groove-through",
        "hole-past-edge",
        "hole-through",
        "joint-does-not-enter",
        "no-room-to-drive",
        "no-way-in",
        "none-fits",
        "nothing-left",
        "openings-dont-close",
        "part-loose",
        "parts-overlap",
        "requirement-not-met",
        "size-not-positive",
        "stock-too-thin",
        "too-many-holes",
    )
)
"""What can come of a unit's sizes alone: vain where its width isn't what it will be."""


class UnitReports:
    """The reports of all units, equal ones folded into one that names every tag."""

    def __init__(self, program: Program, reader: Reader) -> None:
        self.program = program
        self.reader = reader
        self.reports: dict[tuple[object, ...], Finding] = {}
        self.library = {text.source.label for text in program.texts if text.level == STANDARD}

    @property
    def findings(self) -> tuple[Finding, ...]:
        return tuple(self.reports.values())

    def once(self, finding: Finding) -> None:
        """A report that many units would repeat."""
        self.reports.setdefault((finding.slug, finding.headline), finding)

    def add(
        self, unit: Unit, slot: Slot, spans: Sequence[Span], wanted: Wanted, *, sized: bool = True
    ) -> None:
        """Binds a unit's blames to this placing; equal reports of equal units are folded into
        one that names every tag. Where the unit isn't `sized`, its width being what a line that
        can't be read leaves it, no size is blamed."""
        bound = binder(spans)
        for blame in unit.blames:
            if not sized and blame.finding.slug in OF_SIZES:
                continue
            finding = self._caller_first(bind(blame, bound), slot)
            # A fault on a line of a construction or the library is one cause, whatever units
            # show it; a place in a unit's own text means its line only together with the unit.
            of_unit = 0 if isinstance(blame.origin, Span) else id(unit)
            figures = tuple((each.words, each.measure) for each in finding.figures)
            key = (of_unit, finding.slug, finding.headline, blame.origin, figures)
            if key in self.reports:
                first = self.reports[key]
                self.reports[key] = evolve(first, tags=(*first.tags, slot.address))
            else:
                finding = self._with_other_ways(finding, blame, wanted, bound)
                if finding.slug == "requirement-not-met":
                    finding = self._with_width(finding, slot)
                self.reports[key] = evolve(finding, tags=(slot.address,))

    def _with_width(self, finding: Finding, slot: Slot) -> Finding:
        """A requirement that isn't met, with the width that the thing has in its run."""
        wide = f"{slot.tag or slot.kind} is {self.reader.say(slot.width.measure)} wide"
        mend = finding.help or "change that, or what its lines choose, until this is so"
        return evolve(finding, help=f"{wide}; {mend}")

    def _with_other_ways(
        self,
        finding: Finding,
        blame: Blame,
        wanted: Wanted,
        bound: Callable[[Origin], Span | None],
    ) -> Finding:
        """A sum that doesn't close is shown in the other ways to build too."""
        ways = tuple(otherwise(self.program, wanted, blame))
        figures = [bound_row(row, bound) for way in ways for row in way.rows]
        closing = [f"built {way.construction} they close" for way in ways if way.closes]
        return evolve(
            finding,
            figures=(*finding.figures, *figures),
            help="; ".join((finding.help, *closing)),
        )

    def _caller_first(self, finding: Finding, slot: Slot) -> Finding:
        """A fault in library text is blamed on the line that asked for it; the library's line is
        a note."""
        caller = span_of(slot.statement.head.origin)
        if finding.span is None:
            return evolve(finding, span=caller)
        in_library = finding.span.source.label in self.library
        if not in_library and finding.slug != "room-figure-unsaid":
            return finding
        note = Label(finding.span, "in the library" if in_library else "is made by it")
        return evolve(finding, span=caller, labels=(note, *finding.labels))
