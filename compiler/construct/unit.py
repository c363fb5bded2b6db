"""A unit worked out: its things, parts, joints and proved steps, once per key."""

from collections.abc import Iterable, Mapping
from functools import partial

from attrs import evolve, frozen

from casewright.compiler.blame import Blame, finding_at
from casewright.compiler.construct.blanks import Strips, blanks_of
from casewright.compiler.construct.build import Build
from casewright.compiler.construct.evaluate import condition, quantity, words_of
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.holder import PLACED, Holder
from casewright.compiler.construct.openings import Leaf, Member, Openings
from casewright.compiler.construct.parts import (
    called,
    edges_of,
    fixing_of,
    motion_of,
    part_of,
    role_of,
)
from casewright.compiler.construct.scope import Scope
from casewright.compiler.construct.things import Thing
from casewright.compiler.construct.values import Choice, Datum, Missing, Several, Sides
from casewright.compiler.contact import make_contacts
from casewright.compiler.model import (
    AXES,
    Assembly,
    Axis,
    Blank,
    Extent,
    Extents,
    Joint,
    Opening,
    Order,
    Part,
    Step,
    Unit,
    Wish,
)
from casewright.compiler.model import Member as ModelMember
from casewright.compiler.order import prove_order
from casewright.compiler.resolve import Declaration, Program
from casewright.lang.cells import Quantity, as_place, given, literal, named, subtract
from casewright.lang.measure import Dimension, System
from casewright.lang.printing import Printing
from casewright.lang.shape import Clause, Statement, bare_word, suggestion
from casewright.lang.tree import Expression, Text


@frozen(eq=False)
class Wanted:
    """What is asked for: a unit's declaration, its construction, the placed text without its
    lines, its size as the run gives it, and what stands outside."""

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


def work_out(program: Program, wanted: Wanted) -> tuple[Unit, Mapping[str, object]]:
    """The unit, and what of its outside was read in working it out. Faults are its blames."""
    build = Build(
        program,
        wanted.system,
        wanted.printing,
        given(wanted.precision, "job.precision", "precision"),
        wanted.outside,
    )
    return _Working(build, wanted).unit(), build.reads


class _Working:
    def __init__(self, build: Build, wanted: Wanted) -> None:
        self.build = build
        self.wanted = wanted
        self.bare = wanted.unit.statement.clause("bare") is not None
        self.root = self._root()
        self.things: list[Thing] = []
        self.strips: list[Strips] = []
        self.joins: list[tuple[Statement, Scope]] = []
        self.steps: list[tuple[Statement, Scope]] = []

    def _root(self) -> Holder:
        """The unit as a holder: the text of its construction, opened by the unit's, opened by
        the placed one's own."""
        wanted = self.wanted
        construction = wanted.construction.statement
        if self.bare:
            kept = tuple(s for s in construction.body if s.rule in ("option", "let"))
            construction = evolve(construction, body=kept)
        text = evolve(construction, body=self.build.opened(construction, wanted.unit.statement))
        body = self.build.opened(text, wanted.own)
        settings: dict[str, tuple[Clause, Scope | None]] = {}
        for statement in (construction, wanted.unit.statement, wanted.own):
            for clause in statement.options:
                settings[clause.word] = (clause, None)
        return Holder(self.build, "", wanted.unit.name, body, settings, None, None, False)

    def unit(self) -> Unit:
        wanted = self.wanted
        width = given(wanted.width, "width", "width")
        sizes = self.build.attempt(lambda: self._extents(width))
        if sizes is None:
            return self._empty(width)
        high, depth = sizes
        self._visit(self.root)
        openings = self._openings()
        self._unknown_settings()
        addresses = short_addresses(self.things)
        parts = self._parts(addresses)
        assemblies = self._assemblies(addresses)
        broken = bool(self.build.blames)
        parts, blanks = self._blanks(parts)
        joints: tuple[Joint, ...] = ()
        wishes = self._wishes()
        orders = self._orders()
        broken = broken or bool(self.build.blames)
        proved: tuple[Step, ...] = ()
        if not broken:
            parts, joints, blames = make_contacts(parts, assemblies, wishes)
            self.build.blames.extend(blames)
            if not blames:
                proved, blames = prove_order(parts, assemblies, joints, orders)
                self.build.blames.extend(blames)
        return Unit(
            name=wanted.unit.name,
            title=called(wanted.unit.statement, wanted.unit.name),
            construction=wanted.construction.name,
            role=role_of(wanted.unit.statement),
            width=width,
            height=high,
            depth=depth,
            parts=parts,
            assemblies=assemblies,
            openings=self._model_openings(openings),
            members=self._members(openings),
            joints=joints,
            steps=proved,
            blanks=blanks,
            options=self._options(),
            named=self._named(parts, openings, addresses, width, high, depth),
            blames=first_causes(self.build.blames),
        )

    def _empty(self, width: Quantity) -> Unit:
        wanted = self.wanted
        nothing = literal(0)
        return Unit(
            wanted.unit.name,
            called(wanted.unit.statement, wanted.unit.name),
            wanted.construction.name,
            role_of(wanted.unit.statement),
            width,
            nothing,
            nothing,
            *((),) * 7,
            options={},
            named={},
            blames=first_causes(self.build.blames),
        )

    # -- the outside ---------------------------------------------------------------------------

    def _extents(self, width: Quantity) -> tuple[Quantity, Quantity]:
        """Sets the unit's own extents; returns its height and depth. Raises Fault."""
        high = self._outer_size("high", self.wanted.high)
        depth = self._outer_size("depth", self.wanted.depth)
        for word, size in (("wide", width), ("high", high), ("depth", depth)):
            if size.value <= 0:
                raise fault(
                    "size-not-positive",
                    f"{self.wanted.unit.name.replace('_', ' ')} is not more than nothing {word}",
                    self.wanted.own.head.origin,
                    help=f"it comes out at {self.root.scope().say(size)}",
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
        self.root.extents = extents
        return high, depth

    def _outer_size(self, word: str, handed: Quantity | None) -> Quantity:
        for statement in (self.wanted.own, self.wanted.unit.statement):
            clause = statement.clause(word)
            if clause is not None and clause.values:
                found = quantity(clause.values[0], self.root.scope(), Dimension.LENGTH)
                return named(found, word, clause.origin)
        if handed is not None:
            return given(handed, word, word)
        raise fault(
            "value-missing",
            f"{self.wanted.unit.name} doesn't say how {word} it is",
            self.wanted.own.head.origin,
            help=f"add {word} and a length",
        )

    # -- things --------------------------------------------------------------------------------

    def _visit(self, holder: Holder) -> None:
        """Collects every thing, join, step and blank of a holder and what it holds."""
        for statement, scope in holder.walk():
            if statement.rule in PLACED and statement.name:
                thing = self.build.attempt(
                    lambda statement=statement, scope=scope: holder.make(statement, scope)  # type: ignore[misc]
                )
                if thing is None:
                    continue
                self.things.append(thing)
                if statement.rule == "assembly":
                    inner = self.build.attempt(lambda thing=thing: thing.inner)  # type: ignore[misc]
                    if inner is not None:
                        self._visit(inner)
            elif statement.rule == "join":
                self.joins.append((statement, scope))
            elif statement.rule == "step":
                self.steps.append((statement, scope))
            elif statement.rule == "require":
                self.build.attempt(
                    lambda statement=statement, scope=scope: self._require(statement, scope)  # type: ignore[misc]
                )
            elif statement.rule == "rip":
                strips = self.build.attempt(
                    lambda statement=statement, scope=scope: self._strips(statement, scope)  # type: ignore[misc]
                )
                if strips is not None:
                    self.strips.append(strips)

    def _require(self, statement: Statement, scope: Scope) -> None:
        if condition(statement.values[0], scope):
            return
        text = statement.values[1]
        words = words_of(text, scope) if isinstance(text, Text) else "this must be so"
        raise fault(
            "requirement-not-met",
            words,
            self.wanted.own.head.origin,
            labels=((statement.head.origin, "asked for here"),),
        )

    def _strips(self, statement: Statement, scope: Scope) -> Strips:
        kerf, trim = statement.clause("kerf"), statement.clause("trim")
        return Strips(
            tuple(thing.path for thing in self._list(statement.values, scope)),
            quantity(kerf.values[0], scope, Dimension.LENGTH) if kerf is not None else None,
            quantity(trim.values[0], scope, Dimension.LENGTH) if trim is not None else None,
            statement.head.origin,
        )

    def _parts(self, addresses: Mapping[str, str]) -> tuple[Part, ...]:
        parts: list[Part] = []
        for thing in self.things:
            if thing.rule == "assembly":
                self.build.attempt(lambda thing=thing: [thing.extent(axis) for axis in AXES])  # type: ignore[misc]
                continue
            part = self.build.attempt(lambda thing=thing: part_of(thing, addresses))  # type: ignore[misc]
            if part is not None:
                parts.append(part)
        return tuple(parts)

    def _assemblies(self, addresses: Mapping[str, str]) -> tuple[Assembly, ...]:
        """Every assembly, the unit itself first."""
        everything = [thing for thing in self.things if thing.rule == "assembly"]
        inside: dict[str, tuple[list[str], list[str]]] = {"": ([], [])}
        for thing in everything:
            inside.setdefault(thing.path, ([], []))
        for thing in self.things:
            held = inside.setdefault(thing.scope.holder.path, ([], []))
            held[1 if thing.rule == "assembly" else 0].append(thing.path)
        whole = Extents(*(self.root.extents[axis] for axis in AXES))
        parts, assemblies = inside[""]
        title = called(self.wanted.unit.statement, self.wanted.unit.name)
        found = [
            Assembly("", "", title, "", "", whole, None, tuple(parts), tuple(assemblies), None)
        ]
        for thing in everything:
            assembly = self.build.attempt(
                lambda thing=thing: self._assembly(thing, addresses, inside[thing.path])  # type: ignore[misc]
            )
            if assembly is not None:
                found.append(assembly)
        return tuple(found)

    def _assembly(
        self,
        thing: Thing,
        addresses: Mapping[str, str],
        inside: tuple[list[str], list[str]],
    ) -> Assembly:
        return Assembly(
            thing.path,
            addresses[thing.path],
            thing.name.replace("_", " "),
            role_of(thing.statement) or self._pattern_role(thing),
            thing.opening,
            Extents(*(thing.extent(axis) for axis in AXES)),
            motion_of(thing),
            tuple(inside[0]),
            tuple(inside[1]),
            thing.origin,
        )

    def _pattern_role(self, thing: Thing) -> str:
        clause = thing.statement.clause("of")
        word = bare_word(clause.values[0]) if clause is not None else ""
        pattern = self.build.program.find("pattern", word)
        return role_of(pattern.statement) if pattern is not None else ""

    # -- lists of things -----------------------------------------------------------------------

    def _list(self, values: Iterable[Expression], scope: Scope) -> list[Thing]:
        """The things a list names: all that a `for each` made under a name, none that is not
        there."""
        found: list[Thing] = []
        for value in values:
            worth = scope.value_of(value)
            if isinstance(worth, Missing):
                continue
            if isinstance(worth, Several):
                found.extend(thing for thing in worth.things if isinstance(thing, Thing))
            elif isinstance(worth, Thing):
                found.append(worth)
            else:
                raise fault("wrong-kind", "here parts and assemblies are named", value.origin)
        return found

    def _wishes(self) -> tuple[Wish, ...]:
        wishes: list[Wish] = []
        for statement, scope in self.joins:
            wish = self.build.attempt(
                lambda statement=statement, scope=scope: self._wish(statement, scope)  # type: ignore[misc]
            )
            if wish is not None and wish.first and wish.second:
                wishes.append(wish)
        return tuple(wishes)

    def _wish(self, statement: Statement, scope: Scope) -> Wish:
        to, into = statement.clause("to"), statement.clause("into")
        target = to or into
        if target is None or (to is not None and into is not None):
            raise fault("value-missing", "join says to, or into, and what", statement.head.origin)
        with_, play = statement.clause("with"), statement.clause("play")
        fixing = None
        if with_ is not None:
            fixing = fixing_of(self.build, with_.values[0], scope)
        return Wish(
            tuple(thing.path for thing in self._list(statement.values, scope)),
            tuple(thing.path for thing in self._list(target.values, scope)),
            "to" if to is not None else "into",
            fixing,
            quantity(play.values[0], scope, Dimension.LENGTH) if play is not None else None,
            statement.head.origin,
        )

    def _orders(self) -> tuple[Order, ...]:
        orders: list[Order] = []
        for statement, scope in self.steps:
            order = self.build.attempt(
                lambda statement=statement, scope=scope: self._order(statement, scope)  # type: ignore[misc]
            )
            if order is None or not (order.brings or order.words):
                continue
            after = statement.clause("after")
            index = len(orders)
            if after is not None:
                named_things = self.build.attempt(
                    lambda after=after, scope=scope: self._list(after.values, scope)  # type: ignore[misc]
                )
                paths = {thing.path for thing in named_things or ()}
                for position, each in enumerate(orders):
                    if paths & set(each.brings):
                        index = position + 1
            orders.insert(index, order)
        return tuple(orders)

    def _order(self, statement: Statement, scope: Scope) -> Order:
        words = [words_of(value, scope) for value in statement.values if isinstance(value, Text)]
        names = [value for value in statement.values if not isinstance(value, Text)]
        things = self._list(names, scope)
        for thing in things:
            if thing.scope.holder is not scope.holder:
                raise fault(
                    "step-elsewhere",
                    f"{thing.name.replace('_', ' ')} is built into "
                    f"{thing.scope.holder.name.replace('_', ' ')}, not here",
                    statement.head.origin,
                    help="bring in the whole assembly, or move the step into it",
                )
        if statement.clause("square") is not None:
            words.append("square")
        lies = statement.clause("lies")
        return Order(
            scope.holder.path,
            tuple(thing.path for thing in things),
            edges_of(lies, scope)[0] if lies is not None else "",
            "; ".join(words),
            statement.head.origin,
        )

    def _blanks(self, parts: tuple[Part, ...]) -> tuple[tuple[Part, ...], tuple[Blank, ...]]:
        made = self.build.attempt(lambda: blanks_of(parts, self.strips))
        if made is None:
            return parts, ()
        return made

    # -- openings, options, names --------------------------------------------------------------

    def _openings(self) -> Openings | None:
        openings = self.build.attempt(self.root.openings)
        if openings is None:
            return None
        for leaf in openings.leaves:
            self._check_leaf(leaf, openings)
        return openings

    def _check_leaf(self, leaf: Leaf, openings: Openings) -> None:
        """An opening must be more than nothing, and something must be made of its filling."""
        for axis in ("across", "up"):
            extent = self.build.attempt(lambda axis=axis: leaf.extent(axis))  # type: ignore[misc]
            if extent is not None and extent.high.value <= extent.low.value:
                self.build.blames.append(
                    finding_at(
                        leaf.origin,
                        "nothing-left",
                        f"{leaf.title} has no room {axis}",
                        help="make the unit larger, or its other openings smaller",
                    )
                )
        known = {
            statement.name
            for statement in leaf.filling.statement.body
            if statement.rule == "option"
        }
        for clause in leaf.statement.options:
            if clause.word not in known:
                self.build.blames.append(
                    finding_at(
                        clause.origin,
                        "unknown-option",
                        f"{leaf.filling.name} has no option {clause.word}",
                        help=suggestion(clause.word, known),
                    )
                )

    def _unknown_settings(self) -> None:
        """Options that were chosen and that nothing of this unit has."""
        offered = {
            bare_word(value)
            for statement in self.root.body
            if statement.rule == "offers"
            for value in statement.values
        }
        openings = self.build.attempt(self.root.openings)
        fillings = {leaf.filling.name: leaf.filling for leaf in openings.leaves} if openings else {}
        of_fillings = {
            statement.name
            for filling in fillings.values()
            for statement in filling.statement.body
            if statement.rule == "option"
        }
        known = set(self.root.index) | offered | of_fillings
        anywhere = self._options_anywhere()
        own = {clause.word for clause in self.wanted.own.options}
        for word, (clause, _) in self.root.settings.items():
            if word in known or (self.bare and word not in own):
                continue
            if word in anywhere:
                continue
            self.build.blames.append(
                finding_at(
                    clause.origin,
                    "unknown-option",
                    f"nothing in {self.wanted.unit.name} has an option {word}",
                    help=suggestion(word, known | anywhere),
                )
            )

    def _options_anywhere(self) -> set[str]:
        """Options of every construction and pattern: what another way to build would read."""
        words: set[str] = set()
        for kind in ("construction", "pattern"):
            for name in self.build.program.names(kind):
                declaration = self.build.program.find(kind, name)
                if declaration is not None:
                    words |= {
                        statement.name
                        for statement in declaration.statement.body
                        if statement.rule == "option"
                    }
        return words

    def _model_openings(self, openings: Openings | None) -> tuple[Opening, ...]:
        if openings is None:
            return ()
        found = (self.build.attempt(lambda leaf=leaf: _opening(leaf)) for leaf in openings.leaves)  # type: ignore[misc]
        return tuple(opening for opening in found if opening is not None)

    def _members(self, openings: Openings | None) -> tuple[ModelMember, ...]:
        if openings is None:
            return ()

        def model(member: Member) -> ModelMember:
            return ModelMember(member.kind, member.extent("across"), member.extent("up"))

        members = (*openings.members("level"), *openings.members("post"))
        found = (self.build.attempt(lambda member=member: model(member)) for member in members)  # type: ignore[misc]
        return tuple(member for member in found if member is not None)

    def _options(self) -> dict[str, str]:
        found: dict[str, str] = {}
        for name, declared in self.root.index.items():
            if declared[0].statement.rule != "option":
                continue
            value = self.build.glance(partial(self.root.option, declared[0], None))
            if value is not None:
                found[name] = self.root.scope().say(value)
        return found

    def _named(
        self,
        parts: tuple[Part, ...],
        openings: Openings | None,
        addresses: Mapping[str, str],
        width: Quantity,
        high: Quantity,
        depth: Quantity,
    ) -> dict[str, Quantity]:
        found = {"across": width, "width": width, "high": high, "depth": depth}
        for part in parts:
            for word in ("length", "width", "thick", "cut_length", "cut_width"):
                found[f"{part.address}.{word}"] = getattr(part, word)
            _name_edges(found, part.address, part.extents)
        for thing in self.things:
            if thing.rule == "assembly":
                extents = self.build.attempt(
                    lambda thing=thing: Extents(*(thing.extent(axis) for axis in AXES))  # type: ignore[misc]
                )
                if extents is not None:
                    _name_edges(found, addresses[thing.path], extents)
                    for axis in AXES:
                        found[f"{addresses[thing.path]}.{axis}"] = thing.size(axis)
        if openings is not None:
            for leaf in openings.leaves:
                self.build.attempt(lambda leaf=leaf: _name_opening(found, leaf))  # type: ignore[misc]
        for name, declared in self.root.index.items():
            if declared[0].statement.rule == "option":
                value = self.build.glance(partial(self.root.option, declared[0], None))
                if isinstance(value, Quantity):
                    found[name] = value
        return found


def _name_edges(found: dict[str, Quantity], address: str, extents: Extents) -> None:
    for axis, (low, high) in (
        ("across", ("left", "right")),
        ("up", ("bottom", "top")),
        ("deep", ("front", "back")),
    ):
        extent = extents.along(axis)  # type: ignore[arg-type]
        found[f"{address}.{low}"] = extent.low
        found[f"{address}.{high}"] = extent.high


def _name_opening(found: dict[str, Quantity], leaf: Leaf) -> None:
    across, up = leaf.extent("across"), leaf.extent("up")
    found[f"{leaf.address}.opening"] = subtract(up.high, up.low)
    found[f"{leaf.address}.opening_width"] = subtract(across.high, across.low)
    found[f"{leaf.address}.bottom"] = up.low
    found[f"{leaf.address}.top"] = up.high


def _opening(leaf: Leaf) -> Opening:
    options: dict[str, str] = {}
    for statement in leaf.filling.statement.body:
        if statement.rule == "option":
            value = leaf.option(statement.name, None)
            if isinstance(value, Choice):
                options[statement.name] = value.word
            elif isinstance(value, Quantity):
                options[statement.name] = str(value.value)
            elif isinstance(value, Datum):
                options[statement.name] = value.declaration.name
            elif isinstance(value, Sides):
                options[statement.name] = " ".join(sorted(value.words))
    sides = ("left", "right", "top", "bottom")
    return Opening(
        leaf.address,
        leaf.title,
        leaf.filling.name,
        leaf.faced,
        leaf.extent("across"),
        leaf.extent("up"),
        {side: leaf.cover(side) for side in sides} if leaf.faced else {},
        {side: leaf.gap(side) for side in sides} if leaf.faced else {},
        options,
        leaf.origin,
    )


def short_addresses(things: Iterable[Thing]) -> dict[str, str]:
    """The form papers use of every path: the opening a thing was made for and its name, without
    the assemblies between, where that is the only one of its kind."""
    short: dict[str, str] = {}
    count: dict[str, int] = {}
    for thing in things:
        found = f"{thing.opening}.{thing.name}" if thing.opening else thing.name
        short[thing.path] = found
        count[found] = count.get(found, 0) + 1
    return {path: found if count[found] == 1 else path for path, found in short.items()}


CAUSES = (
    ("requirement-not-met",),
    ("nothing-left", "openings-dont-close", "too-many-openings"),
    ("size-not-positive",),
)
"""What silences what: a fault of an earlier line explains those of the later ones."""


def first_causes(blames: Iterable[Blame]) -> tuple[Blame, ...]:
    """One cause gives one report: equal blames once, those that another explains not at all, and
    of several parts that have no room the first, saying how many more there are."""
    distinct: dict[tuple[object, ...], Blame] = {}
    for blame in blames:
        key = (blame.finding.slug, blame.finding.headline, blame.origin)
        distinct.setdefault(key, blame)
    kept = list(distinct.values())
    for index, slugs in enumerate(CAUSES):
        if any(blame.finding.slug in slugs for blame in kept):
            silenced = {slug for later in CAUSES[index + 1 :] for slug in later}
            kept = [blame for blame in kept if blame.finding.slug not in silenced]
            break
    small = [blame for blame in kept if blame.finding.slug == "size-not-positive"]
    if len(small) > 1:
        first = small[0]
        more = f"{first.finding.headline}, nor for {len(small) - 1} more"
        folded = evolve(first, finding=evolve(first.finding, headline=more))
        kept = [folded if blame is first else blame for blame in kept if blame not in small[1:]]
    return tuple(kept)
