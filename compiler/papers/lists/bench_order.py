"""The order of work at the bench for one unit: inner boxes first, equal ones together."""

from collections.abc import Iterator, Sequence

from attrs import frozen

from casewright.compiler.model import EDGES, Assembly, Joint, Part, Step, Unit
from casewright.compiler.papers.names import counted, folded, listed, words


@frozen
class Coming:
    """One thing that comes in with a step, as built once; `path` is its own."""

    path: str
    address: str
    part: Part | None
    assembly: Assembly | None
    axis: str
    side: int
    joints: tuple[Joint, ...]

    @property
    def parts(self) -> tuple[Part, ...]:
        return (self.part,) if self.part else ()


@frozen
class BenchStep:
    """A step of the whole unit's work, numbered through from 1.

    `holders` are the assemblies it is done for, equal in shape (three drawer boxes are built the
    same way); ("",) is the unit itself. `comings` has one entry a thing of the first of them,
    `alike` the same things of all of them, `words` what each is told besides.
    """

    number: int
    holders: tuple[str, ...]
    step: Step
    comings: tuple[Coming, ...]
    alike: tuple[tuple[Coming, ...], ...]
    lies: str
    words: tuple[str, ...]

    @property
    def names(self) -> str:
        """What comes in, in words."""
        return folded(dict.fromkeys(coming.address for comings in self.alike for coming in comings))

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every part that comes in, of all equal assemblies."""
        return tuple(part for comings in self.alike for each in comings for part in each.parts)


def bench_order(unit: Unit) -> tuple[BenchStep, ...]:
    """All steps of a unit, in an order in which nothing is needed before it is made."""
    order = _Order(unit)
    return tuple(BenchStep(number, *rest) for number, rest in enumerate(order.walk(("",)), 1))


class _Order:
    def __init__(self, unit: Unit) -> None:
        self.unit = unit
        self.parts = {part.path: part for part in unit.parts}
        self.assemblies = {each.path: each for each in unit.assemblies}
        self.steps: dict[str, list[Step]] = {}
        for step in unit.steps:
            self.steps.setdefault(step.assembly, []).append(step)
        self.done: set[str] = set()
        shapes: dict[object, list[str]] = {}
        for path in self.assemblies:
            if path:
                shapes.setdefault(self._shape(path), []).append(path)
        self.alike = {path: tuple(paths) for paths in shapes.values() for path in paths}

    def _shape(self, path: str) -> object:
        """Equal for assemblies that are built in the same steps under the same holder's kind."""
        steps = tuple(
            (
                step.number, step.lies, bool(step.words),
                tuple((way.thing.removeprefix(path), way.axis, way.side) for way in step.ways),
                frozenset(self._kind(step, index) for index in step.joints),
            )
            for step in self.steps.get(path, ())
        )  # fmt: skip
        return steps or path

    def _kind(self, step: Step, index: int) -> tuple[str, str]:
        joint = self.unit.joints[index]
        return joint.kind, joint.fixing.name if joint.fixing else ""

    def walk(
        self, holders: tuple[str, ...]
    ) -> Iterator[
        tuple[
            tuple[str, ...],
            Step,
            tuple[Coming, ...],
            tuple[tuple[Coming, ...], ...],
            str,
            tuple[str, ...],
        ]
    ]:
        """The steps of equal assemblies, each preceded by those of the boxes it brings in."""
        self.done.update(holders)
        lies = ""
        for place, step in enumerate(self.steps.get(holders[0], ())):
            lies = step.lies or lies
            for way in step.ways:
                if way.thing in self.assemblies and way.thing not in self.done:
                    yield from self.walk(self.alike.get(way.thing, (way.thing,)))
            alike = tuple(
                tuple(self._coming(self.steps[holder][place], index) for index in range(count))
                for holder in holders
                for count in [len(self.steps[holder][place].ways)]
            )
            words = tuple(self.steps[holder][place].words for holder in holders)
            yield holders, step, alike[0], alike, lies, words

    def _coming(self, step: Step, index: int) -> Coming:
        way = step.ways[index]
        inside = way.thing + "."
        joints = tuple(
            joint
            for joint in (self.unit.joints[each] for each in step.joints)
            if way.thing in (joint.first, joint.second)
            or joint.first.startswith(inside)
            or joint.second.startswith(inside)
        )
        part = self.parts.get(way.thing)
        assembly = self.assemblies.get(way.thing)
        address = part.address if part else assembly.address if assembly else way.thing
        return Coming(way.thing, address, part, assembly, way.axis, way.side, joints)


_FROM = {edge: f"from the {edge}" for edge in EDGES} | {"bottom": "from below", "top": "from above"}


def from_where(coming: Coming, lies: str) -> str:
    """The way in, in words as the work lies on the bench; empty for what is there first."""
    edge = next(
        (
            word
            for word, (axis, side) in EDGES.items()
            if (axis, side) == (coming.axis, coming.side)
        ),
        "",
    )
    if not edge:
        return ""
    if lies:
        down_axis, down_side = EDGES[lies]
        if (coming.axis, coming.side) == (down_axis, -down_side):
            return "from above"
        if edge in ("top", "bottom"):
            # The box lies on another face, so its own top isn't above.
            return f"from its {edge}"
    return _FROM[edge]


def fastening(joints: Sequence[Joint]) -> str:
    """How joints are fastened, in words without figures: `glued`, `groove`, `brads, staples`."""
    texts = []
    for joint in joints:
        if joint.fixing is not None:
            texts.append(joint.fixing.title)
        elif joint.kind == "groove":
            texts.append("groove")
    return ", ".join(dict.fromkeys(texts))


@frozen
class Fixed:
    """Joints of one step that are made alike: which parts, to which, and what each joint takes."""

    title: str
    firsts: tuple[str, ...]
    seconds: tuple[str, ...]
    fasteners: tuple[str, ...]


def fixed(step: BenchStep, unit: Unit) -> tuple[Fixed, ...]:
    """The joints a step closes, alike ones together; of equal boxes the first one's."""
    addresses = {part.path: part.address for part in unit.parts}
    groups: dict[tuple[str, tuple[str, ...]], dict[Joint, None]] = {}
    for coming in step.comings:
        for joint in coming.joints:
            title = joint.fixing.title if joint.fixing else joint.kind
            takes = tuple(f"{each.count} × {words(each.name)}" for each in joint.fasteners)
            groups.setdefault((title, takes), {})[joint] = None
    return tuple(
        Fixed(
            title,
            tuple(dict.fromkeys(addresses.get(each.first, each.first) for each in joints)),
            tuple(dict.fromkeys(addresses.get(each.second, each.second) for each in joints)),
            takes,
        )
        for (title, takes), joints in groups.items()
    )


def holder_words(holders: Sequence[str], unit: Unit) -> str:
    """The assemblies a step is done for, in words; the unit's own title for the unit."""
    if holders == ("",):
        return words(unit.title)
    addresses = {each.path: each.address for each in unit.assemblies}
    return listed(counted(words(addresses.get(path, path)) for path in holders))


def faces(lies: str) -> str:
    """`left face on the bench`."""
    return f"{lies} face on the bench" if lies else ""


def said_besides(step: BenchStep, unit: Unit) -> str:
    """The bench's own words of a step, once where equal boxes are told the same."""
    by_words: dict[str, list[str]] = {}
    for holder, text in zip(step.holders, step.words, strict=True):
        if text:
            by_words.setdefault(text, []).append(holder)
    if len(by_words) < 2:
        return "".join(by_words)
    return "; ".join(
        f"{holder_words(tuple(holders), unit)}: {text}" for text, holders in by_words.items()
    )
