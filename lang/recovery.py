"""Reading a text that has faults: line by line, one finding a bad line, always a tree."""

from casewright.lang.findings import Finding
from casewright.lang.source import Source
from casewright.lang.tree import Tree
from casewright.lang.trivia import Heads


def recover(source: Source, heads: Heads) -> tuple[Tree, tuple[Finding, ...]]:
    raise NotImplementedError
