"""Pulls on what is seen of a unit from the front."""

from attrs import evolve

from casewright.compiler.papers.drawings.unit_views import unit_views
from casewright.compiler.papers.pieces import Built, built
from tests.papers.kitchens import kitchen


def test_every_pull_is_drawn_on_the_front_and_no_name_stands_on_one() -> None:
    job = kitchen("galley/framed")
    drawn = 0
    for item in built(job):
        pulls = [part for part in item.unit.parts if part.role == "pull"]
        bare = tuple(part for part in item.unit.parts if part.role != "pull")
        without = unit_views(job, Built(item.placed, evolve(item.unit, parts=bare))).front
        front = unit_views(job, item).front
        assert len(front.elements) - len(without.elements) == len(pulls)
        scale = unit_views(job, item).scale
        for part in pulls:
            left, right = (float(end) * 25.4 / scale for end in part.box.across)
            bottom, top = (-float(end) * 25.4 / scale for end in part.box.up)
            for letters in front.letters:
                box = letters.box
                assert not (
                    box[0] < right and left < box[2] and box[1] < bottom and top < box[3]
                ), (part.address, letters.text)
        drawn += len(pulls)
    assert drawn > 8
