"""Four boards made by hand, and what is found where parts meet."""

from fractions import Fraction

from casewright.compiler.blame import Blame
from casewright.compiler.joints.contact import make_contacts
from casewright.compiler.model import Joint, Part, Wish
from tests.compiler.handmade import part


def contacts(
    *parts: Part, wishes: tuple[Wish, ...] = ()
) -> tuple[dict[str, Part], tuple[Joint, ...], list[str]]:
    grooved, joints, blames = make_contacts(parts, (), wishes)
    return {each.path: each for each in grooved}, joints, slugs(blames)


def slugs(blames: tuple[Blame, ...]) -> list[str]:
    return [blame.finding.slug for blame in blames]


def figures(blame: Blame) -> list[tuple[str, Fraction | None]]:
    return [
        (figure.words, None if figure.measure is None else figure.measure.value)
        for figure in blame.finding.figures
    ]


LEFT = part("left_side", (0, "3/4"), (0, 30), (0, 20), line=1)
RIGHT = part("right_side", ("23 1/4", 24), (0, 30), (0, 20), line=2)
FLOOR = part("floor", ("3/4", "23 1/4"), (0, "3/4"), (0, 20), line=3)
BACK = part("back_panel", ("3/8", "23 5/8"), (0, 30), (19, "19 1/4"), line=5)
