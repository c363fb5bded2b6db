"""Clauses that several statements share, and the closed list of roles.

Nothing here or beside it names a unit, a part, a material, a filling or an option: those are the
library's.
"""

from casewright.lang.schema import ClauseRule, Takes

ROLES = (
    "side",
    "floor",
    "cap",
    "stretcher",
    "partition",
    "shelf",
    "back",
    "hanging",
    "toe",
    "base",
    "box",
    "frame",
    "stile",
    "rail",
    "tray",
    "front_end",
    "back_end",
    "front",
    "filler",
    "end",
    "panel",
    "slide",
    "hinge",
    "pull",
    "packing",
    "post",
    "wall_unit",
    "base_unit",
    "tall_unit",
    "sink",
    "cooking",
    "cold",
    "dishes",
    "baking",
    "microwave",
    "hood",
)
"""What checks and papers may know of a thing: the closed list behind `serves`."""


def one(word: str, kind: str, doc: str, *clauses: ClauseRule) -> ClauseRule:
    return ClauseRule(word, Takes.ONE, kind, doc, clauses)


def flag(word: str, doc: str, *clauses: ClauseRule) -> ClauseRule:
    return ClauseRule(word, Takes.NOTHING, "nothing", doc, clauses)


def many(word: str, kind: str, doc: str, *clauses: ClauseRule) -> ClauseRule:
    return ClauseRule(word, Takes.MANY, kind, doc, clauses)


PLACE = (
    one("from", "a place", "starts at this place and goes to the right, up or back"),
    one("to", "a place", "ends at this place"),
    flag("centred", "stands in the middle", one("on", "a thing", "of this thing")),
)


def place(axis: str, doc: str, *more: ClauseRule) -> ClauseRule:
    return ClauseRule(axis, Takes.MAYBE, "a place", doc, (*PLACE, *more))


EXTENTS = (
    place("across", "where it lies from left to right"),
    place("up", "where it lies in height"),
    place("deep", "where it lies from front to back"),
)

SERVES = ClauseRule(
    "serves",
    Takes.ONE,
    "a role",
    "what it is there for; checks and papers know it by this",
    choices=ROLES,
)

MOVES = ClauseRule(
    "moves",
    Takes.NOTHING,
    "nothing",
    "how it moves in use",
    (
        ClauseRule("out", Takes.MAYBE, "a length", "pulls out by this much"),
        ClauseRule("about", Takes.MANY, "an edge and an angle", "swings about this edge"),
    ),
)

HIGH = one("high", "a length", "height of what is seen, from where it stands")
DEPTH = one("depth", "a length", "from the wall to the face")
RETURN = one(
    "return",
    "a length",
    "how far it reaches along the wall around the corner, from the corner itself",
)
WIDE = one("wide", "a length", "width, where the run gives none")

SIZES = (
    flag("share", "takes a share of what is left"),
    ClauseRule(
        "shares", Takes.ONE, "a count", "takes so many shares of what is left", (), (), True
    ),
)

RUN_SIZES = (
    *SIZES,
    one("min", "a length", "the share is never less than this"),
    one("max", "a length", "the share is never more than this"),
)

OVER = one("over", "a length", "over this distance")

HOLDS = ClauseRule(
    "holds",
    Takes.MANY,
    "roles",
    "what is let into it or stands on it: a sink, a cooktop",
    choices=ROLES,
)

BOWL = one(
    "bowl",
    "a width",
    "the bowl of its sink, outside, in the middle of its width",
    one("by", "a length", "from its front to its back"),
    one("down", "a length", "how far it hangs under the top of the counter"),
)

BUILT = one("built", "a construction", "how units are built unless they say otherwise")

PATTERN_BODY = (
    "option",
    "let",
    "part",
    "hardware",
    "assembly",
    "openings",
    "for",
    "when",
    "join",
    "rip",
    "require",
    "step",
    "holes",
    "cut",
    "offers",
    "takes",
    "without",
    "note",
    "accept",
)

TREE = ("stack", "row", "for")

GIVEN = (
    one("thick", "a length", "actual thickness"),
    ClauseRule(
        "stock",
        Takes.ONE,
        "a width",
        "a size it is bought in: width by length, the length along the grain",
        (
            one("by", "a length", "the length"),
            one("pieces", "a count", "how many of this size can be had, if not any number"),
        ),
        repeats=True,
    ),
    one("grain", "yes or none", "whether parts must follow the grain"),
    ClauseRule(
        "matches",
        Takes.ONE,
        "a role",
        "a unit's parts of this role are cut from one piece, in order: the figure runs on",
        choices=ROLES,
    ),
    ClauseRule(
        "along",
        Takes.ONE,
        "unit or run",
        "how far matching parts match: within a unit, or side by side along a run too",
        choices=("unit", "run"),
    ),
    one("band", "a band", "what covers its edges"),
    one("wide", "a length", "width as bought"),
    one("wider", "a band", "what covers an edge that this band is too narrow for"),
    one("counts", "yes or no", "whether its thickness is taken off the cut size"),
    one("bought", "a length", "thickness as bought, before it is milled to what it is"),
    one("density", "a count", "pounds a cubic foot"),
    one("modulus", "a count", "modulus of elasticity, pounds a square inch"),
    one("radial", "a count", "change across quartered grain for 1 % of moisture, of its width"),
    one(
        "tangential", "a count", "change across plain-sawn grain for 1 % of moisture, of its width"
    ),
    one("called", "words in quotes", "how papers name it"),
)
