"""The hardware list: bought things and fasteners, counted, with the units they go into."""

from fractions import Fraction

from attrs import frozen

from casewright.compiler.model import Job, Unit
from casewright.compiler.papers.figures import Figure, figure, printing_of, spreadsheet, suffix
from casewright.compiler.papers.lists.spreadsheet import sheet
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pieces import built


@frozen
class HardwareRow:
    """Equal things: `length` is None for what has no length of its own (fasteners)."""

    name: str
    title: str
    length: Figure | None
    counts: tuple[tuple[str, str, int], ...]

    @property
    def count(self) -> int:
        return sum(count for _, _, count in self.counts)

    @property
    def units(self) -> tuple[tuple[str, str, int], ...]:
        """Address, label and count for each unit."""
        return self.counts


def hardware_list(job: Job, only: str | None = None) -> tuple[HardwareRow, ...]:
    """Bought things first, in the order met; then fasteners by name."""
    found: dict[tuple[str, Fraction | None], tuple[str, Figure | None, dict[str, int]]] = {}
    labels: dict[str, str] = {}
    for item in built(job):
        if only is not None and item.holder != only:
            continue
        labels[item.holder] = item.label
        for part in item.unit.parts:
            if part.hardware:
                key = (part.material.name, part.length.value)
                # A slide is bought by its length; a hinge or a pull is what it is called.
                by_length = part.role == "slide"
                length = figure(part.length, f"{item.holder}.{part.address}.length")
                _, _, counts = found.setdefault(
                    key, (_title(part.material.title), length if by_length else None, {})
                )
                counts[item.holder] = counts.get(item.holder, 0) + 1
    for item in built(job):
        if only is not None and item.holder != only:
            continue
        for name, count in sorted(_fasteners(item.unit).items()):
            _, _, counts = found.setdefault(
                (name, None), (_title(job.supply.titles.get(name, name)), None, {})
            )
            counts[item.holder] = counts.get(item.holder, 0) + count
    return tuple(
        HardwareRow(
            name,
            title,
            length,
            tuple((holder, labels[holder], count) for holder, count in counts.items()),
        )
        for (name, _), (title, length, counts) in found.items()
    )


def _title(title: str) -> str:
    return words(title)


def _fasteners(unit: Unit) -> dict[str, int]:
    counts: dict[str, int] = {}
    for joint in unit.joints:
        for each in joint.fasteners:
            counts[each.name] = counts.get(each.name, 0) + each.count
    return counts


def hardware_csv(job: Job, only: str | None = None) -> str:
    """The hardware list as CSV: name, length where it has one, pieces, and pieces a unit."""
    printing = printing_of(job)
    return sheet(
        ("name", f"length_{suffix(printing)}", "pieces", "units"),
        (
            (
                row.title,
                spreadsheet(row.length, printing) if row.length else "",
                str(row.count),
                ", ".join(f"{label} {count}" for _, label, count in row.counts),
            )
            for row in hardware_list(job, only)
        ),
    )
