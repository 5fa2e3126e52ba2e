"""A renumbering that keeps labels apart is a change of labels and of nothing else, and there is a way back."""

import re

from hypothesis import given, settings, strategies as st

from counterpoise.documents import diff, read_hang_alone, read_house, renumber, to_json
from tests.plain_house import a_house, a_set, hung, written

OLD = [str(n) for n in range(1, 7)]
HOUSE = written(a_house(*(a_set(label, **({"twin_of": "2"} if label == "1" else {})) for label in OLD)))
HANG = written({"counterpoise": "hang 1", "house": "Plainfield Hall", "show": "Gala",
                "hung": [hung(f"piece {label}", label) for label in OLD],
                "stated bricks": {label: label for label in OLD}})  # fmt: skip
labels = st.one_of(
    st.sampled_from([*OLD, "12A", "no", "1.0", "a: b", "#3", "12' 6\"", "é😀"]),
    st.text(st.characters(categories=["L", "N", "P", "S"]), min_size=1, max_size=24),
)


@settings(max_examples=40)
@given(new=st.lists(labels, min_size=6, max_size=6, unique=True), as_json=st.booleans())
def test_a_renumbering_changes_labels_and_nothing_else(new: list[str], as_json: bool) -> None:
    house, place = (to_json(HOUSE), to_json(HANG)) if as_json else (HOUSE, HANG)
    to = dict(zip(OLD, new, strict=True))
    done = renumber(house, [place], to)
    before, after = read_house(house), read_house(done.house)
    assert [one.label for one in after.sets] == new
    assert {one.form.value for one in diff(before, after)} <= {"renumbered"}
    assert after.steel[0].sets == tuple(new)
    assert after.sets[0].twin_of == to["2"]
    hang = read_hang_alone(done.hangs[0])
    assert [(one.piece, one.label) for one in hang.hung] == [(f"piece {label}", to[label]) for label in OLD]
    assert {label: one.text for label, one in hang.stated_bricks.items()} == {to[label]: label for label in OLD}


@settings(max_examples=40)
@given(new=st.permutations(OLD))
def test_the_way_back_gives_the_house_it_was_but_for_its_permanent_keys(new: list[str]) -> None:
    there = renumber(HOUSE, [HANG], dict(zip(OLD, new, strict=True)))
    back = renumber(there.house, there.hangs, dict(zip(new, OLD, strict=True)))
    assert [re.sub("numbering: [0-9]\n", "", one) for one in back.hangs] == [HANG]
    assert diff(read_house(HOUSE), read_house(back.house)) == ()
