"""Angles in plan, exactly: a direction is a rational point of the unit circle.

Quarter turns are exact. Any other angle is met within 1e-7 degree, by the half-angle: for every
rational t, ((1 - t t) / (1 + t t), 2 t / (1 + t t)) lies on the circle.
"""

from fractions import Fraction
from math import isqrt

from casewright.compiler.model import Direction
from casewright.lang.measure import nearest

HALF_TURN = Fraction("3.14159265358979323846")
"""Radians in 180 degrees, to twenty places."""

FINEST = Fraction(1, 10**9)
"""Degrees to which a measured slope or diagonal is turned into an angle."""

_STEP = Fraction(1, 2**31)
_MITRE_STEP = Fraction(1, 10**5)
_ROOT = 10**24
_SMALL = Fraction(1, 10**20)


def direction(degrees: Fraction) -> Direction:
    """The cosine and sine of an angle: of the circle exactly, within 1e-7 degree of the angle."""
    quarters = nearest(degrees / 90, Fraction(1))
    half = nearest(_tangent((degrees - quarters * 90) / 2), _STEP)
    square = 1 + half * half
    cosine, sine = (2 - square) / square, 2 * half / square
    for _ in range(int(quarters) % 4):
        cosine, sine = -sine, cosine
    return cosine, sine


def mitre(cosine: Fraction, sine: Fraction) -> tuple[Fraction, Fraction]:
    """How two faces meet of which one turns from the other by an angle of this cosine and sine: the
    tangent of half of it, and its cotangent. Both are to 1/100000, so that what is made by them
    stays within 1/1000 for any kitchen's depths; faces in one line have neither."""
    if sine == 0:
        return Fraction(0), Fraction(0)
    return nearest((1 - cosine) / sine, _MITRE_STEP), nearest(cosine / sine, _MITRE_STEP)


def turned(by: Direction, of: Direction) -> Direction:
    """`of`, turned against the clock by the angle of `by`."""
    return of[0] * by[0] - of[1] * by[1], of[1] * by[0] + of[0] * by[1]


def degrees_of(across: Fraction, along: Fraction) -> Fraction:
    """The angle, from 0 to 180 degrees and to 1e-9, whose tangent is `across` over `along`;
    `across` is not less than nothing, and one of the two is something."""
    if across == 0:
        return Fraction(0 if along > 0 else 180)
    if along == 0:
        return Fraction(90)
    tangent = across / (root(across * across + along * along) + along)
    halvings = 1
    while tangent > Fraction(1, 5):
        tangent = tangent / (1 + root(1 + tangent * tangent))
        halvings += 1
    tangent = nearest(tangent, _SMALL)
    total, power, index = Fraction(0), tangent, 0
    while power > _SMALL:
        total += (-1) ** index * power / (2 * index + 1)
        power = nearest(power * tangent * tangent, _SMALL)
        index += 1
    return nearest(total * 2**halvings * 180 / HALF_TURN, FINEST)


def degrees_between(first: Fraction, second: Fraction, diagonal: Fraction) -> Fraction | None:
    """The angle between two legs whose ends are `diagonal` apart, by the law of cosines; None
    where no triangle has these sides."""
    if not abs(first - second) < diagonal < first + second:
        return None
    along = (first * first + second * second - diagonal * diagonal) / (2 * first * second)
    return degrees_of(root(1 - along * along), along)


def root(value: Fraction) -> Fraction:
    """The square root, exact where it is rational and small, else to about twenty places."""
    over, under = isqrt(value.numerator), isqrt(value.denominator)
    if over * over == value.numerator and under * under == value.denominator:
        return Fraction(over, under)
    return Fraction(isqrt(value.numerator * _ROOT * _ROOT // value.denominator), _ROOT)


def _tangent(degrees: Fraction) -> Fraction:
    """The tangent of an angle between -45 and 45 degrees, to about twenty places."""
    angle = nearest(degrees * HALF_TURN / 180, _SMALL)
    sine, cosine, term, index = Fraction(0), Fraction(0), Fraction(1), 0
    while abs(term) > _SMALL:
        sign = (-1) ** (index // 2)
        if index % 2:
            sine += sign * term
        else:
            cosine += sign * term
        index += 1
        term = nearest(term * angle / index, _SMALL)
    return sine / cosine
