"""Findings about the bytes of a text: encoding, line ends, characters nobody can see."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Rule
from casewright.lang.findings import Severity

RULES: Mapping[str, Rule] = {
    "text-too-long": Rule(
        doc="A text is longer than the compiler reads (1 MiB).",
        mend="Put parts of it into files of their own and say `use`.",
        no_example="It takes a text of more than 1 MiB.",
    ),
    "not-utf-8": Rule(
        doc="The bytes of the text are not UTF-8.",
        mend="Save it as UTF-8 in your editor.",
        bad="""
        # caf\udce9
        """,
        good="""
        # café
        """,
    ),
    "byte-order-mark": Rule(
        doc="The text begins with a mark that some editors add and that says nothing.",
        mend="`casewright format` takes it out.",
        severity=Severity.ADVICE,
        bad="""
        \ufeffmeasure in inches
        """,
        good="""
        measure in inches
        """,
    ),
    "line-ends-differ": Rule(
        doc="Lines end with a carriage return, as some systems write them.",
        mend="`casewright format` takes them out.",
        severity=Severity.ADVICE,
        bad="""
        measure in inches\r
        """,
        good="""
        measure in inches
        """,
    ),
    "tabs-for-blanks": Rule(
        doc="Tabs stand where blanks are meant, so columns differ from editor to editor.",
        mend="`casewright format` puts blanks in their place.",
        severity=Severity.ADVICE,
        bad="""
        measure\tin inches
        """,
        good="""
        measure in inches
        """,
    ),
    "unseen-character": Rule(
        doc=(
            "A character stands in the text that can't be seen, or that turns the direction of "
            "writing."
        ),
        mend="Type the blank or the letter that was meant.",
        bad="""
        note a\u200bway to build
        """,
        good="""
        note a way to build
        """,
    ),
}
