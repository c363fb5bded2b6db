"""Edges of parts: as texts name them, and what they are banded with."""

from fractions import Fraction

from casewright.compiler.construct.evaluate import evaluate
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.materials import material_of
from casewright.compiler.construct.scope import Scope, twin
from casewright.compiler.construct.things import Thing
from casewright.compiler.construct.values import Choice, Datum
from casewright.compiler.model import EDGES, Axis, Banding, Material
from casewright.compiler.text.resolve import Declaration
from casewright.lang.cells import Quantity
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, bare_word


def edges_of(clause: Clause, scope: Scope) -> tuple[str, ...]:
    """The edge words of a clause, as they stand in the unit; `all` is every one of them."""
    edges: list[str] = []
    for value in clause.values:
        word = bare_word(value)
        if word not in EDGES and (not word or word in scope.known()):
            chosen = evaluate(value, scope)
            word = chosen.word if isinstance(chosen, Choice) else word
        if word not in EDGES:
            raise fault(
                "unknown-edge",
                f"{word or 'this'} is no edge",
                value.origin,
                help="one of: " + ", ".join(EDGES),
            )
        edges.append(twin(word) if scope.mirrored else word)
    return tuple(edges)


def banded(thing: Thing, thick_axis: Axis) -> tuple[Banding, ...]:
    """The edges of a part's own that its text bands. Raises Fault."""
    clause = thing.statement.clause("band")
    if clause is None:
        return ()
    band = band_of(thing, clause, thing.thick().value)
    edges = edges_of(clause, thing.scope)
    for edge in edges:
        if EDGES[edge][0] == thick_axis:
            raise fault(
                "band-on-a-face",
                f"{edge} of {thing.name.replace('_', ' ')} is a face, not an edge",
                clause.origin,
                help="band the edges: "
                + ", ".join(word for word, (axis, _) in EDGES.items() if axis != thick_axis),
            )
    return tuple(Banding(edge, band) for edge in dict.fromkeys(edges))


def band_of(thing: Thing, clause: Clause, wide: Fraction) -> Material:
    """What covers an edge `wide` inches wide of a thing: the band its material names, or, where
    that is too narrow, the first wider one that does; `clause` asks for it. Raises Fault where
    the material names none."""
    declaration = thing.material().declaration
    named = _named_band(thing, declaration, "band", clause)
    if named is None:
        raise fault(
            "unknown-band",
            f"{declaration.name} says no band that is known",
            clause.origin,
            help=f"add band and its name to {declaration.kind} {declaration.name}",
        )
    found: Declaration | None = named
    tried: set[str] = set()
    while found is not None and found.name not in tried:
        if _covers(thing, found, wide, clause):
            return material_of(thing.build, found)
        tried.add(found.name)
        found = _named_band(thing, found, "wider", clause)
    return material_of(thing.build, named)


def _named_band(
    thing: Thing, declaration: Declaration, word: str, clause: Clause
) -> Declaration | None:
    if declaration.statement.clause(word) is None:
        return None
    value = thing.build.property(declaration, word, clause.origin, None)
    is_band = isinstance(value, Datum) and value.declaration.kind == "band"
    return value.declaration if isinstance(value, Datum) and is_band else None


def _covers(thing: Thing, band: Declaration, wide: Fraction, clause: Clause) -> bool:
    if band.statement.clause("wide") is None:
        return True
    value = thing.build.property(band, "wide", clause.origin, Dimension.LENGTH)
    return not isinstance(value, Quantity) or value.value >= wide
