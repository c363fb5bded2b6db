"""Every finding by its slug: what it means, and how it is mended.

The words stand in `catalogue.json`; a test holds them to the slugs that the sources make.
"""

import json
from collections.abc import Mapping
from importlib.resources import files

from attrs import frozen


@frozen
class Rule:
    """What a finding means, and how it is mended in most cases; a report is more exact."""

    doc: str
    mend: str


def read_catalogue() -> Mapping[str, Rule]:
    """The catalogue, in the order of the slugs."""
    text = files("casewright.compiler").joinpath("catalogue.json").read_text(encoding="utf-8")
    return {slug: Rule(**words) for slug, words in json.loads(text).items()}


CATALOGUE = read_catalogue()
