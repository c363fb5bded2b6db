"""Contact: which parts touch or enter each other, as the text's joins say, proved in space.

A join `to` holds two parts face to face; a join `into` makes a groove (`groove.py`). What no join
explains is a finding: two solids in one space, a part that nothing holds.

One cause gives one report: a join that fails is still taken as the writer's will that its parts
are joined, so they aren't called loose too; two parts that share space aren't also said not to
touch.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Literal

from attrs import define, evolve, field

from casewright.compiler.blame import Blame
from casewright.compiler.joints.fastening import MOST_FASTENERS, fasteners_of, hold_count, strip
from casewright.compiler.joints.geometry import (
    Block,
    Scale,
    Solid,
    around,
    contact,
    gaps,
    less,
    overlap,
    scale_of,
    shared,
    solid_of,
)
from casewright.compiler.joints.groove import Groove, NoGroove, entry, make_groove, runs_through
from casewright.compiler.joints.misfits import (
    apart_across_turns,
    loose,
    no_entry,
    no_stock,
    not_met,
    same_space,
    too_close,
)
from casewright.compiler.joints.oblique import Body, are_askew, met, prisms, space_shared
from casewright.compiler.model import (
    Assembly,
    Axis,
    Box,
    Fasteners,
    Fixing,
    Joint,
    Part,
    Slant,
    Wish,
)

Pair = tuple[str, str]


def make_contacts(
    parts: tuple[Part, ...], assemblies: tuple[Assembly, ...], wishes: tuple[Wish, ...]
) -> tuple[tuple[Part, ...], tuple[Joint, ...], tuple[Blame, ...]]:
    """The parts with the grooves that joins make, the joints found, and what is wrong.

    Every size of every part is greater than nothing, and every path of a wish is that of a part or
    of an assembly with parts. Joints stand in the order of the wishes and of the names in them.
    """
    bench = _Bench(parts, assemblies, wishes)
    # Grooves come first: what touches, touches a part as it is after all its grooves.
    entered = {
        number: tuple(bench.enter_all(wish))
        for number, wish in enumerate(wishes)
        if wish.way == "into"
    }
    bench.cut_grooves()
    joints: list[Joint] = []
    for number, wish in enumerate(wishes):
        joints.extend(entered[number] if wish.way == "into" else bench.touch_all(wish))
    bench.find_overlaps()
    bench.find_loose(joints)
    return bench.grooved(), tuple(joints), tuple(bench.blames)


def parts_by_path(
    parts: tuple[Part, ...], assemblies: tuple[Assembly, ...]
) -> Mapping[str, tuple[str, ...]]:
    """The parts that each path means: a part itself, an assembly all it holds at any depth, the
    empty path every part of the unit."""
    by_path = {assembly.path: assembly for assembly in assemblies}
    found: dict[str, tuple[str, ...]] = {part.path: (part.path,) for part in parts}
    found[""] = tuple(part.path for part in parts)

    def gather(path: str) -> tuple[str, ...]:
        if path not in found:
            assembly = by_path[path]
            inner = (gather(each) for each in assembly.assemblies)
            found[path] = (*assembly.parts, *(each for group in inner for each in group))
        return found[path]

    for assembly in assemblies:
        gather(assembly.path)
    return found


def _apart(paths: tuple[str, ...], alike: tuple[tuple[str, ...], ...]) -> Iterator[tuple[str, ...]]:
    """The paths one by one, those that stand for one thing together."""
    grouped = {path for group in alike for path in group}
    yield from ((path,) for path in paths if path not in grouped)
    yield from (group for group in alike if group[0] in paths)


@define
class _Body:
    """A part while its grooves are made: `stated` is its solid after the cuts the text states,
    `solid` after the grooves too; `standing` is that with its corners cut off, as it stands in its
    unit, once all grooves are made."""

    part: Part
    block: Block
    stated: Solid
    solid: Solid
    grooves: list[Groove] = field(factory=list)
    standing: Body = ()


@define(init=False)
class _Bench:
    """The bodies of one unit, and what was found about them so far.

    `tied` are pairs that failed joins name; `silent` are pairs whose shared space is reported
    already; `rows` are the fasteners of each length and fixing met.
    """

    scale: Scale
    bodies: dict[str, _Body]
    means: Mapping[str, tuple[str, ...]]
    wishes: tuple[Wish, ...]
    blames: list[Blame]
    tied: list[Pair]
    silent: set[frozenset[str]]
    rows: dict[tuple[Fraction, int], tuple[Fasteners, ...]]
    refused_fixings: set[str]

    def __init__(
        self, parts: tuple[Part, ...], assemblies: tuple[Assembly, ...], wishes: tuple[Wish, ...]
    ) -> None:
        plays = (wish.play.value for wish in wishes if wish.play is not None)
        self.scale = scale_of(parts, plays)
        self.bodies = {}
        for part in parts:
            stated = solid_of(part, self.scale)
            self.bodies[part.path] = _Body(part, self.scale.block(part.box), stated, stated)
        self.means = parts_by_path(parts, assemblies)
        self.wishes = wishes
        self.blames = []
        self.tied = []
        self.silent = set()
        self.rows = {}
        self.refused_fixings = set()

    def _groups(self, wish: Wish) -> Iterator[list[Pair]]:
        """For each first and each second of a wish, the pairs of different parts they stand for:
        at least one of a group must meet."""
        for firsts in _apart(wish.first, wish.alike):
            for seconds in _apart(wish.second, wish.alike):
                yield [
                    (one, other)
                    for first in firsts
                    for one in self.means[first]
                    for second in seconds
                    for other in self.means[second]
                    if one != other
                ]

    def _of(self, pair: Pair) -> tuple[_Body, _Body]:
        return self.bodies[pair[0]], self.bodies[pair[1]]

    def enter_all(self, wish: Wish) -> Iterator[Joint]:
        """The joints of a wish `into`, their grooves noted but not yet cut."""
        for pairs in self._groups(wish):
            entering = [pair for pair in pairs if self._taken(pair)]
            if not entering:
                self._miss(pairs, wish)
            for pair in entering:
                joint = self._enter(pair, wish)
                if joint is None:
                    self.tied.append(pair)
                    self.silent.add(frozenset(pair))
                else:
                    yield joint

    def _taken(self, pair: Pair) -> Solid:
        first, second = self._of(pair)
        if are_askew(first.part, second.part) or overlap(first.block, second.block) is None:
            return ()
        return shared(first.stated, (second.block,))

    def _enter(self, pair: Pair, wish: Wish) -> Joint | None:
        first, second = self._of(pair)
        taken = around(self._taken(pair))
        way = entry(first.part, second.part, second.block, taken)
        if isinstance(way, NoGroove):
            self.blames.append(no_entry(first.part, second.part, taken, way, wish, self.scale))
            return None
        groove = make_groove(self.scale, first.part, second.part, second.block, taken, way, wish)
        second.grooves.append(groove)
        area = self.scale.box(taken)
        return self._joint(pair, wish, "groove", way[0], way[1], area, groove, second.part.slant)

    def cut_grooves(self) -> None:
        """Cuts all grooves, and looks for stock behind them; a part is reported once."""
        for body in self.bodies.values():
            if not body.grooves:
                continue
            body.solid = less(body.stated, (groove.block for groove in body.grooves))
            for groove in body.grooves:
                if runs_through(body.part, body.block, body.stated, body.solid, groove):
                    self.blames.append(no_stock(body.part, groove, body.grooves))
                    break

    def _standing(self, body: _Body) -> Body:
        if not body.standing:
            body.standing = prisms(body.part, body.solid, self.scale)
        return body.standing

    def _shared_askew(self, one: _Body, other: _Body) -> Box | None:
        return space_shared(self._standing(one), self._standing(other))

    def touch_all(self, wish: Wish) -> Iterator[Joint]:
        """The joints of a wish `to`."""
        for pairs in self._groups(wish):
            found = False
            crowded = []
            for pair in pairs:
                first, second = self._of(pair)
                if are_askew(first.part, second.part):
                    one, other = self._standing(first), self._standing(second)
                    if space_shared(one, other) is not None:
                        crowded.append(pair)
                    elif (lies := met(first.part, one, second.part, other)) is not None:
                        found = True
                        yield self._touching(
                            pair, wish, lies.axis, lies.side, lies.area, lies.slant
                        )
                    continue
                if max(gaps(first.block, second.block)) > 0:
                    continue
                if shared(first.solid, second.solid):
                    crowded.append(pair)
                elif (lie := contact(first.solid, second.solid)) is not None:
                    found = True
                    area = self.scale.box(lie.area)
                    slant = first.part.slant
                    yield self._touching(pair, wish, lie.axis, lie.side, area, slant)
            if not found:
                self.tied.extend(crowded)
                if not crowded:
                    self._miss(pairs, wish)

    def _touching(
        self, pair: Pair, wish: Wish, axis: Axis, side: int, area: Box, slant: Slant | None
    ) -> Joint:
        return self._joint(pair, wish, "butt", axis, side, area, None, slant)

    def _joint(
        self,
        pair: Pair,
        wish: Wish,
        kind: Literal["butt", "groove"],
        axis: Axis,
        side: int,
        area: Box,
        groove: Groove | None,
        slant: Slant | None,
    ) -> Joint:
        return Joint(
            pair[0],
            pair[1],
            kind,
            axis,
            side,
            area,
            None if groove is None else groove.cut.depth,
            wish.fixing,
            self._fasteners(area, axis, wish),
            wish.origin,
            slant,
        )

    def _fasteners(self, area: Box, axis: Axis, wish: Wish) -> tuple[Fasteners, ...]:
        fixing = wish.fixing
        if fixing is None:
            return ()
        long, _ = strip(axis, area.size)
        length = area.size(long)
        key = length, id(fixing)
        if key not in self.rows:
            refused = self._refuses(length, fixing, wish)
            self.rows[key] = () if refused else fasteners_of(length, fixing)
        return self.rows[key]

    def _refuses(self, length: Fraction, fixing: Fixing, wish: Wish) -> bool:
        """Whether a fixing asks too many fasteners of a joint; reported once a fixing."""
        if fixing.every is None:
            return False
        if fixing.every.value > 0 and hold_count(length, fixing) <= MOST_FASTENERS:
            return False
        if fixing.name not in self.refused_fixings:
            self.refused_fixings.add(fixing.name)
            self.blames.append(too_close(fixing, wish))
        return True

    def _miss(self, pairs: list[Pair], wish: Wish) -> None:
        """Reports a join whose parts don't meet, by the pair that comes nearest."""
        if not pairs:
            return
        self.tied.extend(pairs)
        if any(are_askew(*(body.part for body in self._of(pair))) for pair in pairs):
            first, second = self._of(pairs[0])
            self.blames.append(apart_across_turns(first.part, second.part, wish))
            return
        first, second = min(
            (self._of(pair) for pair in pairs),
            key=lambda two: max(gaps(two[0].block, two[1].block)),
        )
        self.blames.append(
            not_met((first.part, first.block), (second.part, second.block), wish, self.scale)
        )

    def find_overlaps(self) -> None:
        """Reports every two solids that still share space after all cuts and grooves."""
        place = {path: number for number, path in enumerate(self.bodies)}
        found: dict[tuple[int, int], Box] = {}
        for body, other in self._near():
            common = self._common(body, other)
            if common is not None and {body.part.path, other.part.path} not in self.silent:
                one, two = sorted((place[body.part.path], place[other.part.path]))
                found[one, two] = common
        bodies = list(self.bodies.values())
        for one, two in sorted(found):
            self._report_overlap(bodies[one].part, bodies[two].part, found[one, two])

    def _near(self) -> Iterator[tuple[_Body, _Body]]:
        """Every two bodies that may share space: those of one turn whose ranges across meet, and
        all of different turns."""
        standing: dict[Slant | None, list[_Body]] = {}
        for body in sorted(self.bodies.values(), key=lambda each: each.block[0]):
            start, slant = body.block[0], body.part.slant
            near = [each for each in standing.get(slant, ()) if each.block[1] > start]
            yield from ((body, other) for other in near)
            standing[slant] = [*near, body]
        turned = [body for body in self.bodies.values() if body.part.slant is not None]
        for body in turned:
            for other in self.bodies.values():
                if other.part.slant is None or (
                    other.part.slant != body.part.slant and other.part.path < body.part.path
                ):
                    yield body, other

    def _common(self, one: _Body, other: _Body) -> Box | None:
        """A box around the space that two bodies share."""
        if one.part.slant == other.part.slant and overlap(one.block, other.block) is None:
            return None
        if are_askew(one.part, other.part):
            return self._shared_askew(one, other)
        common = shared(one.solid, other.solid)
        return self.scale.box(around(common)) if common else None

    def _report_overlap(self, one: Part, two: Part, common: Box) -> None:
        touching = tuple(
            wish
            for wish in self.wishes
            if wish.way == "to"
            and any(
                {one.path, two.path} == set(pair) for group in self._groups(wish) for pair in group
            )
        )
        self.blames.append(same_space(one, two, common, touching))

    def find_loose(self, joints: list[Joint]) -> None:
        """Reports every group of parts that no chain of joints ties to the rest of the unit."""
        leader = {path: path for path in self.bodies}

        def find(path: str) -> str:
            while leader[path] != path:
                leader[path] = leader[leader[path]]
                path = leader[path]
            return path

        for one, other in (*((joint.first, joint.second) for joint in joints), *self.tied):
            leader[find(one)] = find(other)
        groups: dict[str, list[Part]] = {}
        for path, body in self.bodies.items():
            groups.setdefault(find(path), []).append(body.part)
        main = max(groups.values(), key=len, default=[])
        self.blames.extend(loose(group) for group in groups.values() if group is not main)

    def grooved(self) -> tuple[Part, ...]:
        return tuple(
            evolve(body.part, cuts=(*body.part.cuts, *(groove.cut for groove in body.grooves)))
            if body.grooves
            else body.part
            for body in self.bodies.values()
        )
