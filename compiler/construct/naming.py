"""What a unit is asked for by: short addresses, figures by name, openings as the model has them."""

from collections.abc import Iterable, Mapping
from functools import partial

from casewright.compiler.construct.holder import Holder
from casewright.compiler.construct.leaf import Leaf
from casewright.compiler.construct.opening_tree import Kind, Member
from casewright.compiler.construct.openings import Openings
from casewright.compiler.construct.things import Thing, edge_words
from casewright.compiler.construct.values import Choice, Datum, Sides, Value
from casewright.compiler.facing import side_of, slant_of
from casewright.compiler.model import AXES, Blank, Extents, Opening, Part
from casewright.compiler.model import Member as ModelMember
from casewright.lang.cells import Quantity, subtract

KINDS: tuple[Kind, Kind] = ("level", "post")


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


def options_in_words(root: Holder) -> dict[str, str]:
    """The options of the unit itself, as chosen, in words."""
    scope = root.scope()
    return {name: scope.say(value) for name, value in _options(root)}


def _options(root: Holder) -> Iterable[tuple[str, Value]]:
    for name, declared in root.index.items():
        if declared[0].statement.rule == "option":
            value = root.build.glance(partial(root.option, declared[0], None))
            if value is not None:
                yield name, value


def model_openings(openings: Iterable[Openings]) -> tuple[Opening, ...]:
    found = (
        leaf.build.attempt(partial(_opening, leaf)) for each in openings for leaf in each.leaves
    )
    return tuple(opening for opening in found if opening is not None)


def model_members(openings: Iterable[Openings]) -> tuple[ModelMember, ...]:
    members = (
        (each.build, member)
        for each in openings
        for kind in KINDS
        for member in each.build.attempt(partial(each.members, kind)) or ()
    )
    found = (build.attempt(partial(_member, member)) for build, member in members)
    return tuple(member for member in found if member is not None)


def _member(member: Member) -> ModelMember:
    return ModelMember(member.kind, member.extent("across"), member.extent("up"))


def _opening(leaf: Leaf) -> Opening:
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
        _options_of(leaf),
        leaf.origin,
        side_of(leaf.faces),
        leaf.load(),
        slant_of(leaf.faces),
    )


def _options_of(leaf: Leaf) -> dict[str, str]:
    options: dict[str, str] = {}
    for statement in leaf.filling.statement.body:
        if statement.rule != "option":
            continue
        match leaf.option(statement.name, None):
            case Choice(word):
                options[statement.name] = word
            case Quantity() as figure:
                options[statement.name] = str(figure.value)
            case Datum(declaration):
                options[statement.name] = declaration.name
            case Sides(words):
                options[statement.name] = " ".join(sorted(words))
    return options


def figures(
    root: Holder,
    parts: Iterable[Part],
    blanks: Iterable[Blank],
    assemblies: Iterable[Thing],
    openings: Iterable[Openings],
    addresses: Mapping[str, str],
) -> dict[str, Quantity]:
    """Every figure of a unit that can be asked for, by its address in it."""
    found: dict[str, Quantity] = {}
    for part in parts:
        for word in ("length", "width", "thick", "cut_length", "cut_width"):
            found[f"{part.address}.{word}"] = getattr(part, word)
        for edge in part.cut_edges:
            found[f"{part.address}.{edge.name}"] = edge.length
        _name_edges(found, part.address, part.extents)
    for blank in blanks:
        for word in ("length", "width", "cut_length", "cut_width"):
            found[f"{blank.name}.{word}"] = getattr(blank, word)
    for thing in assemblies:
        extents = root.build.attempt(thing.in_unit)
        if extents is not None:
            _name_edges(found, addresses[thing.path], extents)
            for axis in AXES:
                found[f"{addresses[thing.path]}.{axis}"] = thing.size(axis)
    for each in openings:
        for leaf in each.leaves:
            root.build.attempt(partial(_name_opening, found, leaf))
    found.update({name: value for name, value in _options(root) if isinstance(value, Quantity)})
    return found


def _name_edges(found: dict[str, Quantity], address: str, extents: Extents) -> None:
    for axis in AXES:
        low, high = edge_words(axis)
        extent = extents.along(axis)
        found[f"{address}.{low}"] = extent.low
        found[f"{address}.{high}"] = extent.high


def _name_opening(found: dict[str, Quantity], leaf: Leaf) -> None:
    across, up = leaf.extent("across"), leaf.extent("up")
    found[f"{leaf.address}.opening"] = subtract(up.high, up.low)
    found[f"{leaf.address}.opening_width"] = subtract(across.high, across.low)
    found[f"{leaf.address}.bottom"] = up.low
    found[f"{leaf.address}.top"] = up.high
