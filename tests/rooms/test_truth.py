"""Closing sums and corner geometry worked by hand, at square corners and at odd ones.

Beside each figure stands how it was worked: with sines and cosines to six places, on paper.
"""

from fractions import Fraction

import pytest

from casewright.compiler.rooms.room import on_line, plan_point
from tests.rooms.rooms import built, is_near, kitchen, placed_of, run_of, widths

DEAD_L = """
room galley {{
  counter 36
  wall north length 120
  wall east  length 100
  corner north east {corner}
}}
run one on north from left {{
  A1: cupboard share
  dead_corner with two filler 3
}}
run two on east from left {{
  dead_corner with one filler 3
  A2: cupboard share
}}
"""


@pytest.mark.parametrize(
    ("corner", "dead"),
    [
        # 24 / 1
        ("90deg", "24"),
        # sin 87.3 = 0.998890, cos 87.3 = 0.047106: (24 + 24 * 0.047106) / 0.998890 = 25.1585
        ("87.3deg", "25.1585"),
        # sin 90.4 = 0.999976, cos 90.4 < 0: the widest is at the wall, 24 / 0.999976 = 24.0006
        ("90.4deg", "24.0006"),
        # out 1 over 48: the corner's sine is 48 / sqrt(48^2 + 1) = 0.999783; 24 / 0.999783
        ("out 1 over 48", "24.0052"),
        # in 1 over 48: sine as before, cosine 1 / sqrt(48^2 + 1) = 0.020829:
        # (24 + 24 * 0.020829) / 0.999783 = 24.5052
        ("in 1 over 48", "24.5052"),
        # a 3-4-5 triangle is square
        ("legs 36 by 48 diagonal 60", "24"),
    ],
)
def test_a_dead_corner_takes_the_other_runs_depth(corner: str, dead: str) -> None:
    job = built(DEAD_L.format(corner=corner))
    one, two = run_of(job, "one"), run_of(job, "two")
    assert is_near(one.placed[-1].width.value, dead, "0.0006")
    assert is_near(two.placed[0].width.value, dead, "0.0006")
    assert one.placed[-2].width.value == two.placed[1].width.value == 3
    assert sum(widths(one)) == one.space.value == 120
    assert sum(widths(two)) == two.space.value == 100


@pytest.mark.parametrize("corner", ["90deg", "87.3deg", "90.4deg", "75deg", "105deg"])
def test_the_fillers_of_a_dead_corner_meet_where_the_faces_do(corner: str) -> None:
    """At a square or sharper corner the outer end of each filler's face is one place in plan; at
    a wider one the runs' faces meet before their fillers do."""
    job = built(DEAD_L.format(corner=corner))
    one, two = run_of(job, "one"), run_of(job, "two")
    assert one.origin is not None
    assert two.origin is not None
    end = one.placed[-2].at.value + 3
    first = plan_point(one.origin, one.direction, end, Fraction(24))
    begin = two.placed[1].at.value
    second = plan_point(two.origin, two.direction, begin, Fraction(24))
    apart = [abs(a - b) for a, b in zip(first, second, strict=True)]
    if job.room.corners[0].angle.value <= 90:
        assert max(apart) < Fraction(2, 1000)
    else:
        # Neither stands behind the other's face.
        along, _ = on_line(one.origin, one.direction, second)
        assert along >= end - Fraction(2, 1000)


def test_a_sharp_corner_takes_its_slope_of_a_run_that_reaches_it() -> None:
    # cot 87.3 = 0.047159: over a depth of 24 the other wall comes in by 1.1318.
    job = built(
        """
        room galley {
          counter 36
          wall north length 120
          wall east  length 100
          corner north east 87.3deg
        }
        run one on north from left {
          A1: cupboard share
          filler 2 scribe
        }
        """
    )
    run = run_of(job, "one")
    assert is_near(run.space.value, "118.868", "0.001")
    scribe = run.placed[-1].scribe
    assert scribe is not None
    assert (scribe.nominal.value, scribe.least.value) == (Fraction(2), Fraction(2))
    assert is_near(scribe.most.value, "3.132", "0.001")


def test_a_wide_corner_leaves_the_wall_its_length_and_the_scribe_its_slope() -> None:
    # cot 90.4 = -0.006981: at the face, 24 out, the gap is 0.1676 wider than at the wall.
    job = built(
        """
        room galley {
          counter 36
          wall west  length 100
          wall north length 120
          corner west north 90.4deg
        }
        run one on north from left {
          filler 1 1/2 scribe
          A1: cupboard share
        }
        """
    )
    run = run_of(job, "one")
    assert run.space.value == 120
    scribe = run.placed[0].scribe
    assert scribe is not None
    assert is_near(scribe.most.value, "1.668", "0.001")


def test_a_leaning_wall_takes_its_lean_up_to_the_top_of_what_stands_there() -> None:
    # 3/8 over 90, to the top of a cupboard 30 high: 0.125; hung at 54 to 84: 0.35.
    text = """
        room galley {{
          counter 36
          wall north length 120
          wall east  length 100 {{
            plumb in 3/8 over 90
          }}
        }}
        run one on north from left {up} {{
          A1: cupboard share
        }}
        """
    assert run_of(built(text.format(up="")), "one").space.value == 120 - Fraction(1, 8)
    assert run_of(built(text.format(up="up 54")), "one").space.value == 120 - Fraction(35, 100)


def test_a_run_has_the_least_length_that_was_measured_over_its_height() -> None:
    text = """
        room galley {{
          counter 36
          wall north length 120 {{
            length 120 1/4 up 4
            length 119 7/8 up 40
            length 119 1/2 up 84
          }}
        }}
        run one on north from left {up} {{
          A1: cupboard share
        }}
        """
    assert run_of(built(text.format(up="")), "one").space.value == 119 + Fraction(7, 8)
    assert run_of(built(text.format(up="up 54")), "one").space.value == 119 + Fraction(1, 2)


def test_heights_from_a_rough_floor_are_from_the_finished_one() -> None:
    job = built(
        """
        room galley {
          floor   rough finish 3/4
          ceiling 97
          counter 36
          wall north length 120 {
            window at 24 wide 48 up 43 high 40
          }
        }
        run one on north from left {
          A1: cupboard share
        }
        """
    )
    window = job.room.walls[0].features[0]
    assert job.room.ceiling.value == 97 - Fraction(3, 4)
    assert window.up.value == 43 - Fraction(3, 4)
    assert window.high.value == 40


def test_shares_divide_each_side_of_a_centred_unit_and_are_clamped_there() -> None:
    # The middle of the window is 24 + 42/2 = 45; the unit of 30 stands from 30 to 60. On its left
    # 30 = 10 (at the most) + 20; on its right 60 = 33 (at the least) + 13 1/2 twice.
    job = built(
        """
        room galley {
          counter 36
          wall north length 120 {
            window at 24 wide 42 up 42 high 40
          }
        }
        run one on north from left {
          A1: cupboard share max 10
          A2: cupboard share
          A3: cupboard 30 centred on window
          A4: cupboard share
          A5: cupboard share min 33
          A6: cupboard share
        }
        """
    )
    assert widths(run_of(job, "one")) == [10, 20, 30, Fraction(27, 2), 33, Fraction(27, 2)]


def test_fillers_give_evenly_and_no_more_than_they_may() -> None:
    # 97 1/2 wants 1 1/2 less of three fillers: 1/4 and 1/4 are at their least, the rest gives 1.
    job = built(
        """
        room galley {
          counter 36
          wall north length 120
        }
        run one on north from left {
          filler 2 min 1 3/4
          A1: cupboard 57 3/4
          filler 2 min 1/2
          A2: cupboard 57 3/4
          filler 2 min 1 3/4
        }
        """
    )
    wide = [Fraction(7, 4), Fraction(231, 4), Fraction(1), Fraction(231, 4), Fraction(7, 4)]
    assert widths(run_of(job, "one")) == wide


def test_what_is_over_a_unit_has_its_left_end_and_width() -> None:
    job = built(
        """
        room galley {
          counter 36
          wall north length 120
        }
        run one on north from left {
          filler 1 1/2
          A1: cupboard share
          A2: cupboard 31 1/4
          A3: cupboard share
        }
        run two on north at 20 length 100 up 54 {
          C1: cupboard share
          C2: cupboard over A2
          C3: cupboard 20 over A3
          space share
        }
        """
    )
    one, two = run_of(job, "one"), run_of(job, "two")
    for tag, below in (("C2", "A2"), ("C3", "A3")):
        at = two.start.value + placed_of(job, tag).at.value
        assert at == one.start.value + placed_of(job, below).at.value
    assert placed_of(job, "C2").width.value == Fraction("31.25")
    assert placed_of(job, "C3").width.value == 20


def test_a_room_of_four_walls_comes_back_to_where_it_began() -> None:
    # An L of six walls: 120 = 70 + 50 across, 96 = 40 + 56 down.
    job = built(
        """
        room galley {
          counter 36
          wall north length 120
          wall east  length 40
          wall step  length 50
          wall inner length 56
          wall south length 70
          wall west  length 96
          corner step inner 270deg
        }
        run one on north from left {
          A1: cupboard share
        }
        """
    )
    assert job.room.closed
    places = [
        [wall.origin.x.value, wall.origin.y.value]
        for wall in job.room.walls
        if wall.origin is not None
    ]
    assert places == [[0, 0], [120, 0], [120, -40], [70, -40], [70, -96], [0, -96]]


def test_the_wall_of_the_first_run_lies_along_the_top() -> None:
    job = built(
        """
        room galley {
          counter 36
          wall west  length 96
          wall north length 120
          corner west north 87.3deg
        }
        run one on north from left {
          A1: cupboard share
        }
        """
    )
    west, north = job.room.walls
    assert north.direction == (Fraction(1), Fraction(0))
    assert west.origin is not None
    # West runs up the page to the corner, leaning out to the right at its foot:
    # 96 * cos 87.3 = 4.5222, 96 * sin 87.3 = 95.8934.
    assert is_near(west.origin.x.value, "4.522")
    assert is_near(west.origin.y.value, "-95.893")


def test_an_island_turned_about_its_middle_keeps_it() -> None:
    text = """
        room galley {{
          counter 36
          wall north length 200
          island work from north out 60 at 50 length 60 depth 40 {turn}
        }}
        run one on work facing front {{
          A1: cupboard share
        }}
        run two on work facing back depth {{
          A2: cupboard share
        }}
        """
    text = text.replace(" depth {{", " {{").replace(
        "A2: cupboard share", "A2: cupboard 60 depth 16"
    )
    middles = []
    for turn in ("", "turn 30deg", "turn 90deg"):
        (island,) = built(text.format(turn=turn)).room.islands
        middles.append(plan_point(island.origin, island.direction, Fraction(30), Fraction(20)))
    assert middles[0] == middles[2] == (Fraction(80), Fraction(-80))
    assert all(abs(a - b) < Fraction(1, 1000) for a, b in zip(middles[0], middles[1], strict=True))


def test_runs_on_an_island_stand_back_to_back() -> None:
    job = built(
        """
        room galley {
          counter 36
          wall north length 200
          island work from north out 60 at 50 length 60 depth 48
        }
        run one on work facing front {
          A1: cupboard share
        }
        run two on work facing back {
          A2: cupboard share
        }
        """
    )
    one, two = run_of(job, "one"), run_of(job, "two")
    assert one.origin is not None
    assert two.origin is not None
    # Fronts face away from north (down the page) and to it; both backs are 84 out from the wall.
    right, left = (Fraction(1), Fraction(0)), (Fraction(-1), Fraction(0))
    assert (one.direction, two.direction) == (right, left)
    assert [one.origin.x.value, one.origin.y.value] == [50, -84]
    assert [two.origin.x.value, two.origin.y.value] == [110, -84]


def test_a_blind_unit_knows_how_much_of_it_is_hidden() -> None:
    # The other run is 24 deep in a square corner, and the unit reaches the corner.
    job = built(
        """
        unit blind from cupboard {
          row {
            open share
            open opening beside.right_hidden
          }
        }
        room galley {
          counter 36
          wall north length 120
          wall east  length 100
        }
        run one on north from left {
          A1: cupboard share
          A2: blind 45
        }
        run two on east after one filler 3 {
          A3: cupboard share
        }
        """
    )
    unit = placed_of(job, "A2").unit
    assert unit is not None
    seen, hidden = unit.openings
    assert hidden.across.high.value - hidden.across.low.value == 24
    assert seen.across.low.value == Fraction(3, 4)
    assert placed_of(job, "A3").at.value == 3
    assert run_of(job, "two").start.value == 24


def test_a_gap_is_said_in_both_directions() -> None:
    result = kitchen(
        """
        room galley {
          counter 36
          wall north length 120
          wall east  length 96
          wall south length 110
          wall west  length 100
        }
        run one on north from left {
          A1: cupboard share
        }
        """
    )
    (finding,) = result.findings
    assert finding.headline == (
        'the walls of galley miss closing by 10" along north and 4" out from north'
    )
    assert result.job is not None
