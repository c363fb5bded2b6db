"""Plans and certificates as files: written beside the book, read again to be checked, and kept
beside the kitchen where they were searched for long."""

import json
from collections.abc import Iterable, Mapping
from hashlib import sha256
from typing import Final

from attrs import frozen

from casewright.compiler.plan.reading import read_request
from casewright.compiler.plan.request import Problem, Request, write_request
from casewright.compiler.plan.tree import CutPlan, plan_document, read_plan
from casewright.compiler.plan.verify import Verdict, verify

FOLDER: Final = "plans"
"""The folder of a book that holds them."""

PLAN, CERTIFICATE = ".json", ".certificate.txt"

INDEX: Final = "plans.txt"
"""The file beside them that names them all, so that one that is gone is missed."""

HEAD: Final = "plans 1"
"""The index's first line."""

LONGEST: Final = 1 << 20
"""Bytes of a plan or certificate file; a longer one is refused."""


@frozen
class HeldPlan:
    """A plan that was kept: the mark of the list it is for, its sheets, and its certificate."""

    mark: str
    plan: CutPlan
    certificate: str


@frozen
class Checked:
    """A plan file that was read: what was asked and planned, and what the check said."""

    request: Request
    plan: CutPlan
    verdict: Verdict


def plan_file(title: str, request: Request, plan: CutPlan) -> str:
    """A list and its plan as JSON, keys in one order."""
    document = {
        "material": title,
        "list": json.loads(write_request(request)),
        "plan": plan_document(plan),
    }
    return json.dumps(document, ensure_ascii=False, separators=(",", ":")) + "\n"


def plan_files(made: Iterable[tuple[str, str, Request, CutPlan, str]]) -> dict[str, bytes]:
    """Files by their path in the book: name, title, list, plan and certificate of each material;
    and the index of them, where there are any."""
    files: dict[str, bytes] = {}
    names: list[str] = []
    for name, title, request, plan, certificate in made:
        files[f"{FOLDER}/{name}{PLAN}"] = plan_file(title, request, plan).encode()
        files[f"{FOLDER}/{name}{CERTIFICATE}"] = certificate.encode()
        names.append(f"{name} {mark_of(request)}")
    if names:
        files[f"{FOLDER}/{INDEX}"] = "\n".join([HEAD, *sorted(names), ""]).encode()
    return files


def read_index(text: str) -> dict[str, str] | None:
    """The mark of the list of every plan there should be, by name; None where it is no index."""
    lines = text.splitlines()
    if not lines or lines[0] != HEAD:
        return None
    pairs = [line.partition(" ") for line in lines[1:]]
    return {name: mark for name, _, mark in pairs}


def mark_of(request: Request) -> str:
    """What ties a plan to its list: a digest of the list's text."""
    return sha256(write_request(request).encode()).hexdigest()


def check_files(plan: str, certificate: str) -> tuple[Checked | None, tuple[Problem, ...]]:
    """What a plan file and its certificate come to, by the independent check alone; None and what
    is wrong where they can't be read."""
    document = _document(plan)
    if document is None or "list" not in document or "plan" not in document:
        return None, (Problem("unreadable", "this is no plan file"),)
    request, problems = read_request(json.dumps(document["list"]))
    if request is None:
        return None, tuple(problems)
    cut_plan = read_plan(document["plan"])
    if cut_plan is None:
        return None, (Problem("unreadable", "the plan doesn't have the form of one"),)
    verdict = verify(request, cut_plan, certificate)
    return Checked(request, cut_plan, verdict), verdict.problems


def _document(text: str) -> dict[str, object] | None:
    try:
        document = json.loads(text)
    except (ValueError, RecursionError):
        return None
    return document if isinstance(document, dict) else None


def kept_plans(held: Mapping[str, HeldPlan]) -> str:
    """Plans by material as the text of the file beside the kitchen."""
    document = {
        "kept plans": 1,
        "materials": {
            name: {
                "list": each.mark,
                "certificate": each.certificate,
                "plan": plan_document(each.plan),
            }
            for name, each in sorted(held.items())
        },
    }
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def read_kept_plans(text: str) -> dict[str, HeldPlan] | None:
    """The plans in a file from beside the kitchen; None where it isn't one, or one of its plans
    can't be read: a plan that was searched for long isn't lost unsaid."""
    document = _document(text)
    materials = document.get("materials") if document is not None else None
    if not isinstance(materials, dict):
        return None
    found: dict[str, HeldPlan] = {}
    for name, entry in materials.items():
        if not isinstance(entry, dict):
            return None
        plan = read_plan(entry.get("plan"))
        mark, certificate = entry.get("list"), entry.get("certificate")
        if plan is None or not isinstance(mark, str) or not isinstance(certificate, str):
            return None
        found[name] = HeldPlan(mark, plan, certificate)
    return found
