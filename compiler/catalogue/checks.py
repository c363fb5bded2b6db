"""Findings of checks, as each is declared beside its function; and those about what they go by."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule
from casewright.compiler.check.look_over import CHECKS, MODULES
from casewright.lang.findings import Severity

GROUPS: Mapping[str, tuple[str, ...]] = {
    title: tuple(check.slug for check in CHECKS if check.find.__module__ == module.__name__)
    for module in MODULES
    if (title := (module.__doc__ or "").partition(":")[0].partition(".")[0].partition(",")[0])
}
"""Checks by what they look at, in the words that their modules begin with."""

_PLAIN = """
        use plain_room
        run sink_wall on north from left length 40 {
          S1: open_base 20
          S2: open_base 20
        }
        """

RULES: Mapping[str, Rule] = {
    **{
        check.slug: Rule(
            check.doc,
            check.mend,
            check.severity,
            Around.NOTHING if "use checks_shop" in check.bad else Around.CHECKS,
            check.bad,
            check.good,
            check.why,
            check.source,
        )
        for check in CHECKS
    },
    "accepts-nothing": Rule(
        doc="The text accepts a finding that isn't there.",
        mend="Take the line out, or see how the finding is spelt.",
        severity=Severity.WARNING,
        around=Around.CHECKS,
        bad="""
        use plain_room
        run sink_wall on north from left length 40 {
          accept toes-disagree  the old toe stays
          S1: open_base 20
          S2: open_base 20
        }
        """,
        good=_PLAIN,
        why="A reason that outlives its finding would hide the next one of its name.",
    ),
    "acceptance-without-reason": Rule(
        doc="A finding is accepted, but nothing says why.",
        mend="Write `accept`, the finding's name, and the reason.",
        around=Around.CHECKS,
        bad="""
        use plain_room
        run sink_wall on north from left length 40 {
          accept toes-disagree
          S1: open_base 20
          S2: open_base 20
        }
        """,
        good=_PLAIN,
    ),
    "unknown-allowance": Rule(
        doc="An `allowances` block says a figure that no check reckons with.",
        mend="See how it is spelt; the library's own allowances show them all.",
        around=Around.CHECKS,
        bad="""
        use plain_room
        allowances ours from usual {
          shelf_lode 50
        }
        run sink_wall on north from left length 40 {
          S1: open_base 20
          S2: open_base 20
        }
        """,
        good={"shelf_lode": "shelf_load"},
    ),
    "unknown-allowances": Rule(
        doc="The job names allowances that are declared nowhere.",
        mend="Declare them, or name ones that are there.",
        bad="""
        use library
        use room
        job Boathouse {
          built      shop
          allowances ours
        }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
        good="""
        use library
        room galley {
          floor finished
          wall north length 60
        }
        job Boathouse {
          built      shop
          allowances ours
        }
        allowances ours { shelf_load 40 }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "unknown-rules": Rule(
        doc="The job names a rule pack that is declared nowhere.",
        mend="Declare it, or name one that is there.",
        bad="""
        use library
        use room
        job Boathouse {
          built shop
          rules ours
        }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
        good="""
        use library
        use room
        job Boathouse {
          built shop
          rules ours
        }
        rule_pack ours { title "Our own" }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "unknown-quantity": Rule(
        doc="A limit is put on a quantity that no check measures.",
        mend="See how it is spelt; the library's packs show them all.",
        bad="""
        use library
        use room
        job Boathouse {
          built shop
          rules ours
        }
        rule_pack ours {
          limit counter_hight most 36
        }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
        good={"counter_hight": "counter_height"},
    ),
}
