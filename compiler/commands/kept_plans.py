"""Plans that were searched for long, kept in a file beside the kitchen."""

from pathlib import Path
from typing import TYPE_CHECKING

from casewright.compiler.commands.terminal import Unusable
from casewright.compiler.commands.writing import replace_file, write_new
from casewright.compiler.cutting.plan_files import HeldPlan, kept_plans, read_kept_plans
from casewright.compiler.world import World
from casewright.lang.reading import LONGEST_TEXT

if TYPE_CHECKING:
    from casewright.compiler.shop.reckoning import ShopWork

SUFFIX = ".plans.json"


def beside(kitchen: str) -> str:
    """The path of the kept plans of the kitchen at a path: `galley.case`, `galley.plans.json`."""
    return kitchen.removesuffix(".case") + SUFFIX


def read(world: World, entry: str) -> dict[str, HeldPlan]:
    """The plans kept beside a kitchen, by name; none where there is no file.

    Raises Unreadable where it can't be read, Unusable where it isn't ours.
    """
    path = beside(entry)
    if not world.exists(path):
        return {}
    data = world.read(path)
    found = None
    if len(data) <= LONGEST_TEXT:
        found = read_kept_plans(data.decode("utf-8", "replace"))
    if found is None:
        raise Unusable(
            f"{path} holds no kept plans that can be read; move it, or build with --plan hard"
        )
    return found


def write(kitchen: Path, work: "ShopWork") -> None:
    """Keeps the plans of `work` beside the kitchen. Raises Unusable where they can't be."""
    held = {
        name: HeldPlan(work.marks[name], made.plan, made.certificate)
        for name, made in work.searched.items()
    }
    file = kitchen.with_name(beside(kitchen.name))
    content = kept_plans(held).encode()
    if len(content) > LONGEST_TEXT:
        raise Unusable(f"the plans are too long to be kept in {file}")
    if file.exists():
        replace_file(file, content)
    else:
        write_new(file, content)
