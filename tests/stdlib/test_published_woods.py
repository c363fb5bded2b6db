"""Published figures of woods and of what holds them, each out of a kitchen that was built.

Sources stand at each test: title and section for what was printed, `common practice` for what shops
do, `from memory` for what no page was at hand for.
"""

from fractions import Fraction

import pytest

from casewright.lang.cells import Quantity
from tests.stdlib.kitchens import job_of, kitchen, part, unit_of, units_of

F = Fraction


TABLE = {
    # Species: change of a flat-sawn and a quarter-sawn board 12 wide from 6 to 12 %. Coefficients:
    # Wood Handbook (FPL-GTR-282), table 13-5; the changes computed from it by equation 13-2.
    "hard_maple": ("0.2542", "0.1188"),
    "soft_maple": ("0.2081", "0.0986"),
    "red_oak": ("0.2657", "0.1138"),
    "white_oak": ("0.2628", "0.1296"),
    "cherry": ("0.1786", "0.0907"),
    "walnut": ("0.1973", "0.1368"),
    "red_alder": ("0.1843", "0.1087"),
    "white_ash": ("0.1973", "0.1217"),
    "beech": ("0.3103", "0.1368"),
    "yellow_birch": ("0.2434", "0.1843"),
    "hickory": ("0.2268", "0.1217"),
    # Of these two the coefficients are from memory: of the fir the tangential one.
    "yellow_poplar": ("0.2081", "0.1138"),
    "white_fir": ("0.1764", "0.0806"),
}


@pytest.mark.parametrize("species", TABLE)
def test_boards_move_as_the_handbook_says(species: str) -> None:
    job = job_of(kitchen(["door_base 18"], "face_frame", shop=f"wood {species}"))
    (wood,) = (each for each in job.materials if each.name == species)
    flat, quartered = (wood.data[word] for word in ("tangential", "radial"))
    assert isinstance(flat, Quantity)
    assert isinstance(quartered, Quantity)
    change = tuple(f"{float(12 * each.value * 6):.4f}" for each in (flat, quartered))
    assert change == TABLE[species]


@pytest.mark.parametrize(
    ("wood", "coefficient"), [("thin_maple", F("0.00353")), ("thin_oak", F("0.00369"))]
)
@pytest.mark.parametrize("made_at", [6, 8, 10])
def test_a_solid_panel_has_room_to_swell(wood: str, coefficient: Fraction, made_at: int) -> None:
    """Equation 13-2: change = width x tangential coefficient x change of moisture. Half of it must
    be free at each side, and no more than 1/32 over."""
    shop = f"made five_piece\n floating solid\n panel_wood {wood}\n made_at {made_at}"
    unit = unit_of("door_base 18", shop=shop)
    panel, left = part(unit, "door.panel"), part(unit, "door.left_stile")
    stiles = part(unit, "door.right_stile").box.across[0] - left.box.across[1]
    between = stiles + 2 * F("3/8")
    room = (between - panel.width.value) / 2
    swells = between * coefficient * (11 - made_at)
    assert swells / 2 <= room <= swells / 2 + F("1/32")


def test_hardwood_is_bought_at_13_16_and_finished_at_3_4() -> None:
    """Wood Handbook, ch. 6: four-quarter rough is 13/16 surfaced on two sides."""
    job = job_of(kitchen(["door_base 18"], "face_frame"))
    (wood,) = (each for each in job.materials if each.name == "hard_maple")
    bought = wood.data["bought"]
    assert isinstance(bought, Quantity)
    assert (bought.value, wood.thick.value) == (F("13/16"), F("3/4"))
    (unit,) = units_of(kitchen(["door_base 18"], "face_frame"))
    assert any('mill the stock to 13/16"' in step.words for step in unit.steps)


def test_brads_of_1_1_2_locate_and_staples_of_1_3_4_hold() -> None:
    """Common practice; held every 4 inches at most, an inch from the ends."""
    unit = unit_of("door_base 18")
    joint = next(each for each in unit.joints if each.first.endswith("floor"))
    assert joint.fixing is not None
    assert [(each.use, each.name) for each in joint.fasteners] == [
        ("locate", "brad"),
        ("hold", "staple"),
    ]
    # 23 deep, less the play of the back's groove: 21 - 1/64 between the end ones, six spaces.
    assert joint.fasteners[1].count == 7
    assert joint.fasteners[1].spacing == (23 - F("1/64") - 2 * 1) / 6 <= 4


WOODS = {
    "red_alder": ("1.38", "0.41"),
    "white_ash": ("1.74", "0.60"),
    "beech": ("1.72", "0.64"),
    "yellow_birch": ("2.01", "0.62"),
    "cherry": ("1.49", "0.50"),
    "soft_maple": ("1.64", "0.54"),
    "hickory": ("1.73", "0.66"),
    "red_oak": ("1.82", "0.63"),
    "hard_maple": ("1.83", "0.63"),
    "white_oak": ("1.78", "0.68"),
    "walnut": ("1.68", "0.55"),
    "yellow_poplar": ("1.58", "0.42"),
}
"""Millions of pounds a square inch and specific gravity, both at 12 % moisture: Wood Handbook
(FPL-GTR-282), table 5-3b; the last four from memory."""


@pytest.mark.parametrize("wood", WOODS)
def test_stiffness_and_weight_of_woods(wood: str) -> None:
    """A pound a cubic foot: specific gravity x 62.4 x 1.12 (Wood Handbook, ch. 4: mass and volume
    at 12 % moisture)."""
    stiff, gravity = (F(words) for words in WOODS[wood])
    unit = unit_of("wall_open 24", "face_frame", shop=f"wood {wood}")
    data = part(unit, "left_stile").material.data
    modulus, density = data["modulus"], data["density"]
    assert isinstance(modulus, Quantity)
    assert isinstance(density, Quantity)
    assert modulus.value == stiff * 1_000_000
    assert density.value == round(gravity * F("62.4") * F("1.12"))
