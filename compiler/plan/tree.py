"""The cut tree: the one form a plan has. Places on the sheet are derived from it, never kept.

Sizes are whole steps of the plan's grid and real (no kerf in them). A node is cut `rip`
(children side by side across the width, from the fence outwards) or `crosscut` (children one after
another along the length, from the head); a node that isn't cut is a piece, an offcut or waste.
"""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from casewright.compiler.plan.request import exact


@frozen
class Node:
    """A board at some moment of the sawing.

    `cut` is `rip`, `crosscut` or empty; `use` of an uncut node is `piece`, `offcut` or `waste`;
    `piece` is the address of a piece; `turned` says its length lies across the sheet's grain.
    """

    length: int
    width: int
    cut: str = ""
    children: tuple["Node", ...] = ()
    use: str = ""
    piece: str = ""
    turned: bool = False


@frozen
class Sheet:
    """A sheet of stock and what becomes of its usable rectangle."""

    stock: str
    root: Node


@frozen
class CutPlan:
    """All sheets of one material in sawing order, with the grid step their sizes count."""

    step: Fraction
    kerf: int
    sheets: tuple[Sheet, ...]


@frozen
class Place:
    """Where an uncut node lies, from the usable sheet's head and fence corner."""

    along: int
    across: int
    node: Node


def places(root: Node, kerf: int, along: int = 0, across: int = 0) -> Iterator[Place]:
    """Every uncut node of the tree with its place, in sawing order."""
    if not root.cut:
        yield Place(along, across, root)
        return
    for child in root.children:
        yield from places(child, kerf, along, across)
        if root.cut == "rip":
            across += child.width + kerf
        else:
            along += child.length + kerf


def node_document(node: Node) -> dict[str, object]:
    """The node as a JSON value; what is empty is left out."""
    document: dict[str, object] = {"length": node.length, "width": node.width}
    if node.cut:
        document["cut"] = node.cut
        document["into"] = [node_document(child) for child in node.children]
    else:
        document["use"] = node.use
    if node.piece:
        document["piece"] = node.piece
    if node.turned:
        document["turned"] = True
    return document


def plan_document(plan: CutPlan) -> dict[str, object]:
    """The plan as a JSON value."""
    return {
        "step": str(plan.step),
        "kerf": plan.kerf,
        "sheets": [{"stock": s.stock, "tree": node_document(s.root)} for s in plan.sheets],
    }


def read_plan(document: object) -> CutPlan | None:
    """The plan held by a JSON value, or None where the value doesn't have the form of one."""
    try:
        if not isinstance(document, dict):
            return None
        sheets = tuple(
            Sheet(_text(item["stock"]), _node(item["tree"], 0)) for item in document["sheets"]
        )
        return CutPlan(exact(_text(document["step"])), _whole(document["kerf"]), sheets)
    except (KeyError, TypeError, ValueError, ZeroDivisionError):
        return None


def _node(item: dict[str, object], depth: int) -> Node:
    if depth > 12 or not isinstance(item, dict):
        raise ValueError("no tree of cuts")
    children = item.get("into", [])
    if not isinstance(children, list):
        raise TypeError("no list of boards")
    return Node(
        _whole(item["length"]),
        _whole(item["width"]),
        _text(item.get("cut", "")),
        tuple(_node(child, depth + 1) for child in children),
        _text(item.get("use", "")),
        _text(item.get("piece", "")),
        item.get("turned", False) is True,
    )


def _whole(value: object) -> int:
    if isinstance(value, int) and not isinstance(value, bool):
        return value
    raise TypeError("no whole number")


def _text(value: object) -> str:
    if isinstance(value, str):
        return value
    raise TypeError("no text")
