"""Figures of a unit bound to one placing: its inputs, its lines and its tag put in."""

from collections.abc import Callable, Mapping

from casewright.lang.cells import INPUT, NAMED, Quantity
from casewright.lang.source import Origin, Span


class Binder:
    """Binds quantities of one unit's result to one placing of it.

    `bindings` holds what each input is there; `address_of` turns a name inside the unit into its
    full address. What is bound once is bound for good: figures share their derivations.
    """

    def __init__(
        self,
        bindings: Mapping[str, Quantity],
        span_of: Callable[[Origin], Span | None],
        address_of: Callable[[str], str],
    ) -> None:
        self._bindings = bindings
        self._span_of = span_of
        self._address_of = address_of
        self._done: dict[int, tuple[Quantity, Quantity]] = {}

    def bind(self, quantity: Quantity) -> Quantity:
        """The quantity with nothing left open. Works without recursion, so that a long chain of
        sums is no deeper than a short one."""
        stack = [quantity]
        while stack:
            at = stack[-1]
            if id(at) in self._done:
                stack.pop()
                continue
            waiting = [each for each in at.inputs if id(each) not in self._done]
            if waiting:
                stack.extend(waiting)
                continue
            stack.pop()
            self._done[id(at)] = (at, self._closed(at))
        return self._done[id(quantity)][1]

    def _closed(self, quantity: Quantity) -> Quantity:
        origin = self._span_of(quantity.origin) if quantity.origin is not None else None
        if quantity.operator == INPUT and quantity.name in self._bindings:
            if self._bindings[quantity.name].operator == NAMED:
                return self._bindings[quantity.name]
            return Quantity(
                quantity.value,
                quantity.dimension,
                NAMED,
                (self._bindings[quantity.name],),
                self._address_of(quantity.name),
                origin,
                quantity.axis,
            )
        return Quantity(
            quantity.value,
            quantity.dimension,
            quantity.operator,
            tuple(self._done[id(each)][1] for each in quantity.inputs),
            self._address_of(quantity.name) if quantity.operator == NAMED else quantity.name,
            origin,
            quantity.axis,
            quantity.label,
            quantity.off,
        )
