"""The words of the language: one schema, from which everything that knows words is made.

Nothing here names a unit, a part, a material, a filling or an option: those are the library's.
"""

from casewright.compiler.words_buying import BUYING
from casewright.lang.schema import ClauseRule, HeadRule, Takes, schema_of

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
    "wall_unit",
    "base_unit",
    "tall_unit",
    "sink",
    "cooking",
    "cold",
    "dishes",
    "baking",
    "hood",
)
"""What checks and papers may know of a thing: the closed list behind `serves`."""


def _one(word: str, kind: str, doc: str, *clauses: ClauseRule) -> ClauseRule:
    return ClauseRule(word, Takes.ONE, kind, doc, clauses)


def _flag(word: str, doc: str, *clauses: ClauseRule) -> ClauseRule:
    return ClauseRule(word, Takes.NOTHING, "nothing", doc, clauses)


def _many(word: str, kind: str, doc: str, *clauses: ClauseRule) -> ClauseRule:
    return ClauseRule(word, Takes.MANY, kind, doc, clauses)


_PLACE = (
    _one("from", "a place", "starts at this place and goes to the right, up or back"),
    _one("to", "a place", "ends at this place"),
    _flag("centred", "stands in the middle", _one("on", "a thing", "of this thing")),
)


def _place(axis: str, doc: str, *more: ClauseRule) -> ClauseRule:
    return ClauseRule(axis, Takes.MAYBE, "a place", doc, (*_PLACE, *more))


_EXTENTS = (
    _place("across", "where it lies from left to right"),
    _place("up", "where it lies in height"),
    _place("deep", "where it lies from front to back"),
)

_SERVES = ClauseRule(
    "serves",
    Takes.ONE,
    "a role",
    "what it is there for; checks and papers know it by this",
    choices=ROLES,
)

_MOVES = ClauseRule(
    "moves",
    Takes.NOTHING,
    "nothing",
    "how it moves in use",
    (
        ClauseRule("out", Takes.MAYBE, "a length", "pulls out by this much"),
        ClauseRule("about", Takes.MANY, "an edge and an angle", "swings about this edge"),
    ),
)

_HIGH = _one("high", "a length", "height of what is seen, from where it stands")
_DEPTH = _one("depth", "a length", "from the wall to the face")
_WIDE = _one("wide", "a length", "width, where the run gives none")

_SIZES = (
    _flag("share", "takes a share of what is left"),
    ClauseRule(
        "shares", Takes.ONE, "a count", "takes so many shares of what is left", (), (), True
    ),
)

_RUN_SIZES = (
    *_SIZES,
    _one("min", "a length", "the share is never less than this"),
    _one("max", "a length", "the share is never more than this"),
)

_OVER = _one("over", "a length", "over this distance")

_HOLDS = ClauseRule(
    "holds",
    Takes.MANY,
    "roles",
    "what is let into it or stands on it: a sink, a cooktop",
    choices=ROLES,
)

_BUILT = _one("built", "a construction", "how units are built unless they say otherwise")

_PATTERN_BODY = (
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

_TREE = ("stack", "row", "for")

_GIVEN = (
    _one("thick", "a length", "actual thickness"),
    ClauseRule(
        "stock",
        Takes.ONE,
        "a width",
        "a size it is bought in: width by length, the length along the grain",
        (_one("by", "a length", "the length"),),
        repeats=True,
    ),
    _one("grain", "yes or none", "whether parts must follow the grain"),
    _one("band", "a band", "what covers its edges"),
    _one("wide", "a length", "width as bought"),
    _one("counts", "yes or no", "whether its thickness is taken off the cut size"),
    _one("bought", "a length", "thickness as bought, before it is milled to what it is"),
    _one("density", "a count", "pounds a cubic foot"),
    _one("modulus", "a count", "modulus of elasticity, pounds a square inch"),
    _one("radial", "a count", "change across quartered grain for 1 % of moisture, of its width"),
    _one("tangential", "a count", "change across plain-sawn grain for 1 % of moisture"),
    _one("called", "words in quotes", "how papers name it"),
)

KITCHEN = (
    HeadRule(
        "file",
        "a whole text",
        body=(
            "measure",
            "edition",
            "use",
            "note",
            "job",
            "room",
            "run",
            "construction",
            "unit",
            "pattern",
            "filling",
            "appliance",
            "sheet",
            "lumber",
            "band",
            "slide",
            "hinge",
            "fitting",
            "fixing",
            "fastener",
            "saw",
            "offcut",
            "buy",
            "on_hand",
            "coat",
            "rates",
            "allowances",
            "rule_pack",
        ),
    ),
    HeadRule(
        "measure",
        "what bare numbers of this file are: inches or mm",
        clauses=(
            ClauseRule("in", Takes.ONE, "inches or mm", "the measure", choices=("inches", "mm")),
        ),
    ),
    HeadRule("edition", "the edition of the library this text is of", "a number", 1, 1),
    HeadRule("use", "reads another text: std edition 1, shop, or a path", "a text", raw=True),
    HeadRule("note", "a note to whoever reads the text", "words", raw=True, verbatim=True),
    HeadRule(
        "accept",
        "accepts a finding, with the reason",
        "a finding and a reason",
        raw=True,
    ),
    HeadRule(
        "job",
        "the job: its name, and what papers print of it",
        "a name",
        raw=True,
        block=True,
        clauses=(
            _one("number", "a number", "the job's number"),
            _one("revision", "a number", "which revision this is"),
            _one("date", "a date", "the date on the papers"),
            _one("precision", "a length", "the step that shares and papers round to"),
            _one("saw", "a saw", "the saw its sheets are planned for"),
            _one("rates", "rates", "the rates its price is reckoned by"),
            _one("allowances", "allowances", "what its checks reckon with"),
            _many("rules", "rule packs", "published limits it is held against"),
            _BUILT,
        ),
        body=("note", "accept"),
    ),
    HeadRule(
        "room",
        "the room as measured",
        "a name",
        1,
        1,
        block=True,
        clauses=(
            ClauseRule(
                "floor",
                Takes.ONE,
                "finished or rough",
                "whether heights were taken from the finished floor",
                (_one("finish", "a length", "thickness of the floor still to be laid"),),
                choices=("finished", "rough"),
            ),
            _one("ceiling", "a length", "floor to ceiling"),
            _one(
                "counter",
                "a length",
                "floor to top of counter",
                _one("thick", "a length", "thickness of the counter"),
            ),
        ),
        body=("wall", "corner", "island", "peninsula", "note"),
    ),
    HeadRule(
        "wall",
        "a wall, seen from inside the room, left to right",
        "a name",
        1,
        1,
        block=True,
        clauses=(
            ClauseRule(
                "length",
                Takes.ONE,
                "a length",
                "from corner to corner; said again with a height, as it measures there",
                (_one("up", "a length", "the height at which it was measured"),),
                repeats=True,
            ),
            _one("high", "a length", "height, where it differs from the room's"),
            _flag(
                "plumb",
                "how far the wall leans",
                _one("in", "a length", "into the room at the top", _OVER),
                _one("out", "a length", "out of the room at the top", _OVER),
            ),
            ClauseRule(
                "floor",
                Takes.ONE,
                "a length",
                "how far the floor lies under its high point, at a place along the wall",
                (_one("at", "a length", "the place along the wall"),),
                repeats=True,
            ),
            ClauseRule(
                "ceiling",
                Takes.ONE,
                "a length",
                "floor to ceiling at a place along the wall",
                (_one("at", "a length", "the place along the wall"),),
                repeats=True,
            ),
        ),
        body=("window", "doorway", "waste", "water", "gas", "outlet", "radiator", "note"),
    ),
    HeadRule(
        "corner",
        "the inside angle between two walls: an angle, how far out of square, or measured legs",
        "two walls, and an angle",
        2,
        3,
        clauses=(
            _one("out", "a length", "wider than square by this much", _OVER),
            _one("in", "a length", "narrower than square by this much", _OVER),
            _one(
                "legs",
                "a length",
                "measured from the corner along the first wall",
                _one("by", "a length", "measured from the corner along the second wall"),
            ),
            _one("diagonal", "a length", "between the ends of the two legs"),
            _flag("open", "the last wall and the first don't meet"),
        ),
    ),
    HeadRule(
        "island",
        "something that stands free in the room, for runs to stand on",
        "a name",
        1,
        1,
        clauses=(
            _one("from", "a wall", "the wall it is measured from, and lies along"),
            _one("out", "a length", "how far its back is out from the wall"),
            _one("at", "a length", "its left end along the wall"),
            _one("length", "a length", "from its left end to its right, as seen facing the wall"),
            _one("depth", "a length", "from its back to its front, which is away from the wall"),
            _one("turn", "an angle", "turned about its middle, clockwise as seen from above"),
        ),
        block=True,
        body=("note",),
    ),
    HeadRule(
        "peninsula",
        "something that stands out square from a wall, for runs to stand on",
        "a name",
        1,
        1,
        clauses=(
            _one("on", "a wall", "the wall it stands out from"),
            _one("at", "a length", "its left side along the wall"),
            _one("length", "a length", "from the wall to its front, which is its free end"),
            _one("depth", "a length", "from its left side to its right, as seen facing the wall"),
        ),
        block=True,
        body=("note",),
    ),
    HeadRule(
        "run",
        "a row of units on a wall or an island, left to right as seen facing it",
        "a name",
        1,
        1,
        block=True,
        clauses=(
            _one("on", "a wall or an island", "what it stands on"),
            ClauseRule(
                "facing",
                Takes.ONE,
                "front, back, left or right",
                "the side of an island or peninsula that its fronts are on",
                choices=("front", "back", "left", "right"),
            ),
            ClauseRule(
                "from",
                Takes.ONE,
                "left or right",
                "the end it starts from",
                choices=("left", "right"),
            ),
            _one("at", "a length", "the place along the wall it starts from"),
            _one(
                "after",
                "a tag, a run or a peninsula",
                "its left end is past this, which stands to the left or around the left corner",
                _one("filler", "a length", "with a filler of this width between"),
            ),
            _one(
                "before",
                "a tag, a run or a peninsula",
                "its right end is at this, which stands to the right or around the right corner",
                _one("filler", "a length", "with a filler of this width between"),
            ),
            _one("up", "a length", "its underside above the floor"),
            _one("length", "a length", "the length it fills, where not the whole wall"),
            _BUILT,
        ),
        body=("filler", "space", "dead_corner", "note", "accept"),
        tagged="placed",
    ),
    HeadRule(
        "filler",
        "a strip between a wall and a unit",
        "a width",
        0,
        1,
        clauses=(
            *_RUN_SIZES,
            _flag("scribe", "is scribed to the wall"),
            _one("into", "a tag", "is taken by this unit"),
        ),
    ),
    HeadRule(
        "space",
        "a stretch of the run left empty",
        "a width",
        0,
        1,
        clauses=(*_RUN_SIZES, _one("over", "a window or a unit", "as wide as this")),
    ),
    HeadRule(
        "dead_corner",
        "a corner that two runs leave closed, at one end of each",
        clauses=(
            _one("with", "a run", "the run around the corner; it says the same"),
            _one("filler", "a length", "what keeps the two runs' fronts clear of each other"),
        ),
    ),
    HeadRule(
        "placed",
        "a unit or an appliance in a run, behind its tag",
        "a width",
        0,
        1,
        clauses=(
            *_RUN_SIZES,
            _flag("centred", "stands in the middle", _one("on", "a window or a tag", "of this")),
            _one("over", "a window or a tag", "lines up with this, and is as wide"),
            _one("up", "a length", "its underside above the floor, where not the run's"),
            _HIGH,
            _DEPTH,
            _HOLDS,
            _flag("confirmed", "its sizes were read from its maker's sheet"),
            _BUILT,
        ),
        options=True,
        block=True,
        body=("stack", "row", "note", "accept", *_PATTERN_BODY),
    ),
)


def _feature(word: str, doc: str) -> HeadRule:
    return HeadRule(
        word,
        doc,
        "a name",
        0,
        1,
        clauses=(
            _one("at", "a length", "from the wall's left end to its left edge, or to its middle"),
            _one("wide", "a length", "width of the opening"),
            _one("up", "a length", "above the floor"),
            _one("high", "a length", "height of the opening"),
            _one("casing", "a length", "width of the casing around the opening"),
            _one("out", "a length", "how far it stands out from the wall"),
        ),
    )


FEATURES = (
    _feature("window", "a window"),
    _feature("doorway", "a doorway"),
    _feature("waste", "a waste pipe"),
    _feature("water", "a water pipe"),
    _feature("gas", "a gas pipe"),
    _feature("outlet", "an electrical outlet"),
    _feature("radiator", "a radiator"),
)

LIBRARY = (
    HeadRule(
        "construction",
        "a way to build: the pattern of a whole unit",
        "a name",
        1,
        1,
        clauses=(_one("from", "a construction", "is that one, changed"),),
        options=True,
        block=True,
        body=_PATTERN_BODY,
    ),
    HeadRule(
        "pattern",
        "how an assembly is made",
        "a name",
        1,
        1,
        clauses=(_one("from", "a pattern", "is that one, changed"), _SERVES),
        block=True,
        body=_PATTERN_BODY,
    ),
    HeadRule(
        "unit",
        "a cabinet of the library, or of this text",
        "a name",
        1,
        1,
        clauses=(
            _one("from", "a unit", "is that one, changed"),
            _one("built", "a construction", "how it is always built"),
            _flag("bare", "takes only the options of its construction, none of its parts"),
            _SERVES,
            _HOLDS,
            _HIGH,
            _DEPTH,
            _WIDE,
            _one("up", "a length", "its underside above the floor, where the run says nothing"),
            _one("called", "words in quotes", "how papers name it"),
        ),
        options=True,
        block=True,
        body=("stack", "row", *_PATTERN_BODY),
    ),
    HeadRule(
        "appliance",
        "a bought thing that stands in a run",
        "a name",
        1,
        1,
        clauses=(
            _SERVES,
            _WIDE,
            _HIGH,
            _DEPTH,
            ClauseRule(
                "opens",
                Takes.ONE,
                "down, left, right or out",
                "how its door opens, and how far it reaches",
                (
                    _one("reach", "a length", "from its face to the edge of the open door"),
                    _one("angle", "an angle", "how far it swings"),
                ),
                choices=("down", "left", "right", "out"),
            ),
            _one("handle", "a length", "how far its handle stands out from its face"),
            _flag("confirmed", "its sizes were read from its maker's sheet"),
            _one("called", "words in quotes", "how papers name it"),
        ),
        block=True,
        body=("note",),
    ),
    HeadRule(
        "filling",
        "what an opening may be filled with",
        "a name",
        1,
        1,
        clauses=(
            ClauseRule("faced", Takes.ONE, "yes or no", "whether a front closes it"),
            _one("called", "words in quotes", "how papers name it"),
        ),
        block=True,
        body=("option", "note"),
    ),
    HeadRule(
        "option",
        "something that may be chosen, and what it is unless chosen",
        "a name and a kind",
        2,
        64,
        assigns=True,
    ),
    HeadRule("let", "a name for a figure", "a name", 1, 1, assigns=True),
    HeadRule(
        "part",
        "a piece of wood or board",
        "a name",
        1,
        1,
        clauses=(
            _one("of", "a material", "what it is cut from"),
            _one("mirrors", "a part", "is that one, left and right exchanged"),
            *_EXTENTS,
            ClauseRule(
                "grain",
                Takes.ONE,
                "an axis",
                "the grain runs along this axis",
                choices=("across", "up", "deep"),
            ),
            _many("band", "edges", "these edges are banded"),
            _one(
                "trim",
                "a length",
                "left on beyond the finished size, to be scribed or trimmed",
                _many("on", "edges", "at these edges"),
            ),
            _flag("milled", "is planed thinner than its stock, to fit"),
            _SERVES,
            _MOVES,
        ),
        block=True,
        body=("cut", "when", "note"),
    ),
    HeadRule(
        "hardware",
        "a bought thing that takes up room in the unit",
        "a name",
        1,
        1,
        clauses=(
            _one("of", "a slide, a hinge or a fitting", "what it is"),
            _one("mirrors", "hardware", "is that one, left and right exchanged"),
            *_EXTENTS,
            _SERVES,
        ),
        block=True,
        body=("note",),
    ),
    HeadRule(
        "assembly",
        "parts that are built as one",
        "a name",
        1,
        1,
        clauses=(
            _one("of", "a pattern", "how it is made"),
            _one("mirrors", "an assembly", "is that one, left and right exchanged"),
            *_EXTENTS,
            _SERVES,
            _MOVES,
        ),
        options=True,
        block=True,
        body=_PATTERN_BODY,
    ),
    HeadRule(
        "openings",
        "where the openings are, and what stands between them",
        clauses=(
            _place("across", "from left to right"),
            _place("up", "in height"),
            _one("level", "a length", "thickness between two openings over one another"),
            _one("post", "a length", "thickness between two openings side by side"),
            _one("covers", "an assembly", "overlay fronts reach to the edges of this"),
            _one(
                "lap",
                "a length",
                "how far a front reaches past its opening at most; less than nothing: stays inside",
            ),
            _one("behind", "an assembly", "what stands behind an opening is looked for in this"),
            ClauseRule(
                "sized_by",
                Takes.ONE,
                "opening or front",
                "what a bare size in a stack or row is",
                choices=("opening", "front"),
            ),
            _one("between", "a length", "gap between two fronts"),
            _one("above", "a length", "gap over the topmost front"),
            _one("below", "a length", "gap under the lowest front"),
            _one("end", "a length", "gap beside a wall, a filler or an appliance"),
        ),
        block=True,
    ),
    HeadRule(
        "for",
        "makes its block for each of a set",
        "each, and a set",
        clauses=(
            ClauseRule("each", Takes.ONE, "a set or a counting word", "what of"),
            _one("with", "a property", "only those that have it"),
            _one("of", "a count", "counts from 1 to this"),
        ),
        block=True,
        body=(*_PATTERN_BODY, "stack", "row"),
        unnamed="fill",
    ),
    HeadRule(
        "when",
        "makes its block when this is so",
        "a condition",
        1,
        1,
        block=True,
        body=_PATTERN_BODY,
    ),
    HeadRule(
        "stack",
        "openings over one another, top to bottom",
        "a size",
        0,
        1,
        clauses=(
            *_SIZES,
            _one("opening", "a length", "clear size"),
            _one("between", "a length", "what stands between, instead of the usual"),
        ),
        block=True,
        body=_TREE,
        unnamed="fill",
    ),
    HeadRule(
        "row",
        "openings side by side, left to right",
        "a size",
        0,
        1,
        clauses=(
            *_SIZES,
            _one("opening", "a length", "clear size"),
            _one("between", "a length", "what stands between, instead of the usual"),
        ),
        block=True,
        body=_TREE,
        unnamed="fill",
    ),
    HeadRule(
        "fill",
        "an opening, by what fills it",
        "a size",
        0,
        1,
        clauses=(
            *_SIZES,
            _one("opening", "a length", "clear size of the opening"),
            _one("front", "a length", "size of its front"),
        ),
        options=True,
        block=True,
    ),
    HeadRule(
        "join",
        "things that touch, or enter one another",
        "things",
        1,
        64,
        clauses=(
            _many("to", "things", "they touch these"),
            _many("into", "things", "they enter these, which are grooved for them"),
            _one("with", "a fixing", "how they are fastened"),
            _one("play", "a length", "room on each side in the groove"),
        ),
    ),
    HeadRule(
        "rip",
        "parts that are ripped from one blank, banded first on its long edges",
        "parts",
        1,
        64,
        clauses=(
            _one("from", "a length", "the blank's width, where it isn't just what the strips need"),
            _one("kerf", "a length", "what the saw takes between two strips"),
            _one("trim", "a length", "added to the blank's width, to be trimmed off"),
        ),
    ),
    HeadRule(
        "require",
        "something that must be so, and what to say when it isn't",
        "a condition and words in quotes",
        2,
        2,
    ),
    HeadRule(
        "step",
        "what is done at the bench, in this order",
        "things, or words in quotes",
        1,
        64,
        clauses=(
            ClauseRule("lies", Takes.ONE, "an edge", "this face lies on the bench", choices=()),
            _flag("square", "the box is squared by its diagonals"),
            _one("after", "a thing", "goes behind the step that brings this in"),
        ),
    ),
    HeadRule(
        "holes",
        "holes bored in a part, alone, in pairs or in rows",
        "what for",
        1,
        1,
        clauses=(
            _one("on", "a face", "the face that is bored, as left_side.right"),
            _one("size", "a length", "diameter"),
            _one("into", "a length", "depth"),
            _place("across", "from left to right", _one("every", "a length", "spacing")),
            _place("up", "in height", _one("every", "a length", "spacing")),
            _place("deep", "from front to back", _one("every", "a length", "spacing")),
        ),
        block=True,
    ),
    HeadRule("cut", "a box taken from the part", clauses=_EXTENTS, block=True),
    HeadRule(
        "offers",
        "options of an assembly that may be chosen from outside",
        "options",
        1,
        64,
        clauses=(_one("of", "an assembly", "whose options"),),
    ),
    HeadRule("takes", "what a unit takes from its neighbours", "filler", 1, 1),
    HeadRule("without", "leaves out what the parent has", "a name", 1, 1),
    HeadRule(
        "sheet",
        "a board or ply, bought in sheets",
        "a name",
        1,
        1,
        clauses=_GIVEN,
        options=True,
        block=True,
    ),
    HeadRule("lumber", "solid wood", "a name", 1, 1, clauses=_GIVEN, options=True, block=True),
    HeadRule(
        "band", "what covers an edge", "a name", 1, 1, clauses=_GIVEN, options=True, block=True
    ),
    HeadRule(
        "slide",
        "a drawer slide",
        "a name",
        1,
        1,
        clauses=(
            _many("lengths", "lengths", "the lengths it is made in"),
            _one("carries", "a weight", "what a pair carries"),
            _one("called", "words in quotes", "how papers name it"),
        ),
        options=True,
        block=True,
    ),
    HeadRule(
        "hinge",
        "a hinge",
        "a name",
        1,
        1,
        clauses=(_one("called", "words in quotes", "how papers name it"),),
        options=True,
        block=True,
    ),
    HeadRule(
        "fitting",
        "any other bought thing: a pull, a shelf pin, a leg",
        "a name",
        1,
        1,
        clauses=(_one("called", "words in quotes", "how papers name it"),),
        options=True,
        block=True,
    ),
    HeadRule(
        "fixing",
        "how a joint is fastened",
        "a name",
        1,
        1,
        clauses=(
            _one("locate", "a fastener", "what holds it in place while it is fastened"),
            _one(
                "hold",
                "a fastener",
                "what holds it for good",
                _one("every", "a length", "how far apart at most"),
                _one("ends", "a length", "how far from each end"),
            ),
            _one("needs", "a length", "room to drive it"),
            ClauseRule(
                "drive",
                Takes.ONE,
                "through or inside",
                "through the second part, or from the face of the first",
                choices=("through", "inside"),
            ),
            _one("called", "words in quotes", "how papers name it"),
        ),
        block=True,
    ),
    HeadRule(
        "fastener",
        "a nail, staple, screw or dowel",
        "a name",
        1,
        1,
        clauses=(_one("called", "words in quotes", "how papers name it"),),
        options=True,
        block=True,
    ),
)

SHOP = (
    HeadRule(
        "saw",
        "a saw, and how the shop likes to cut on it",
        "a name",
        1,
        1,
        clauses=(
            _one("kerf", "a length", "what a cut takes"),
            _one("trim", "a length", "taken off each factory edge, its kerf included"),
            _one("least", "a length", "the narrowest strip ripped against the fence"),
            _one("stack", "a length", "how high sheets may lie on one another under the blade"),
            ClauseRule(
                "first",
                Takes.ONE,
                "rip, crosscut or either",
                "the first cut of a sheet",
                choices=("rip", "crosscut", "either"),
            ),
            _one(
                "keeps",
                "a width",
                "offcuts from this size on are kept",
                _one("by", "a length", "the length, along the grain"),
            ),
            _one("called", "words in quotes", "how papers name it"),
        ),
        block=True,
    ),
    HeadRule(
        "offcut",
        "a kept piece of a sheet",
        "a name",
        1,
        1,
        clauses=(
            _one("of", "a sheet", "what it is of"),
            _one(
                "size",
                "a width",
                "width by length, the length along the grain",
                _one("by", "a length", "the length"),
            ),
            _one("pieces", "a count", "how many there are"),
            _one("place", "words in quotes", "where it stands"),
            _one("date", "a date", "since when"),
        ),
        block=True,
    ),
)

_FIGURE = "a figure of the quantity's own kind"

CHECKING = (
    HeadRule(
        "allowances",
        "figures that checks reckon with: loads, limits, reserves",
        "a name",
        1,
        1,
        clauses=(
            _one("from", "allowances", "are those, changed"),
            _one("called", "words in quotes", "how papers name them"),
        ),
        options=True,
        block=True,
    ),
    HeadRule(
        "rule_pack",
        "limits from one published source, for jobs that name it",
        "a name",
        1,
        1,
        clauses=(
            _one("from", "a rule pack", "is that one, changed"),
            _one("title", "words in quotes", "the title of the source"),
            _one("published", "words in quotes", "its edition or year"),
        ),
        block=True,
        body=("limit", "without", "note"),
    ),
    HeadRule(
        "limit",
        "what a measured quantity may be",
        "a quantity",
        1,
        1,
        clauses=(
            _one("least", _FIGURE, "no less than this"),
            _one("most", _FIGURE, "no more than this"),
            _one("section", "words in quotes", "where the source says it"),
            ClauseRule(
                "basis",
                Takes.ONE,
                "recommended, code, access or practice",
                "what it rests on",
                choices=("recommended", "code", "access", "practice"),
            ),
            ClauseRule(
                "reported",
                Takes.ONE,
                "error, warning or advice",
                "how a miss is reported",
                choices=("error", "warning", "advice"),
            ),
            _one("says", "words in quotes", "the limit in plain words"),
            _flag("from_memory", "the source was not at hand when this was written"),
        ),
        block=True,
    ),
)

SCHEMA = schema_of("file", *KITCHEN, *FEATURES, *LIBRARY, *SHOP, *CHECKING, *BUYING)
"""The schema of a whole text."""
