import pytest

from counterpoise.units import Kind, read


@pytest.mark.parametrize(
    ("kind", "si"),
    [
        (Kind.LENGTH, "m"),
        (Kind.MASS, "kg"),
        (Kind.FORCE, "N"),
        (Kind.LINE_MASS, "kg/m"),
        (Kind.AREA_MASS, "kg/m2"),
        (Kind.STRESS, "Pa"),
        (Kind.FLOOR_LOAD, "Pa"),
        (Kind.MOMENT, "N m"),
        (Kind.SECOND_MOMENT, "m4"),
        (Kind.ANGLE, "rad"),
    ],
)
def test_one_of_the_si_unit_of_a_kind_reads_as_one(kind: Kind, si: str) -> None:
    assert kind.si == si
    assert read(f"1 {si}", kind).best == 1.0


@pytest.mark.parametrize("kind", [Kind.RATIO, Kind.COUNT])
def test_a_ratio_and_a_count_have_no_unit(kind: Kind) -> None:
    assert kind.si == ""
    assert read("1", kind).best == 1.0
