"""Every finding by its slug, in the order of the phases that make them.

One module a phase; `list findings` and `explain SLUG` read it. A finding's own words stand where it
is found, since they are made of that place's figures; what is the same each time stands here.
"""

from collections.abc import Mapping

from casewright.compiler.catalogue import (
    buying,
    checks,
    corners,
    cutting,
    joints,
    lines,
    neighbours,
    order,
    parts,
    reading,
    room,
    runs,
    spellings,
    statements,
    survey,
    texts,
    units,
    values,
)
from casewright.compiler.catalogue.rule import Around, Rule

__all__ = ["CATALOGUE", "PHASES", "Around", "Rule"]

PHASES: Mapping[str, Mapping[str, Rule]] = {
    "reading": reading.RULES,
    "lines": lines.RULES,
    "spellings": spellings.RULES,
    "statements": statements.RULES,
    "texts": texts.RULES,
    "survey": survey.RULES,
    "room": room.RULES,
    "runs": runs.RULES,
    "neighbours": neighbours.RULES,
    "corners": corners.RULES,
    "values": values.RULES,
    "units": units.RULES,
    "parts": parts.RULES,
    "joints": joints.RULES,
    "order": order.RULES,
    "checks": checks.RULES,
    "cutting": cutting.RULES,
    "buying": buying.RULES,
}
"""Rules by the phase that finds them."""

CATALOGUE: Mapping[str, Rule] = {
    slug: rule for rules in PHASES.values() for slug, rule in rules.items()
}
"""All of them, a slug once."""
