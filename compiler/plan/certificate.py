"""The certificate: why fewer won't do, as text that `verify.py` checks alone.

A line is a word and its value. Prices are whole numbers for the sizes asked for; `dearest` is
the most any pattern of through cuts can be worth on a sheet of that stock, where of the `counted`
sizes no more are used than asked for.
"""

from hashlib import sha256

from casewright.compiler.plan.bounds import Bound
from casewright.compiler.plan.request import Request, write_request
from casewright.compiler.plan.task import Task


def request_mark(request: Request) -> str:
    """What ties a certificate to its list: a digest of the list's text."""
    return sha256(write_request(request).encode()).hexdigest()


def write_certificate(request: Request, task: Task, bound: Bound) -> str:
    """The certificate of a bound, with the scope of its claim."""
    trim = request.saw.trim
    stages = "three stages and a trimming cut" if bound.stages else "any number of stages"
    lines = [
        "certificate 1",
        f"list {request_mark(request)}",
        f"scope through cuts in {stages}, grain as asked, "
        f"kerf {request.saw.kerf}, trim fence {trim.fence} far {trim.far} "
        f"head {trim.head} foot {trim.foot}, {request.measure}",
        f"bound {bound.kind}",
    ]
    if bound.kind == "dual-feasible":
        lines += [f"along {bound.functions[0]}", f"across {bound.functions[1]}"]
    if bound.kind == "prices":
        sizes = [
            f"{kind.length - task.kerf} {kind.width - task.kerf} {'turn' if kind.turn else 'grain'}"
            for kind in task.kinds
        ]
        lines += [f"price {size} {p}" for size, p in zip(sizes, bound.prices, strict=True) if p]
        if bound.stages:
            lines.append(f"stages {bound.stages}")
        lines += [f"counted {sizes[kind]}" for kind in bound.counted]
        lines += [
            f"dearest {value} {name}" for name, value in zip(task.names, bound.values, strict=True)
        ]
    lines.append(f"least {bound.cost * task.cost_unit}")
    return "\n".join(lines) + "\n"
