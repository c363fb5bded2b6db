"""The built job for other programs, as JSON; `job.schema.json` in compiler/papers says what stands
in it.

Lengths and places are exact, as fractions of an inch in text (`767/32`): no number of JSON holds
them all. Equal placings share a unit by its index.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from casewright.compiler.model import (
    Assembly,
    Banding,
    Blank,
    Box,
    Cut,
    Extent,
    Extents,
    Feature,
    Fixing,
    Hole,
    Island,
    Job,
    Joint,
    Material,
    Motion,
    Opening,
    Part,
    Placed,
    Return,
    Room,
    Slant,
    Step,
    Unit,
    Wall,
)
from casewright.lang.cells import Quantity
from casewright.lang.printing import exact
from casewright.lang.render_json import as_text

VERSION = 1
"""The form of the document; a change that a reader could trip over raises it."""

Json = dict[str, Any]


def job_json(job: Job) -> str:
    """The whole job as JSON text."""
    units = list(
        {id(placed.unit): placed.unit for placed in job.placed if placed.unit is not None}.values()
    )
    index = {id(unit): number for number, unit in enumerate(units)}
    return as_text(
        {
            "version": VERSION,
            "name": job.name,
            "number": job.number,
            "revision": job.revision,
            "date": job.date,
            "measure": job.system.value,
            "precision": _exact(job.precision),
            "edition": job.edition,
            "room": _room(job.room),
            "runs": [
                {
                    "name": run.name,
                    "title": run.title,
                    "wall": run.wall,
                    "start": _exact(run.start),
                    "up": _exact(run.up),
                    "space": _exact(run.space),
                    "placed": [_placed(placed, index) for placed in run.placed],
                    "bases": [_placed(placed, index) for placed in run.bases],
                }
                for run in job.runs
            ],
            "units": [_unit(unit) for unit in units],
            "materials": [_material(material) for material in job.materials],
        }
    )


def _text(value: Fraction) -> str:
    return exact(value) or ""


def _exact(quantity: Quantity) -> str:
    return _text(quantity.value)


def _maybe(quantity: Quantity | None) -> str | None:
    return None if quantity is None else _exact(quantity)


def _range(ends: tuple[Fraction, Fraction]) -> list[str]:
    return [_text(end) for end in ends]


def _box(box: Box) -> Json:
    return {"across": _range(box.across), "up": _range(box.up), "deep": _range(box.deep)}


def _extents(extents: Extents) -> Json:
    return _box(extents.box)


def _extent(extent: Extent) -> list[str]:
    return [_exact(extent.low), _exact(extent.high)]


def _room(room: Room) -> Json:
    return {
        "name": room.name,
        "ceiling": _exact(room.ceiling),
        "counter": _exact(room.counter),
        "counter_thick": _exact(room.counter_thick),
        "finished_floor": room.finished_floor,
        "walls": [_wall(wall) for wall in room.walls],
        "corners": [
            {"first": each.first, "second": each.second, "degrees": _exact(each.angle)}
            for each in room.corners
        ],
        "islands": [_island(island) for island in room.islands],
    }


def _wall(wall: Wall) -> Json:
    return {
        "name": wall.name,
        "length": _exact(wall.length),
        "height": _exact(wall.height),
        "features": [_feature(feature) for feature in wall.features],
        "blocking": [_feature(blocking) for blocking in wall.blocking],
    }


def _island(island: Island) -> Json:
    return {
        "name": island.name,
        "kind": island.kind,
        "wall": island.wall,
        "at": _exact(island.at),
        "out": _exact(island.out),
        "width": _exact(island.width),
        "depth": _exact(island.depth),
        "turn": _exact(island.turn),
        "features": [
            {**_feature(feature), "facing": feature.facing} for feature in island.features
        ],
    }


def _feature(feature: Feature) -> Json:
    return {
        "kind": feature.kind,
        "name": feature.name,
        "at": _exact(feature.at),
        "wide": _exact(feature.wide),
        "up": _exact(feature.up),
        "high": _exact(feature.high),
        "casing": _exact(feature.casing),
    }


def _placed(placed: Placed, index: Mapping[int, int]) -> Json:
    return {
        "tag": placed.tag,
        "address": placed.address,
        "title": placed.title,
        "kind": placed.kind,
        "at": _exact(placed.at),
        "up": _exact(placed.up),
        "width": _exact(placed.width),
        "height": _exact(placed.height),
        "depth": _exact(placed.depth),
        "unit": None if placed.unit is None else index[id(placed.unit)],
        "returns": _returns(placed.returns),
    }


def _returns(returns: Return | None) -> Json | None:
    if returns is None:
        return None
    return {
        "end": returns.end,
        "wall": returns.wall,
        "length": _exact(returns.length),
        "depth": _exact(returns.depth),
        "taken": _exact(returns.taken),
    }


def _unit(unit: Unit) -> Json:
    return {
        "name": unit.name,
        "title": unit.title,
        "construction": unit.construction,
        "role": unit.role,
        "width": _exact(unit.width),
        "height": _exact(unit.height),
        "depth": _exact(unit.depth),
        "parts": [_part(part) for part in unit.parts],
        "assemblies": [_assembly(each) for each in unit.assemblies],
        "openings": [_opening(each) for each in unit.openings],
        "joints": [_joint(joint) for joint in unit.joints],
        "steps": [_step(step) for step in unit.steps],
        "blanks": [_blank(blank) for blank in unit.blanks],
    }


def _part(part: Part) -> Json:
    return {
        "address": part.address,
        "path": part.path,
        "title": part.title,
        "opening": part.opening,
        "role": part.role,
        "material": part.material.name,
        "hardware": part.hardware,
        "box": _extents(part.extents),
        "thick_axis": part.thick_axis,
        "length_axis": part.length_axis,
        "width_axis": part.width_axis,
        "length": _exact(part.length),
        "width": _exact(part.width),
        "thick": _exact(part.thick),
        "cut_length": _exact(part.cut_length),
        "cut_width": _exact(part.cut_width),
        "grained": part.grained,
        "bands": _bands(part.bands),
        "cuts": [_cut(cut) for cut in part.cuts],
        "holes": [_hole(hole) for hole in part.holes],
        "motion": _motion(part.motion),
        "faces": part.faces,
        "slant": _slant(part.slant),
    }


def _bands(bands: Iterable[Banding]) -> list[Json]:
    return [{"edge": banding.edge, "band": banding.band.name} for banding in bands]


def _cut(cut: Cut) -> Json:
    return {
        "kind": cut.kind,
        "box": _box(cut.box),
        "by": cut.by,
        "depth": _exact(cut.depth),
        "corner": list(cut.corner),
        "edges": [
            {
                "looks": list(edge.looks),
                "length": _exact(edge.length),
                "wide": _exact(edge.wide),
                "band": edge.band.name,
            }
            for edge in cut.edges
        ],
        "sawn": None if cut.sawn is None else _box(cut.sawn),
    }


def _slant(slant: Slant | None) -> Json | None:
    """The turned space that something lies in: its zero in the unit, and which way it runs."""
    if slant is None:
        return None
    cosine, sine = slant.direction
    return {
        "mouth": slant.mouth,
        "across": _text(slant.across),
        "deep": _text(slant.deep),
        "cosine": _text(cosine),
        "sine": _text(sine),
    }


def _hole(hole: Hole) -> Json:
    return {
        "axis": hole.axis,
        "side": hole.side,
        "at": {axis: _exact(place) for axis, place in zip(hole.at_axes, hole.at, strict=True)},
        "diameter": _exact(hole.diameter),
        "depth": _exact(hole.depth),
        "use": hole.use,
    }


def _motion(motion: Motion | None) -> Json | None:
    if motion is None:
        return None
    return {
        "kind": motion.kind,
        "edge": motion.edge,
        "reach": _maybe(motion.reach),
        "degrees": _maybe(motion.angle),
    }


def _assembly(assembly: Assembly) -> Json:
    return {
        "path": assembly.path,
        "address": assembly.address,
        "title": assembly.title,
        "role": assembly.role,
        "opening": assembly.opening,
        "box": _extents(assembly.extents),
        "motion": _motion(assembly.motion),
        "parts": list(assembly.parts),
        "assemblies": list(assembly.assemblies),
        "faces": assembly.faces,
        "slant": _slant(assembly.slant),
    }


def _opening(opening: Opening) -> Json:
    return {
        "address": opening.address,
        "title": opening.title,
        "filling": opening.filling,
        "faced": opening.faced,
        "across": _extent(opening.across),
        "up": _extent(opening.up),
        "options": dict(sorted(opening.options.items())),
        "faces": opening.faces,
        "slant": _slant(opening.slant),
        "load": _maybe(opening.load),
    }


def _joint(joint: Joint) -> Json:
    return {
        "first": joint.first,
        "second": joint.second,
        "kind": joint.kind,
        "axis": joint.axis,
        "side": joint.side,
        "area": _box(joint.area),
        "slant": _slant(joint.slant),
        "depth": _maybe(joint.depth),
        "fixing": _fixing(joint.fixing),
        "fasteners": [
            {
                "name": each.name,
                "use": each.use,
                "count": each.count,
                "spacing": _text(each.spacing),
            }
            for each in joint.fasteners
        ],
    }


def _fixing(fixing: Fixing | None) -> Json | None:
    return None if fixing is None else {"name": fixing.name, "title": fixing.title}


def _step(step: Step) -> Json:
    return {
        "number": step.number,
        "assembly": step.assembly,
        "ways": [{"thing": way.thing, "axis": way.axis, "side": way.side} for way in step.ways],
        "lies": step.lies,
        "words": step.words,
        "joints": list(step.joints),
    }


def _blank(blank: Blank) -> Json:
    return {
        "name": blank.name,
        "material": blank.material.name,
        "strips": list(blank.strips),
        "length": _exact(blank.length),
        "width": _exact(blank.width),
        "cut_length": _exact(blank.cut_length),
        "cut_width": _exact(blank.cut_width),
        "bands": _bands(blank.bands),
    }


def _material(material: Material) -> Json:
    return {
        "name": material.name,
        "kind": material.kind,
        "title": material.title,
        "thick": _exact(material.thick),
        "stock": [
            {"width": _text(stock.width), "length": _text(stock.length)} for stock in material.stock
        ],
        "grained": material.grained,
        "band": material.band,
        "counts": material.counts,
    }
