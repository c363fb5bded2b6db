"""The words for buying and price: packs, stock on hand, coats, and a shop's rates."""

from attrs import evolve

from casewright.compiler.words.clauses import ROLES, flag, many, one
from casewright.lang.schema import ClauseRule, HeadRule, Takes

PRICED_PER = (
    "sheet",
    "board_foot",
    "cubic_metre",
    "foot",
    "metre",
    "piece",
    "pair",
    "hundred",
    "thousand",
    "pack",
)
"""What a price may be for."""

WORKED_PER = (
    "piece",
    "cut",
    "foot",
    "metre",
    "square_foot",
    "square_metre",
    "hole",
    "joint",
    "step",
    "unit",
    "job",
)
"""What a time of labour may be for."""

PROFIT_IS = ("margin", "mark_up")
"""A margin is a share of the price, a mark-up a share of the cost."""


def _choice(word: str, doc: str, choices: tuple[str, ...]) -> ClauseRule:
    return ClauseRule(word, Takes.ONE, " or ".join(choices), doc, choices=choices)


_LONG = one(
    "long",
    "a length",
    "of this length: of a slide, a moulding, or a sheet that is bought in several",
)
_WAGE = one("wage", "money", "what an hour costs")

BUYING = (
    HeadRule(
        "buy",
        "how a thing is bought: what a pack holds, and what is lost of it; "
        "as buy nail by 5000 pack \"box\"",
        "a thing",
        1,
        1,
        clauses=(
            one("by", "a count or a length", "what a pack or a roll holds"),
            one("pack", "words in quotes", "what such a pack is called"),
            one("over", "a length", "taken longer at each end of a piece, and trimmed off"),
            one("waste", "a share", "this share is lost, as 10%: bought is net / (1 - share)"),
            one("from", "words in quotes", "who supplies it"),
            one("as", "words in quotes", "the supplier's own name or number for it"),
        ),
        block=True,
    ),
    HeadRule(
        "on_hand",
        "what the shop has of a thing: on_hand nail 1200",
        "a thing and an amount",
        2,
        2,
        clauses=(_LONG,),
    ),
    HeadRule(
        "boards",
        "how the boards of some lumber come, and what is lost of them on their way to parts",
        "lumber",
        1,
        64,
        clauses=(
            many("lengths", "lengths", "the lengths boards are bought in"),
            one("wide", "a length", "how wide a board is counted on to be; unsaid: as its parts"),
            flag("random", "boards come in random widths, none narrower than that"),
            one("rough", "a length", "thickness as bought; unsaid: what planing to size takes"),
            one("over", "a length", "cut longer at each end of a piece"),
            one("edge", "a length", "taken off each edge by jointing and planing"),
            one("ends", "a length", "cut off each end of a board"),
            one("defects", "a share", "this share of a board's length is cut out"),
            one("strip", "a length", "the widest strip of a panel that is glued up"),
            _choice("first", "the first cut of a board", ("rip", "crosscut")),
        ),
        block=True,
    ),
    HeadRule(
        "linear",
        "what comes by the length and runs along units: moulding, light rail, counter",
        "a name",
        1,
        1,
        clauses=(
            ClauseRule("along", Takes.MANY, "roles", "runs along what serves these", choices=ROLES),
            ClauseRule("past", Takes.MANY, "roles", "and past what serves these", choices=ROLES),
            _choice("edge", "the edge of a unit that it runs along", ("top", "bottom")),
            one("rises", "a length", "how far it reaches up past the top it runs along: a crown"),
            many("lengths", "lengths", "the lengths it is bought in"),
            one("over", "a length", "cut longer at each end of a piece, and trimmed off"),
            ClauseRule("clear_of", Takes.MANY, "roles", "no joint beside these", choices=ROLES),
            one("called", "words in quotes", "how papers name it"),
        ),
        block=True,
    ),
    HeadRule(
        "setting",
        "what units are set in the room with: through, between or under what, and how many",
        "a name",
        1,
        1,
        clauses=(
            one("with", "a fastener or a fitting", "what is driven or laid"),
            ClauseRule(
                "through",
                Takes.MANY,
                "roles",
                "through parts of these, to the wall, or down into the base",
                choices=ROLES,
            ),
            ClauseRule(
                "between", Takes.MANY, "roles", "where such parts of neighbours meet", choices=ROLES
            ),
            ClauseRule("to", Takes.MANY, "roles", "and parts of these, next to it or below",
                       choices=ROLES),
            ClauseRule(
                "under", Takes.MANY, "roles", "under what serves these, and bases", choices=ROLES
            ),
            flag("studs", "at each stud, as the allowances say where they are and how many each"),
            one("every", "a length", "one for so much, and one more"),
            one("least", "a count", "never fewer for each"),
            one("called", "words in quotes", "how papers name it"),
        ),
        block=True,
    ),
    HeadRule(
        "coat",
        "what is spread on parts or in joints: finish, glue",
        "a name",
        1,
        1,
        clauses=(
            ClauseRule("on", Takes.MANY, "materials", "parts of these are coated all over"),
            ClauseRule("with", Takes.MANY, "fixings", "it is spread in joints of these fixings"),
            one("coats", "a count", "how many times"),
            one(
                "covers",
                "a width",
                "what a pack covers once: covers 10' by 12'",
                one("by", "a length", "the length"),
            ),
            one("called", "words in quotes", "how papers name it"),
        ),
        block=True,
    ),
    HeadRule(
        "rates",
        "what things and work cost in a shop; the job takes the nearest, or says rates and a name",
        "a name",
        1,
        1,
        clauses=(
            one("from", "rates", "are those, changed"),
            one("currency", "a currency", "the currency of every figure: an ISO 4217 code"),
            _choice("sheets", "whether whole sheets are charged, or what is cut from them",
                    ("whole", "cut")),
            _WAGE,
            one("overhead", "a share", "added to the cost of things and work"),
            one("margin", "a share", "profit, as a share of the price before tax"),
            one("mark_up", "a share", "profit, as a share of the cost"),
            one("tax", "a share", "tax on the price"),
            one(
                "round",
                "money",
                "the price before tax is rounded to this",
                _choice("to", "to the nearest, or always up", ("nearest", "up")),
            ),
            one("called", "words in quotes", "how papers name them"),
        ),
        block=True,
        body=("price", "labour", "note"),
    ),
    HeadRule(
        "offer",
        "what the customer may choose instead: the kitchen with these lines in place of its own; "
        "an option is the construction's, a tag stands for its line, a run or island is opened "
        "again, and a run with a block is written anew",
        "a name",
        1,
        1,
        clauses=(
            one("called", "words in quotes", "how papers name it"),
            one("built", "a construction", "the whole kitchen is built by this one"),
        ),
        options=True,
        block=True,
        body=("run", "island", "peninsula", "without", "note"),
        tagged="placed",
    ),
    HeadRule(
        "price",
        "what a thing costs, in the currency of its rates: price ply 96 per sheet; "
        "0 where overhead carries it",
        "a thing and an amount",
        2,
        2,
        clauses=(
            evolve(_choice("per", "what the price is for", PRICED_PER), or_other=True),
            _LONG,
            one("currency", "a currency", "where it isn't that of the rates"),
        ),
    ),
    HeadRule(
        "labour",
        "how long a kind of work takes, in min or h: labour sawing 0.8min per cut; "
        "per piece serves front counts a door put together of several parts once; per unit counts "
        "cabinets, no bases or fillers but where serves names them; per foot is of banded "
        "edges, per square_foot of what coats are on, once for each time",
        "a name and a time",
        2,
        2,
        clauses=(
            _choice("per", "what takes so long", WORKED_PER),
            ClauseRule(
                "serves",
                Takes.MANY,
                "roles",
                "only what serves these: parts, assemblies as one piece, units",
                choices=ROLES,
            ),
            one("set_up", "a time", "once a job, before the first: the machine's set-up"),
            _WAGE,
        ),
    ),
)  # fmt: skip
