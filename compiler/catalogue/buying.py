"""Findings about what is bought and what it costs: packs, stock on hand, coats, rates."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule
from casewright.lang.findings import Severity

RULES: Mapping[str, Rule] = {
    "unknown-thing": Rule(
        doc="Nothing that can be bought has this name: no sheet, lumber, band, hardware, fastener "
        "or coat.",
        mend="Write the name as it is declared.",
        around=Around.KITCHEN,
        bad="""
        buy scrow by 100
        """,
        good="""
        buy screw by 100
        """,
    ),
    "unknown-rates": Rule(
        doc="The job names rates that no text declares.",
        mend="Write the rates' name as it is declared, or declare them in shop.case.",
        bad="""
        job Boathouse galley {
          rates sharp
        }
        rates shop { currency eur }
        """,
        good={"rates sharp": "rates shop"},
    ),
    "rates-not-named": Rule(
        doc="Several rates are declared as near to the job as each other, and it names none of "
        "them; the first is taken.",
        why="Another's prices would give another estimate, and nothing on the paper says so.",
        mend="Name the rates in the job.",
        severity=Severity.WARNING,
        around=Around.KITCHEN,
        bad="""
        rates shop { currency eur }
        rates trade { currency eur }
        """,
        good={"rates trade {": "rates trade from shop {"},
    ),
    "amount-of-another-kind": Rule(
        doc="What is on hand, or what a pack holds, is a count of what comes by its length, or a "
        "length of what is counted.",
        why="A band of 100 could be inches or rolls: a wrong amount would be ordered.",
        mend="Write a length for a band, as 250', and a count for everything else.",
        around=Around.KITCHEN,
        bad="""
        on_hand screw 6'
        """,
        good="""
        on_hand screw 6
        """,
    ),
    "length-not-made": Rule(
        doc="A price, or what is on hand, is of a length in which the thing isn't made.",
        why="Nothing would ever be found in that length: it would not be counted.",
        mend="Write one of the lengths that the report names.",
        around=Around.KITCHEN,
        bad="""
        slide runner { lengths 12 14 16 }
        on_hand runner 6 long 15
        """,
        good={"long 15": "long 16"},
    ),
    "unknown-currency": Rule(
        doc="No currency has this code.",
        mend="Write the three letters of ISO 4217, small: eur, usd, cad.",
        around=Around.KITCHEN,
        bad="""
        rates shop { currency euro }
        """,
        good="""
        rates shop { currency eur }
        """,
    ),
    "two-currencies": Rule(
        doc="Prices are in two currencies. They can't be added, and no text says at what rate of "
        "exchange.",
        mend="Change one of them into the other's currency.",
        around=Around.KITCHEN,
        bad="""
        rates shop {
          currency eur
          price screw 0.04 per piece currency usd
        }
        """,
        good={"piece currency usd": "piece"},
    ),
    "price-of-another-kind": Rule(
        doc="A price is for something that this kind of thing isn't bought by: a sheet has a price "
        "a sheet, a band a price a foot.",
        mend="Say per, and one of the words that the report names.",
        around=Around.KITCHEN,
        bad="""
        rates shop {
          currency eur
          price board 62.50 per foot
        }
        """,
        good={"per foot": "per sheet"},
    ),
    "pack-unknown": Rule(
        doc="A price is for a pack, and nothing says what a pack holds.",
        mend="Add `buy`, the thing, `by`, and a count or a length.",
        around=Around.KITCHEN,
        bad="""
        rates shop {
          currency eur
          price screw 8.40 per pack
        }
        """,
        good="""
        buy screw by 200
        rates shop {
          currency eur
          price screw 8.40 per pack
        }
        """,
    ),
    "share-out-of-range": Rule(
        doc="A share is less than nothing, or more than can be: what is lost, or a margin, is less "
        "than all.",
        mend="Write a share as 20%.",
        around=Around.KITCHEN,
        bad="""
        buy screw by 200  waste 100%
        """,
        good="""
        buy screw by 200  waste 5%
        """,
    ),
    "less-than-nothing": Rule(
        doc="A price, a wage or a time is less than nothing.",
        mend="Write it as nothing or more.",
        around=Around.KITCHEN,
        bad="""
        rates shop {
          currency eur
          price screw (2 - 3) per piece
        }
        """,
        good={"(2 - 3)": "(3 - 2)"},
    ),
    "price-too-fine": Rule(
        doc="An amount of money has more decimals than its currency. A price may have two more, "
        "since a screw costs a part of a cent; what is paid, a wage or a rounding, has none more.",
        mend="Round it, or say the price of a hundred or a thousand.",
        source="ISO 4217 for the decimals of a currency (from memory); two more: common practice",
        around=Around.KITCHEN,
        bad="""
        rates shop {
          currency jpy
          price screw 4.125 per piece
        }
        """,
        good={"4.125 per piece": "413 per hundred"},
    ),
    "count-not-whole": Rule(
        doc="What comes in pieces, packs or sheets is in part of one, or an offcut in none.",
        mend="Write how many there are, 1 or more; take the line away when none is left.",
        around=Around.KITCHEN,
        bad="""
        offcut long_one { of board  size 12 by 40  pieces 1.5 }
        """,
        good="""
        offcut long_one { of board  size 12 by 40  pieces 2 }
        """,
    ),
    "count-too-large": Rule(
        doc="A list of kept offcuts has more pieces of one size than a shop can hold.",
        why="A slip of the hand in a count would let a job be planned from stock that isn't there.",
        mend="Write how many stand there.",
        around=Around.KITCHEN,
        bad="""
        offcut long_one { of board  size 12 by 40  pieces 20000 }
        """,
        good="""
        offcut long_one { of board  size 12 by 40  pieces 2 }
        """,
    ),
    "offcut-larger-than-sheet": Rule(
        doc="A kept offcut is larger than every size that its sheet is bought in.",
        why="Parts would be planned from a piece that can't be there.",
        mend="Check its figures; where the sheet comes so large, add that stock to it.",
        source="arithmetic: the offcut against stock, either way round",
        around=Around.KITCHEN,
        bad="""
        sheet raw_board { thick 3/4  stock 49 by 97 }
        offcut long_one { of raw_board  size 120 by 400 }
        """,
        good={"120 by 400": "12 by 40"},
    ),
    "saw-figure-unlikely": Rule(
        doc="A kerf, a trim or a stack is one that no saw has: mostly a figure of the other "
        "measure. Nothing is planned with it.",
        why="A kerf that is wrong by a little makes every piece of the plan wrong by as much.",
        mend="Measure it; write a figure of the other measure as 3.2mm or 1/8in.",
        source="common practice: a kerf of 1/32 to 1 in, trim to 4 in, stacks to 8 in",
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 3.2  trim 1/4 }
        """,
        good="""
        saw table_saw { kerf 3.2mm  trim 1/4 }
        """,
    ),
    "estimate-not-whole": Rule(
        doc="Things that the kitchen takes have no price, or no plan that would say how many, or "
        "the rates have no labour. The estimate says what is left out, and is no offer to sign.",
        mend="Add a price for each, 0 where overhead carries it; for work, add labour.",
        severity=Severity.WARNING,
        around=Around.PRICED,
        bad="""
        rates shop {
          currency usd
          wage     30
          labour   gluing 10min per piece
        }
        """,
        good="""
        rates shop {
          currency usd
          wage     30
          price    board 40 per sheet
          labour   gluing 10min per piece
        }
        """,
    ),
    "margin-and-mark-up": Rule(
        doc="Rates say both a margin and a mark-up. A margin is a share of the price, a mark-up a "
        "share of the cost: 25 % of the price is a third of the cost.",
        mend="Keep the one you reckon by.",
        around=Around.KITCHEN,
        bad="""
        rates shop {
          currency eur
          margin   25%
          mark_up  30%
        }
        """,
        good="""
        rates shop {
          currency eur
          margin   25%
        }
        """,
    ),
    "board-used-up": Rule(
        doc="What is cut off a board's ends and edges, or lost to defects, leaves nothing of it.",
        mend="Say less of it, or larger boards.",
        around=Around.KITCHEN,
        bad="""
        lumber oak { thick 3/4  grain yes }
        boards oak { lengths 24  ends 12 }
        """,
        good={"24  ends 12": "96  ends 1"},
    ),
    "too-many-lengths": Rule(
        doc="Boards come in more lengths than a plan can choose among.",
        mend="Keep those the shop would choose among: 12 at most.",
        around=Around.KITCHEN,
        bad="""
        lumber oak { thick 3/4  grain yes }
        boards oak { lengths 48 54 60 66 72 78 84 90 96 102 108 114 120 }
        """,
        good={"48 54 60 66 72 78 84 90 96 102 108 114": "72 96"},
    ),
    "offer-changes-nothing": Rule(
        doc="An offer says no line, or one that stands in place of nothing in the kitchen: no such "
        "tag, run or island, or no construction that the job is built by.",
        mend="Say an option and its other value, a line with a tag that is there, a run or an "
        "island.",
        severity=Severity.WARNING,
        around=Around.PRICED,
        bad="""
        rates shop {
          currency usd
          wage     30
          price    board 40 per sheet
          labour   gluing 10min per piece
        }
        offer wider { S9: cupboard 30 }
        """,
        good={"{ S9:": "{ S1:"},
    ),
    "offer-not-built": Rule(
        doc="With what an offer changes, the kitchen can't be built, or it has an error or a "
        "warning that it hasn't as it is. The offer has no price.",
        mend="Change what the offer says, or the kitchen where it doesn't suit it.",
        severity=Severity.WARNING,
        around=Around.PRICED,
        bad="""
        rates shop {
          currency usd
          wage     30
          price    board 40 per sheet
          labour   gluing 10min per piece
        }
        offer thick { backs astray }
        """,
        good={"thick { backs astray": "thin { backs one"},
    ),
    "too-many-offers": Rule(
        doc="More options are offered than are priced: each builds the kitchen once more.",
        mend="Keep those that the customer is to choose among: 12 at most.",
        no_example="It takes more than 12 offers.",
    ),
}
