"""What a job is asked for by, outside its units: materials, and every figure by its address."""

from collections.abc import Iterable, Iterator

from casewright.compiler.model import Feature, Material, Room, Run
from casewright.lang.cells import Quantity


def materials_of(runs: tuple[Run, ...]) -> tuple[Material, ...]:
    """Every material some part is of, by name."""
    found: dict[str, Material] = {}
    for run in runs:
        for placed in run.everything:
            for part in placed.unit.parts if placed.unit is not None else ():
                found.setdefault(part.material.name, part.material)
                for banding in part.bands:
                    found.setdefault(banding.band.name, banding.band)
                for edge in part.cut_edges:
                    found.setdefault(edge.band.name, edge.band)
    return tuple(found[name] for name in sorted(found))


def named_figures(
    room: Room, runs: tuple[Run, ...], materials: tuple[Material, ...], precision: Quantity
) -> dict[str, Quantity]:
    """Every figure outside the units, by its address."""
    named = {"job.precision": precision, **room_figures(room)}
    named.update(_of_runs(runs))
    named.update((f"{material.name}.thick", material.thick) for material in materials)
    return named


def room_figures(room: Room) -> dict[str, Quantity]:
    """Every figure of the room as measured, by its address."""
    return {
        "room.ceiling": room.ceiling,
        "room.counter": room.counter,
        "room.counter_thick": room.counter_thick,
        **dict(_of_walls(room)),
    }


def _of_walls(room: Room) -> Iterator[tuple[str, Quantity]]:
    for wall in room.walls:
        yield f"{wall.name}.length", wall.length
        yield f"{wall.name}.high", wall.height
        yield from _of_features(wall.name, (*wall.features, *wall.blocking))
    for island in room.islands:
        yield from _of_features(island.name, island.features)


def _of_features(holder: str, features: Iterable[Feature]) -> Iterator[tuple[str, Quantity]]:
    for feature in features:
        for word in ("at", "wide", "up", "high", "casing"):
            yield f"{holder}.{feature.name}.{word}", getattr(feature, word)


def _of_runs(runs: tuple[Run, ...]) -> Iterator[tuple[str, Quantity]]:
    for run in runs:
        yield f"{run.name}.space", run.space
        yield f"{run.name}.start", run.start
        yield f"{run.name}.up", run.up
        for placed in run.everything:
            yield f"{placed.address}.across", placed.width
            yield f"{placed.address}.at", placed.at
            yield f"{placed.address}.up", placed.up
            yield f"{placed.address}.high", placed.height
            yield f"{placed.address}.depth", placed.depth
            if placed.returns is not None:
                yield f"{placed.address}.return", placed.returns.length
                yield f"{placed.address}.return_depth", placed.returns.depth
