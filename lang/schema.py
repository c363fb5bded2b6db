"""The schema's own shape: which words a place takes, as data.

From one value of `Schema` the shaper, the formatter, completion, hover, the editor syntax and the
printed reference are made. The words themselves are the compiler's (`compiler/words/schema.py`).
"""

from collections.abc import Mapping
from enum import Enum

from attrs import field, frozen


class Takes(Enum):
    """How many values a word takes."""

    NOTHING = "nothing"
    ONE = "one"
    MAYBE = "none or one"
    MANY = "one or more"
    ANY = "any number"


@frozen
class ClauseRule:
    """A clause word: what it takes, in words; which of its own clauses may follow it.

    `kind` is what the values are (a place, a length, names …), for the reference and completion.
    `choices`, where there are any, are all the words it may be; `or_other` lets another stand
    there, which whoever reads the clause then judges. `postfix` marks a word that takes the value
    written before it (`2 shares`).
    """

    word: str
    takes: Takes
    kind: str
    doc: str
    clauses: tuple["ClauseRule", ...] = ()
    choices: tuple[str, ...] = ()
    postfix: bool = False
    repeats: bool = False
    or_other: bool = False


@frozen
class HeadRule:
    """A statement: its head word, the values after it, its clauses, and what its block may hold.

    `name` identifies the rule; it is the head word but for rules that a place opens to any word
    (a filling's name in a stack, a unit's name behind a tag). `values` says what the values are,
    `least` and `most` how many there may be. `assigns` allows `= expression`. `options` lets any
    other word stand as a clause with one value (an option of whatever is named). `raw` takes the
    rest of the line as it stands; `verbatim` keeps `#` in it as text. `body` lists the
    rules whose statements the block may hold, `tagged` the rule for a tagged line in it and
    `unnamed` the rule for a line with an unknown head.
    """

    name: str
    doc: str
    values: str = ""
    least: int = 0
    most: int = 0
    clauses: tuple[ClauseRule, ...] = ()
    assigns: bool = False
    options: bool = False
    raw: bool = False
    verbatim: bool = False
    block: bool = False
    body: tuple[str, ...] = ()
    tagged: str = ""
    unnamed: str = ""


@frozen
class Schema:
    """All rules by name, and the rule that stands for a whole file."""

    heads: Mapping[str, HeadRule] = field(eq=False)
    file: str

    @property
    def raw_heads(self) -> frozenset[str]:
        """Heads whose line is taken as it stands."""
        return frozenset(name for name, rule in self.heads.items() if rule.raw)

    @property
    def verbatim_heads(self) -> frozenset[str]:
        """Raw heads in whose line `#` begins no comment."""
        return frozenset(name for name, rule in self.heads.items() if rule.verbatim)


def schema_of(file: str, *rules: HeadRule) -> Schema:
    """A schema of `rules`. Raises ValueError when a rule names one that is not there: the schema
    is ours, so a hole in it is a defect, not a finding."""
    heads = {rule.name: rule for rule in rules}
    if len(heads) != len(rules):
        raise ValueError("two rules of one name")
    for rule in rules:
        for wanted in (*rule.body, rule.tagged, rule.unnamed):
            if wanted and wanted not in heads:
                raise ValueError(f"{rule.name} names no rule {wanted}")
    if file not in heads:
        raise ValueError(f"no rule {file}")
    return Schema(heads, file)
