"""What the catalogue says of one finding."""

from enum import Enum
from textwrap import dedent

from attrs import field, frozen

from casewright.compiler.examples import Mend, mended
from casewright.lang.findings import Severity


class Around(Enum):
    """What a rule's examples stand in. The texts themselves are the tests'."""

    NOTHING = ""
    KITCHEN = "kitchen"
    """A job, a room and a small library: the example says the runs."""
    BENCH = "bench"
    """As before, and a run with one cupboard: the example says its construction."""
    CHECKS = "checks"
    """A shop with its library, a saw and allowances: the example says the room and the runs."""
    PRICED = "priced"
    """A kitchen with a choice in its construction: the example says the rates and the offers."""


def _example(text: str) -> str:
    """A text as it is written in the catalogue, without the indentation it has there."""
    return dedent(text.removeprefix("\n")).rstrip(" ")


@frozen
class Rule:
    """What a finding means, and how it is mended in most cases; a report is more exact.

    `bad` is a small text that has the finding, `good` the same text mended; tests check both.
    They are empty where no small text has the finding; `no_example` then says why. `why` says what
    would come of it and `source` what the finding rests on; a check says both.
    """

    doc: str
    mend: str
    severity: Severity = Severity.ERROR
    around: Around = Around.NOTHING
    bad: str = field(default="", converter=_example)
    _good: Mend = field(default="", alias="good")
    why: str = ""
    source: str = ""
    no_example: str = ""

    @property
    def good(self) -> str:
        """The good example in full."""
        return _example(mended(self.bad, self._good))
