"""What is brought where: the orders of each bench, and whether each part is in exactly one step.

An assembly is put together on a bench of its own and brought into its holder as one body: the
parts that its own steps brought. So a holder's step may still bring a part of an assembly by
itself (a back that goes in when the frame is on): that part is then no part of the body.
"""

from collections.abc import Iterator, Mapping

from attrs import frozen

from casewright.compiler.blame import Blame, finding_at
from casewright.compiler.model import Assembly, Order, Part
from casewright.lang.source import Origin


@frozen
class Names:
    """The parts and assemblies of a unit by path, and what papers call them."""

    parts: Mapping[str, Part]
    assemblies: Mapping[str, Assembly]

    def address(self, path: str) -> str:
        thing = self.parts.get(path) or self.assemblies.get(path)
        return (thing.address if thing is not None else "") or path or "the unit"

    def origin(self, path: str) -> Origin | None:
        thing = self.parts.get(path) or self.assemblies.get(path)
        return None if thing is None else thing.origin

    def known(self, path: str) -> bool:
        return path in self.parts or path in self.assemblies

    def holds_parts(self, path: str) -> bool:
        assembly = self.assemblies[path]
        return bool(assembly.parts) or any(self.holds_parts(each) for each in assembly.assemblies)

    def lone_part(self, path: str) -> str:
        """The one part of an assembly that is no more than that part; else empty."""
        assembly = self.assemblies.get(path)
        if assembly is None or len(assembly.parts) + len(assembly.assemblies) != 1:
            return ""
        return assembly.parts[0] if assembly.parts else self.lone_part(assembly.assemblies[0])


@frozen
class Bring:
    """One thing that a step brings, and the parts that come in with it."""

    thing: str
    body: tuple[str, ...]


@frozen
class Bench:
    """The orders of one assembly, each with what it brings."""

    assembly: str
    orders: tuple[tuple[Order, tuple[Bring, ...]], ...]


def read_orders(
    names: Names, orders: tuple[Order, ...]
) -> tuple[tuple[Bench, ...], tuple[Blame, ...]]:
    """The benches, an assembly's before that of whatever it is brought into, and faults.

    What is named twice counts where it is named first.
    """
    accepted, blames = _first_brings(names, orders)
    benches_told: dict[str, list[tuple[Order, tuple[str, ...]]]] = {}
    for order, things in zip(orders, accepted, strict=True):
        benches_told.setdefault(order.assembly, []).append((order, things))
    brought = {thing for things in accepted for thing in things}
    blames.extend(_missing(names, brought, set(benches_told)))
    benches: dict[str, Bench] = {}
    bodies: dict[str, tuple[str, ...]] = {}

    def settle(path: str, open_benches: tuple[str, ...]) -> tuple[str, ...]:
        """The body of `path`; its bench and those it needs are settled first."""
        if path in names.parts:
            return (path,)
        if path in bodies:
            return bodies[path]
        if path not in benches_told:
            lone = names.lone_part(path)
            bodies[path] = (lone,) if lone else ()
            return bodies[path]
        settled: list[tuple[Order, tuple[Bring, ...]]] = []
        body: list[str] = []
        for order, things in benches_told[path]:
            brings = []
            for thing in things:
                if thing in open_benches:
                    blames.append(_brings_itself(names, order, thing))
                    continue
                inner = settle(thing, (*open_benches, path))
                brings.append(Bring(thing, inner))
                body.extend(inner)
            settled.append((order, tuple(brings)))
        benches[path] = Bench(path, tuple(settled))
        bodies[path] = tuple(body)
        return bodies[path]

    for path in benches_told:
        settle(path, ())
    return tuple(benches.values()), tuple(blames)


def _first_brings(
    names: Names, orders: tuple[Order, ...]
) -> tuple[list[tuple[str, ...]], list[Blame]]:
    """For each order what it is the first to bring; and what is brought again."""
    with_steps = {order.assembly for order in orders}
    first_order: dict[str, Order] = {}
    accepted: list[tuple[str, ...]] = []
    blames: list[Blame] = []
    for order in orders:
        things = []
        for path in order.brings:
            if not names.known(path):
                continue
            if path in ("", order.assembly) or order.assembly.startswith(f"{path}."):
                blames.append(_brings_itself(names, order, path))
                continue
            # Without steps of its own, an assembly of one part is that part.
            key = path if path in with_steps else names.lone_part(path) or path
            if key in first_order:
                blames.append(_twice(names, first_order[key], order, path))
            else:
                first_order[key] = order
                things.append(path)
        accepted.append(tuple(things))
    return accepted, blames


def _missing(names: Names, brought: set[str], with_steps: set[str]) -> Iterator[Blame]:
    """What no step brings in. An assembly without any step is one report, and one that isn't
    brought in either is named only where it is missing."""
    held = {
        inner: assembly.path
        for assembly in names.assemblies.values()
        for inner in (*assembly.parts, *assembly.assemblies)
    }
    lone = {names.lone_part(path) for path in brought if path not in with_steps}
    within: dict[str, list[str]] = {}
    for path in (*names.parts, *names.assemblies):
        if path in brought or path in lone or path == "":
            continue
        if path in names.parts or (
            names.holds_parts(path) and names.lone_part(path) not in brought
        ):
            within.setdefault(held.get(path, ""), []).append(path)
    unbrought = {path for missing in within.values() for path in missing}
    for holder, missing in within.items():
        if holder in with_steps:
            for path in missing:
                yield finding_at(
                    names.origin(path),
                    "part-in-no-step",
                    f"{names.address(path)} is in no step",
                    help=f"name {names.address(path)} in the step that brings it in",
                )
        elif holder not in unbrought:
            listed = ", ".join(names.address(path) for path in missing)
            yield finding_at(
                names.origin(holder) or names.origin(missing[0]),
                "part-in-no-step",
                f"{names.address(holder)} has no step that brings in {listed}",
                labels=tuple((names.origin(path), names.address(path)) for path in missing),
                help=f"say the order with `step {names.address(missing[0])} …`",
            )


def _twice(names: Names, earlier: Order, order: Order, path: str) -> Blame:
    address = names.address(path)
    return finding_at(
        order.origin,
        "part-in-two-steps",
        f"{address} is brought in twice",
        labels=((earlier.origin, "here first"), (names.origin(path), address)),
        help=f"leave {address} out of one of the two",
    )


def _brings_itself(names: Names, order: Order, path: str) -> Blame:
    return finding_at(
        order.origin,
        "step-brings-itself",
        f"a step of {names.address(order.assembly)} brings in {names.address(path)}, "
        "which it belongs to itself",
        labels=((names.origin(path), names.address(path)),),
        help="bring in only what the assembly is made of",
    )
