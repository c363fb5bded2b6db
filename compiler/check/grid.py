"""Things of the plan by the squares they lie in, so that what is far apart is never compared."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Generic, TypeVar

from attrs import define, field

from casewright.compiler.check.plan import Bounds, apart

SQUARE = Fraction(60)
"""Side of a square, inches."""

MOST = 1024
"""What covers more squares than this is kept apart and looked at each time: no room has such a
thing, and a size that is a slip of the pen costs no more than a large one."""

T = TypeVar("T")
Place = tuple[int, int]


@define(eq=False)
class Grid(Generic[T]):
    """Things with a box around each, found again by what their boxes may share room with."""

    _squares: dict[Place, list[tuple[T, Bounds]]] = field(factory=dict, init=False)
    _large: list[tuple[T, Bounds]] = field(factory=list, init=False)
    _every: list[tuple[T, Bounds]] = field(factory=list, init=False)

    def add(self, thing: T, around: Bounds) -> None:
        entry = (thing, around)
        self._every.append(entry)
        places = _places(around)
        if places is None:
            self._large.append(entry)
            return
        for place in places:
            self._squares.setdefault(place, []).append(entry)

    def near(self, around: Bounds) -> Iterator[T]:
        """Each thing whose box shares room with `around`, once, in the order they were added to
        the squares."""
        places = _places(around)
        if places is None:
            yield from (thing for thing, box in self._every if not apart(around, box))
            return
        met: set[int] = set()
        for entries in (*(self._squares.get(place, ()) for place in places), self._large):
            for thing, box in entries:
                if id(thing) not in met:
                    met.add(id(thing))
                    if not apart(around, box):
                        yield thing


def _places(box: Bounds) -> tuple[Place, ...] | None:
    """The squares a box lies in; None where they are too many."""
    low_x, low_y, high_x, high_y = ((each / SQUARE).__floor__() for each in box)
    if (high_x - low_x + 1) * (high_y - low_y + 1) > MOST:
        return None
    return tuple((x, y) for x in range(low_x, high_x + 1) for y in range(low_y, high_y + 1))
