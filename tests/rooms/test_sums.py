"""Whatever is measured, a run with shares fills its space exactly."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rooms.rooms import kitchen, run_of, widths

STEP = Fraction(1, 32)

THIRTY_SECONDS = st.integers(0, 31)


@settings(max_examples=40, deadline=None)
@given(
    wall=st.integers(100, 300),
    part=THIRTY_SECONDS,
    corner=st.sampled_from(("90deg", "87.3deg", "90.4deg", "out 3/8 over 48", "in 1/4 over 36")),
    shares=st.lists(st.integers(1, 3), min_size=1, max_size=5),
    least=st.integers(0, 20),
    filler=st.integers(1, 4),
)
def test_a_run_of_shares_fills_its_space(
    wall: int, part: int, corner: str, shares: list[int], least: int, filler: int
) -> None:
    lines = "\n".join(
        f"  A{index}: cupboard {count} shares min {least + 1}"
        for index, count in enumerate(shares, start=1)
    )
    result = kitchen(
        f"""
        room galley {{
          counter 36
          wall north length {wall} + {part}/32
          wall east  length 120
          corner north east {corner}
        }}
        run one on north from left {{
        {lines}
          dead_corner with two filler {filler}
        }}
        run two on east from left {{
          dead_corner with one filler {filler}
          A9: cupboard share
        }}
        """
    )
    slugs = {finding.slug for finding in result.findings}
    if slugs:
        # What can't be is said, and nothing else is.
        assert slugs <= {"share-below-least", "requirement-not-met", "nothing-left"}
        return
    assert result.job is not None
    run = run_of(result.job, "one")
    assert sum(widths(run)) == run.space.value
    places = [placed.at.value for placed in run.placed]
    for index, placed in enumerate(run.placed[:-1]):
        assert places[index] + placed.width.value == places[index + 1]
    equal: dict[int, list[Fraction]] = {}
    for count, placed in zip(shares, run.placed, strict=False):
        if placed.width.value > least + 1:
            equal.setdefault(count, []).append(placed.width.value)
    for sizes in equal.values():
        # Equal shares differ by one step at most; the last also takes what is off the step.
        assert max(sizes) - min(sizes) < 2 * STEP
