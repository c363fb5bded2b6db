"""A unit worked out: its things, parts, joints and proved steps, once per key."""

from collections.abc import Mapping
from functools import partial

from attrs import evolve, frozen

from casewright.compiler.bench.order import prove_order
from casewright.compiler.blame import Row, broken, finding_at
from casewright.compiler.construct.blanks import blanks_of
from casewright.compiler.construct.boring import bore
from casewright.compiler.construct.build import Build, deep
from casewright.compiler.construct.causes import first_causes
from casewright.compiler.construct.evaluate import quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.gather import Gathered
from casewright.compiler.construct.hanging import on_air
from casewright.compiler.construct.holder import Holder
from casewright.compiler.construct.leaf import Leaf
from casewright.compiler.construct.materials import called
from casewright.compiler.construct.naming import (
    figures,
    model_members,
    model_openings,
    options_in_words,
    short_addresses,
)
from casewright.compiler.construct.openings import Openings
from casewright.compiler.construct.parts import motion_of, part_of, role_of
from casewright.compiler.construct.scope import Scope
from casewright.compiler.construct.settings import never_read, unread
from casewright.compiler.construct.things import Thing
from casewright.compiler.facing import side_of, slant_of
from casewright.compiler.joints.bored import in_bored_holes
from casewright.compiler.joints.contact import make_contacts
from casewright.compiler.model import (
    AXES,
    Assembly,
    Axis,
    Blank,
    Extent,
    Extents,
    Joint,
    Mouth,
    Part,
    Step,
    Unit,
)
from casewright.compiler.text.resolve import Declaration, Program
from casewright.lang.cells import Quantity, as_place, given, literal, named
from casewright.lang.measure import Dimension, System
from casewright.lang.printing import Printing
from casewright.lang.shape import Clause, Statement, bare_word
from casewright.lang.source import Origin


@frozen(eq=False)
class Wanted:
    """What is asked for: a unit's declaration, its construction, the placed text without its
    lines, its size as the run gives it, and what stands outside; `mirrored` where left and right
    of its text are exchanged."""

    unit: Declaration
    construction: Declaration
    own: Statement
    system: System
    printing: Printing
    precision: Quantity
    width: Quantity
    high: Quantity | None
    depth: Quantity | None
    outside: Mapping[str, Quantity | str]
    mirrored: bool = False

    @property
    def bare(self) -> bool:
        """Whether the unit takes none of its construction's parts."""
        return self.unit.statement.clause("bare") is not None


def work_out(program: Program, wanted: Wanted) -> tuple[Unit, Mapping[str, object]]:
    """The unit, and what of its outside was read in working it out. Faults are its blames."""
    build = Build(
        program,
        wanted.system,
        wanted.printing,
        given(wanted.precision, "job.precision", "precision"),
        wanted.outside,
    )
    with deep():
        return _unit(build, wanted), build.reads


def sum_of(program: Program, wanted: Wanted, origin: Origin) -> tuple[Row, ...]:
    """The sum of the stack or row whose word stands at `origin`, without the unit's parts; nothing
    where it can't be made."""
    build = Build(
        program,
        wanted.system,
        wanted.printing,
        given(wanted.precision, "job.precision", "precision"),
        wanted.outside,
    )
    root = _root(build, wanted)
    width = given(wanted.width, "width", "width")
    if build.attempt(partial(_extents, root, wanted, width)) is None:
        return ()
    found = build.attempt(root.all_openings) or ()
    nodes = (openings.node_at(origin) for openings in found)
    node = next((each for each in nodes if each is not None), None)
    return (build.attempt(node.sum) if node is not None else None) or ()


def _unit(build: Build, wanted: Wanted) -> Unit:
    width = given(wanted.width, "width", "width")
    root = _root(build, wanted)
    sizes = build.attempt(partial(_extents, root, wanted, width))
    if sizes is None:
        return _frame(build, wanted, width, literal(0), literal(0))
    high, depth = sizes
    text = Gathered(build, wanted.own.head.origin)
    text.visit(root)
    openings = _openings(root)
    chosen = wanted.own.options if wanted.bare else _clauses(root)
    words = frozenset(clause.word for clause in chosen)
    shared = wanted.construction.shared - {clause.word for clause in wanted.own.options}
    build.blames.extend(unread(root, openings, words, shared))
    addresses = short_addresses(text.things)
    parts = bore(_parts(build, text.things, addresses), text.bored)
    assemblies = _assemblies(root, wanted, text.things, addresses)
    parts, blanks = _ripped(build, parts, text)
    wishes, orders = text.wishes(), text.orders()
    joints: tuple[Joint, ...] = ()
    steps: tuple[Step, ...] = ()
    if not broken(build.blames):
        parts, joints, blames = make_contacts(parts, assemblies, wishes)
        build.blames.extend(blames)
        joints, blames = in_bored_holes(parts, joints)
        build.blames.extend(blames)
        build.blames.extend(on_air(parts, root.extents["deep"].high))
    if not broken(build.blames):
        steps, blames = prove_order(parts, assemblies, joints, orders)
        build.blames.extend(blames)
        build.blames.extend(never_read(root, openings, wanted.own.options))
    placed = [thing for thing in text.things if thing.rule == "assembly"]
    named_figures = figures(root, parts, blanks, placed, openings, addresses)
    whole = {"across": width, "width": width, "high": high, "depth": depth}
    unit = _frame(build, wanted, width, high, depth)
    return evolve(
        unit,
        parts=parts,
        assemblies=assemblies,
        openings=model_openings(openings),
        members=model_members(openings),
        joints=joints,
        steps=steps,
        blanks=blanks,
        options=options_in_words(root),
        named={**named_figures, **whole},
        blames=first_causes(build.blames),
        mouths=_mouths(root),
    )


def _mouths(root: Holder) -> tuple[Mouth, ...]:
    mouths = root.build.attempt(root.mouths) or ()
    found = (root.build.attempt(partial(_mouth, mouth)) for mouth in mouths)
    return tuple(mouth for mouth in found if mouth is not None)


def _mouth(mouth: Holder) -> Mouth:
    assert mouth.thing is not None, "a mouth is a placed thing"
    extents = mouth.thing.in_unit()
    return Mouth(mouth.name, side_of(mouth.faces), extents, slant_of(mouth.faces))


def _frame(build: Build, wanted: Wanted, width: Quantity, high: Quantity, depth: Quantity) -> Unit:
    """The unit without anything in it."""
    return Unit(
        wanted.unit.name,
        called(wanted.unit.statement, wanted.unit.name),
        wanted.construction.name,
        role_of(wanted.unit.statement),
        width,
        high,
        depth,
        *((),) * 7,
        options={},
        named={},
        blames=first_causes(build.blames),
    )


def _root(build: Build, wanted: Wanted) -> Holder:
    """The unit as a holder: the text of its construction, opened by the unit's, opened by the
    placed one's own."""
    construction = wanted.construction.statement
    if wanted.bare:
        kept = tuple(line for line in construction.body if line.rule in ("option", "let"))
        construction = evolve(construction, body=kept)
    text = evolve(construction, body=build.opened(construction, wanted.unit.statement))
    body = build.opened(text, wanted.own)
    settings: dict[str, tuple[Clause, Scope | None]] = {}
    for statement in (construction, wanted.unit.statement, wanted.own):
        for clause in statement.options:
            if clause.values:
                settings[clause.word] = (clause, None)
    return Holder(build, "", wanted.unit.name, body, settings, None, None, wanted.mirrored)


def _clauses(root: Holder) -> tuple[Clause, ...]:
    return tuple(clause for clause, _ in root.settings.values())


# -- the outside -------------------------------------------------------------------------------


def _extents(root: Holder, wanted: Wanted, width: Quantity) -> tuple[Quantity, Quantity]:
    """Sets the unit's own extents; returns its height and depth. Raises Fault."""
    high = _outer_size(root, wanted, "high", wanted.high)
    depth = _outer_size(root, wanted, "depth", wanted.depth)
    for word, size in (("wide", width), ("high", high), ("depth", depth)):
        if size.value <= 0:
            raise fault(
                "size-not-positive",
                f"{wanted.unit.name.replace('_', ' ')} is not more than nothing {word}",
                wanted.own.head.origin,
                help=f"it comes out at {root.scope().say(size)}",
            )
    along: dict[Axis, tuple[str, str, Quantity]] = {
        "across": ("left", "right", width),
        "up": ("bottom", "top", high),
        "deep": ("front", "back", depth),
    }
    extents: dict[Axis, Extent] = {}
    for axis in AXES:
        low, far, size = along[axis]
        zero = as_place(literal(0, label=f"the unit's {low}"), axis)
        extents[axis] = Extent(zero, named(as_place(size, axis), far))
    root.extents = extents
    return high, depth


def outer_size(program: Program, wanted: Wanted, word: str) -> Quantity | None:
    """How `high` or what `depth` a unit is to be, by its text and options alone, before it has a
    width and neighbours; None where it is said nowhere or can't be told from these."""
    build = Build(program, wanted.system, wanted.printing, wanted.precision, wanted.outside)
    root = _root(build, wanted)
    return build.glance(lambda: _outer_size(root, wanted, word, None))


def _outer_size(root: Holder, wanted: Wanted, word: str, handed: Quantity | None) -> Quantity:
    for statement in (wanted.own, wanted.unit.statement):
        clause = statement.clause(word)
        if clause is not None and clause.values:
            found = quantity(clause.values[0], root.scope(), Dimension.LENGTH)
            return named(found, word, clause.origin)
    if handed is not None:
        return given(handed, word, word)
    raise fault(
        "value-missing",
        f"{wanted.unit.name} doesn't say how {word} it is",
        wanted.own.head.origin,
        help=f"add {word} and a length",
    )


def _openings(root: Holder) -> tuple[Openings, ...]:
    """The unit's openings, of every mouth; each must be more than nothing."""
    found = root.build.attempt(root.all_openings) or ()
    for openings in found:
        for leaf in openings.leaves:
            _check_room(leaf)
    return found


def _check_room(leaf: Leaf) -> None:
    axes: tuple[Axis, Axis] = ("across", "up")
    for axis in axes:
        extent = leaf.build.attempt(partial(leaf.extent, axis))
        if extent is not None and extent.high.value <= extent.low.value:
            leaf.build.blames.append(
                finding_at(
                    leaf.origin,
                    "nothing-left",
                    f"{leaf.title} has no room {axis}",
                    help="make the unit larger, or its other openings smaller",
                )
            )


# -- the inside --------------------------------------------------------------------------------


def _parts(build: Build, things: list[Thing], addresses: Mapping[str, str]) -> tuple[Part, ...]:
    parts: list[Part] = []
    for thing in things:
        if thing.rule == "assembly":
            build.attempt(thing.in_unit)
            continue
        part = build.attempt(partial(part_of, thing, addresses))
        if part is not None:
            parts.append(part)
    return tuple(parts)


def _ripped(
    build: Build, parts: tuple[Part, ...], text: Gathered
) -> tuple[tuple[Part, ...], tuple[Blank, ...]]:
    made = build.attempt(partial(blanks_of, parts, text.strips))
    return (parts, ()) if made is None else made


def _assemblies(
    root: Holder, wanted: Wanted, things: list[Thing], addresses: Mapping[str, str]
) -> tuple[Assembly, ...]:
    """Every assembly, the unit itself first."""
    everything = [thing for thing in things if thing.rule == "assembly"]
    inside: dict[str, tuple[list[str], list[str]]] = {"": ([], [])}
    for thing in everything:
        inside.setdefault(thing.path, ([], []))
    for thing in things:
        held = inside.setdefault(thing.scope.holder.built_into, ([], []))
        held[1 if thing.rule == "assembly" else 0].append(thing.path)
    whole = Extents(*(root.extents[axis] for axis in AXES))
    parts, assemblies = inside[""]
    title = called(wanted.unit.statement, wanted.unit.name)
    found = [Assembly("", "", title, "", "", whole, None, tuple(parts), tuple(assemblies), None)]
    for thing in everything:
        assembly = root.build.attempt(partial(_assembly, thing, addresses, inside[thing.path]))
        if assembly is not None:
            found.append(assembly)
    return tuple(found)


def _assembly(
    thing: Thing, addresses: Mapping[str, str], inside: tuple[list[str], list[str]]
) -> Assembly:
    return Assembly(
        thing.path,
        addresses[thing.path],
        thing.name.replace("_", " "),
        role_of(thing.statement) or _pattern_role(thing),
        thing.opening,
        thing.in_unit(),
        motion_of(thing),
        tuple(inside[0]),
        tuple(inside[1]),
        thing.origin,
        side_of(thing.faces),
        slant_of(thing.faces),
    )


def _pattern_role(thing: Thing) -> str:
    clause = thing.statement.clause("of")
    word = bare_word(clause.values[0]) if clause is not None else ""
    pattern = thing.build.program.find("pattern", word)
    return role_of(pattern.statement) if pattern is not None else ""
