"""How measures are spelt: every spelling has one outcome, read or refused with the mend.

`SPELLING` takes whatever looks like a number, good or bad, as one word; `spell` says what it is.
"""

import re
from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache

from attrs import frozen

from casewright.lang.faults import quoted

MOST_DIGITS = 40
"""A number has no more digits than this. No measure needs them, and huge numbers make huge work."""

_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8",
    "⅞": "7/8",
}  # fmt: skip

UNITS = {
    '"': "in", "in": "in", "'": "ft", "ft": "ft", "mm": "mm", "deg": "deg", "lb": "lb",
    "kg": "kg", "min": "min", "h": "h", "%": "%",
}  # fmt: skip
"""Units as they are written right after the figure, and what the tree calls them."""

_MARKS = {"″": '"', "”": '"', "“": '"', "''": '"', "′": "'", "’": "'", "‘": "'", "°": "deg"}
_UNIT_WORDS = {
    "inch": "in", "inches": "in", "foot": "ft", "feet": "ft", "degree": "deg", "degrees": "deg",
    "lbs": "lb", "pound": "lb", "pounds": "lb", "kgs": "kg", "percent": "%",
    "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
}  # fmt: skip
_METRIC = {"cm": 10, "m": 1000}
"""Millimetres in units that shops don't write."""

_LOOSE_UNITS = "|".join(
    sorted(("in", "ft", "mm", "cm", "deg", "lb", "kg", *_UNIT_WORDS), key=len, reverse=True)
)
"""Units that may stand, wrongly, after a blank. `m` would take too many names."""

_ANY_VULGAR = f"[{''.join(_VULGAR)}]"
_WHOLE = "[0-9]+"
_FRACTION = "[0-9]+/[0-9]+"
_DECIMAL = r"[0-9]+\.[0-9]+"
_FIGURE = rf"(?:{_WHOLE}[ \t]+{_FRACTION}|{_FRACTION}|{_DECIMAL}|{_WHOLE})"
_LOOSE_FIGURE = (
    rf"(?:{_WHOLE}[ \t]+{_FRACTION}|{_WHOLE}-{_FRACTION}|{_FRACTION}|{_DECIMAL}"
    rf"|{_WHOLE}[ \t]*{_ANY_VULGAR}|{_ANY_VULGAR}|{_WHOLE})"
)
_LOOSE_FOOT = "(?:'(?!')|[′’]|ft(?![A-Za-z_]))"
_LOOSE_INCH = """(?:"|''|[″”]|in(?:ch|ches)?(?![A-Za-z_]))"""

_DATES = (
    r"[0-9]{1,2}/[0-9]{1,2}/(?:[0-9]{4}|[0-9]{2})(?![0-9])"
    r"|[0-9]{1,2}\.[0-9]{1,2}\.(?:[0-9]{4}|[0-9]{2})(?![0-9])"
    r"|[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}(?![0-9/])"
    r"|[0-9]{1,2}-[0-9]{1,2}-[0-9]{4}(?![0-9])"
)
_FEET = (
    rf"(?:{_DECIMAL}|{_WHOLE}){_LOOSE_FOOT}"
    rf"(?:(?:-|[ \t]*){_LOOSE_FIGURE}(?:{_LOOSE_INCH}|(?![0-9A-Za-z_./,'′’%°{''.join(_VULGAR)}])))?"
)
_FIGURES = (
    rf"(?:{_WHOLE}(?:[ \t]+|-){_FRACTION}|{_WHOLE}[ \t]*{_ANY_VULGAR}|{_ANY_VULGAR}|{_FRACTION}"
    rf"|{_WHOLE}(?:[.,]{_WHOLE})+|\.{_WHOLE}|{_WHOLE}\.(?![.0-9a-z])|{_WHOLE})"
    r"""(?:''|["'%°″”“′’‘]|[A-Za-z_][A-Za-z0-9_]*"""
    rf"|[ \t]+(?:{_LOOSE_UNITS})(?![A-Za-z0-9_.]))?"
)
SPELLING = f"(?:{_DATES}|{_FEET}|{_FIGURES})"
"""Whatever looks like a number, as one word."""

READABLE = rf"(?:{_FIGURE}(?:'|ft)(?:[ \t]*{_FIGURE}(?:\"|in))?|{_FIGURE}(?:{'|'.join(UNITS)})?)"
"""A number as it is written right, for editors."""

_PLAIN = re.compile(rf"(?P<figure>{_FIGURE})(?P<unit>{'|'.join(UNITS)})?")
_FEET_INCHES = re.compile(rf"(?P<feet>{_FIGURE})(?:'|ft)(?:[ \t]*(?P<figure>{_FIGURE})(?:\"|in))?")


@frozen
class Spelt:
    """What a spelling is.

    `value` in `unit` (feet are already inches), or neither where nobody can say. A refused spelling
    has a `headline`, and perhaps a `mend`: the spelling that was meant, with its value; `certain`
    where it can't have meant anything else. `date` is the mended date, for a spelling of one.
    """

    value: Fraction | None
    unit: str | None = None
    slug: str = ""
    headline: str = ""
    help: str = ""
    mend: str = ""
    certain: bool = False
    date: bool = False


@lru_cache(maxsize=4096)
def spell(written: str) -> Spelt:
    """What `written`, a match of SPELLING, is."""
    if sum(map(str.isdigit, written)) > MOST_DIGITS:
        return _refused(
            "number-too-long",
            f"this number has more than {MOST_DIGITS} digits",
            "no measure needs so many",
        )
    plain = _PLAIN.fullmatch(written)
    if plain is not None and plain["unit"] not in ("'", "ft"):
        unit = plain["unit"]
        return _read(plain["figure"], None if unit is None else UNITS[unit])
    if feet := _FEET_INCHES.fullmatch(written):
        return _read_feet(feet["feet"], feet["figure"])
    if re.fullmatch(_DATES, written):
        return _misspelt_date(written)
    return _misspelt(written)


def _refused(slug: str, headline: str, help: str) -> Spelt:
    return Spelt(None, None, slug, headline, help)


def _read(figure: str, unit: str | None) -> Spelt:
    whole, fraction = "0", figure
    if "/" in figure and len(parts := figure.split()) == 2:
        whole, fraction = parts
    above, _, below = fraction.partition("/")
    if below and int(below) == 0:
        return _refused(
            "divided-by-nothing",
            f"{fraction} divides by nothing",
            "the figure under the stroke is 1 or more",
        )
    if whole is not fraction and len(figure.split()) == 2 and int(above) >= int(below):
        return _refused(
            "number-misspelt",
            f"the fraction in {' '.join(figure.split())} is one or more",
            "after a whole number the fraction is less than one",
        )
    return Spelt(int(whole) + Fraction(fraction), unit)


def _read_feet(feet: str, inches: str | None) -> Spelt:
    whole = _read(feet, "in")
    rest = _read(inches or "0", "in")
    if whole.value is None or rest.value is None:
        return whole if whole.value is None else rest
    if inches is not None and rest.value >= 12:
        return _refused(
            "number-misspelt",
            f"{' '.join(inches.split())} inches after feet are a foot or more",
            "inches after feet are less than 12; two measures are both in feet or both in inches",
        )
    return Spelt(whole.value * 12 + rest.value, "in")


@frozen
class _Mend:
    """One thing that may be wrong with a spelling, why, and how it is put right.

    `otherwise` is what else may have been meant.
    """

    pattern: re.Pattern[str]
    replacement: str | Callable[[re.Match[str]], str]
    why: str
    otherwise: str = ""


def _to_millimetres(match: re.Match[str]) -> str:
    spelt = _read(match["figure"], None)
    if spelt.value is None:
        return match[0]
    value = spelt.value * _METRIC[match["unit"]]
    whole, rest = divmod(value, 1)
    return f"{whole} {rest}mm" if whole and rest else f"{value}mm"


_MENDS = (
    _Mend(
        re.compile(rf"(?P<whole>[0-9]?)[ \t]*(?P<vulgar>{_ANY_VULGAR})"),
        lambda match: f"{match['whole']} {_VULGAR[match['vulgar']]}".strip(),
        "a fraction is typed out",
    ),
    _Mend(
        re.compile("|".join(_MARKS)),
        lambda match: _MARKS[match[0]],
        "feet, inches and degrees have plain marks",
    ),
    _Mend(
        re.compile(rf"(?<=[0-9 \t])(?:{'|'.join(_UNIT_WORDS)})(?![A-Za-z0-9_])", re.IGNORECASE),
        lambda match: _UNIT_WORDS[match[0].lower()],
        "a unit has one short name",
    ),
    _Mend(
        re.compile(r"(?<=[0-9])(?:IN|FT|MM|CM|M|DEG|LB|KG|In|Ft|Mm|Cm|Deg|Lb|Kg)(?![A-Za-z0-9_])"),
        lambda match: match[0].lower(),
        "a unit is written small",
    ),
    _Mend(re.compile(r"(?<=[0-9])[ \t]+(?=[a-z%])"), "", "no blank stands before a unit"),
    _Mend(
        re.compile(rf"(?P<figure>{_FIGURE})(?P<unit>cm|m)(?![A-Za-z])"),
        _to_millimetres,
        "metric measures are in mm",
    ),
    _Mend(re.compile(r"^(?=\.)"), "0", "a decimal begins with a figure"),
    _Mend(re.compile(r"(?<=[0-9])\.(?![0-9])"), "", "a point has figures on both sides"),
    _Mend(
        re.compile(r"^(?P<whole>[0-9]+),(?P<part>[0-9]{1,2}|[0-9]{4,})(?![0-9,.])"),
        lambda match: f"{match['whole']}.{match['part']}",
        "a decimal has a point, not a comma",
        "two values with a blank between them",
    ),
    _Mend(
        re.compile(r"(?<=[0-9])-(?=[0-9]+/)"),
        " ",
        "a blank stands between a whole number and its fraction",
        "a sum with blanks around its minus",
    ),
    _Mend(
        re.compile(r"(?<=['t])-(?=[0-9])"),
        " ",
        "a blank stands after feet",
        "a sum with blanks around its minus",
    ),
    _Mend(
        re.compile(rf"(?<=['t])[ \t]*(?P<figure>{_FIGURE})$"),
        lambda match: f' {match["figure"]}"',
        "inches after feet have their mark",
        "two measures, each with its mark",
    ),
)


def _misspelt(written: str) -> Spelt:
    shown = quoted(" ".join(written.split()))
    mended = written
    why: list[str] = []
    otherwise = ""
    for mend in _MENDS:
        better = mend.pattern.sub(mend.replacement, mended)
        if better != mended:
            mended = better
            why.append(mend.why)
            otherwise = otherwise or mend.otherwise
    mended = " ".join(mended.split())
    if why and (_PLAIN.fullmatch(mended) or _FEET_INCHES.fullmatch(mended)):
        spelt = spell(mended)
        if spelt.value is None:
            return spelt
        return Spelt(
            spelt.value,
            spelt.unit,
            "number-misspelt",
            f"{' and '.join(why)}: {mended}, not {shown}",
            f"write {mended}, or {otherwise}" if otherwise else f"write {mended}",
            mended,
            certain=not otherwise,
        )
    if "," in written:
        return _refused(
            "number-misspelt",
            f"{shown} has a comma in it",
            "a number has no commas: a decimal has a point, values stand apart by blanks",
        )
    if re.match(r"[0-9.]+[eE][0-9]*$", written):
        return _refused("number-misspelt", f"{shown} isn't a measure", "write the figure out")
    return _refused(
        "number-misspelt",
        f"{shown} isn't a measure",
        f"""the units are {" ".join(sorted(UNITS))}; a blank stands between two values""",
    )


def _misspelt_date(written: str) -> Spelt:
    parts = [int(part) for part in re.split("[-/.]", written)]
    why = "a date is written year-month-day"
    if len(re.split("[-/.]", written)[0]) == 4:
        year, month, day = parts
    elif parts[2] > 999 and parts[0] > 12 >= parts[1]:
        day, month, year = parts
    elif parts[2] > 999 and parts[1] > 12 >= parts[0]:
        month, day, year = parts
    else:
        return _refused(
            "date-misspelt",
            f"{written} may be read as two dates",
            "write year-month-day, as 2026-11-25",
        )
    mend = f"{year:04}-{month:02}-{day:02}"
    return Spelt(
        None,
        None,
        "date-misspelt",
        f"{why}: {mend}, not {written}",
        f"write {mend}",
        mend,
        True,
        True,
    )
