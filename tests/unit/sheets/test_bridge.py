"""The bridge sheet as it comes out of the printer."""

import ctypes
import re
from dataclasses import replace
from datetime import UTC, datetime
from itertools import pairwise

import pypdfium2
import pypdfium2.raw as raw
import pytest

from counterpoise.app import Texts, demo_texts, judge
from counterpoise.checks import HouseResult
from counterpoise.planning import Act, Plan, load_in
from counterpoise.sheets import bridge_sheet
from counterpoise.sheets.rows import rows_of
from tests.eight_sets import eight_sets, two_sizes

WHEN = datetime(2026, 11, 3, 9, 30, tzinfo=UTC)
HOSTILE = '#panic("x") *b* _i_ $x$ @ref <tag> \\ [y] // c `raw` #let'


def plans_of(result: HouseResult) -> dict[str, Plan]:
    return {one.label: load_in(result.house, one.label) for one in result.sets}


def printed(texts: Texts, **changed: str) -> bytes:
    result = judge(texts)
    return bridge_sheet(result, plans_of(result), revision="14", when=WHEN, changed=changed)


def pages(pdf: bytes) -> list[str]:
    opened = pypdfium2.PdfDocument(pdf)
    return [page.get_textpage().get_text_bounded().replace("\r\n", "\n") for page in opened]


def size(pdf: bytes) -> tuple[float, float]:
    width, height = pypdfium2.PdfDocument(pdf)[0].get_size()
    return width / 72 * 25.4, height / 72 * 25.4


@pytest.fixture(scope="module")
def demo_pdf() -> bytes:
    return printed(eight_sets())


def many_sets(count: int) -> Texts:
    demo = eight_sets()
    head, rest = demo.house.split("\nsets:\n")
    sets = "".join(f'  - {{set: "{n}", distance: {n} ft, kind: single}}\n' for n in range(1, count + 1))
    bay = ", ".join(f'"{n}"' for n in range(1, count + 1))
    house = re.sub(r"    sets: \[.*\]", f"    sets: [{bay}]", head) + "\nsets:\n" + sets
    house = house.replace("head beam: 6,000 lb", "head beam: 90,000 lb").replace(
        "1,500 lb\n    head", "20,000 lb\n    head"
    )
    assert "not checked here" in rest
    lines = [f'  - {{set: "{n}", piece: painted drop, centre: CL, trims: {{show: 20 ft 6 in}}}}\n' for n in (1, count)]
    return replace(demo, house=house, hang=demo.hang.split("hung:\n")[0] + "hung:\n" + "".join(lines))


def test_the_house_the_revision_the_date_and_the_page_stand_at_the_head(demo_pdf: bytes) -> None:
    said = pages(demo_pdf)[0]
    assert "Larkspur Hall · Winter Revue" in said
    assert "revision 14 · 2026-11-03 · page 1 of 1" in said


def test_a_set_within_is_given_its_count_and_its_stack_after() -> None:
    result = judge(eight_sets())
    own = plans_of(result)["4"]
    said = pages(bridge_sheet(result, {"4": own}, revision="", when=WHEN, changed={}))[0]
    add = own.final.bricks - 3  # pipe weight of the demo's single sets
    assert re.search(rf"4\s+painted drop\s+3\s+\+{add}\s+{own.final.bricks}\s+1", said)
    assert f"before this page 150, after it {150 - add}" in said


def test_a_set_that_is_over_or_unknown_is_on_hold_without_a_count() -> None:
    result = judge(eight_sets())
    said = pages(bridge_sheet(result, plans_of(result), revision="", when=WHEN, changed={}))[0]
    assert "HOLD: over" in said
    assert said.count("HOLD: unknown") == 1
    over = result.set_called("2")
    assert over is not None
    assert over.stack is not None
    assert f"+{over.stack.bricks - 3}" not in said  # what would balance it


def test_a_set_whose_balance_alone_waits_for_a_weight_gets_a_first_count_and_is_told_to_wait() -> None:
    result = judge(eight_sets())
    plans = plans_of(result)
    said = pages(bridge_sheet(result, plans, revision="", when=WHEN, changed={}))[0]
    assert result.set_called("3").hold == ""  # type: ignore[union-attr]
    assert "A first count: the weight of cyc lights is not one figure." in " ".join(said.split())
    assert f"+{plans['3'].final.bricks - 3}" in said


def test_every_set_of_the_house_has_a_row_or_is_named_at_the_foot() -> None:
    result = judge(demo_texts())
    said = pages(bridge_sheet(result, plans_of(result), revision="", when=WHEN, changed={}))
    foot = " ".join(said[-1].split())
    assert "No arbor, no count here: sets 38, 39 (hemp)." in foot
    assert "No arbor, no count here: set 47 (dead-hung)." in foot
    rows = "\n".join(said)
    for one in result.sets:
        named = one.label in {"38", "39", "47"} or one.out_of_service
        assert named or re.search(rf"^{one.label}\b", rows, re.MULTILINE), one.label


def test_the_reason_of_a_hold_is_what_governs_and_the_weight_is_one_that_clears_all_of_it() -> None:
    result = judge(demo_texts())
    said = " ".join(
        "\n".join(pages(bridge_sheet(result, plans_of(result), revision="", when=WHEN, changed={}))).split()
    )
    assert "sag: 0.97 of 0.66 in." in said
    assert "at most 264 lb" in said
    assert "281 lb" not in said


def test_the_sheet_says_that_its_counts_are_of_each_set_alone(demo_pdf: bytes) -> None:
    assert "Each count is of its set alone, in the order of the house." in " ".join(pages(demo_pdf)[0].split())


def least_letter(pdf: bytes) -> float:
    """The smallest size of any letter [pt]."""
    opened = pypdfium2.PdfDocument(pdf)
    found: list[float] = []
    for page in opened:
        for one in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT]):
            size = ctypes.c_float()
            assert raw.FPDFTextObj_GetFontSize(one.raw, size)
            found.append(size.value * abs(one.get_matrix().d))
    return min(found)


def test_no_letter_is_under_8_points_however_long_a_name_is(demo_pdf: bytes) -> None:
    # the least that is read on paper in the light of a bridge: 8 pt, common practice, no source
    assert least_letter(demo_pdf) >= 8.0
    demo = eight_sets()
    house, label = "The Extraordinarily Long Named Municipal Playhouse of the Valleys", "Downstage-Electric-No-5"
    texts = replace(demo, house=demo.house.replace("Larkspur Hall", house).replace('"5"', f'"{label}"'),
                    hang=demo.hang.replace("Larkspur Hall", house).replace('set: "5"', f'set: "{label}"'))  # fmt: skip
    pdf = printed(texts)
    assert least_letter(pdf) >= 8.0
    said = re.sub(r"[\s\u200b\ufffe-]", "", "".join(pages(pdf)))
    assert all(part in said for part in ("Down", "Electr", "No5"))  # in lines of their own, beside the piece
    assert "".join(house.split()) in said


def test_a_set_without_a_plan_is_on_hold() -> None:
    result = judge(eight_sets())
    said = pages(bridge_sheet(result, {}, revision="", when=WHEN, changed={}))[0]
    assert "+" not in said
    assert "HOLD: no plan" in said


def test_a_set_that_is_out_of_service_and_empty_has_no_row_and_is_named_at_the_foot(demo_pdf: bytes) -> None:
    said = pages(demo_pdf)[0]
    assert "Out of service: set 6 (rope lock slips)" in said
    assert not re.search(r"^6\b", said, re.MULTILINE)


def test_what_changed_is_printed_on_its_set_only(demo_pdf: bytes) -> None:
    words = "changed since revision 13: was +16"
    assert words not in pages(demo_pdf)[0]
    result = judge(eight_sets())
    said = pages(bridge_sheet(result, plans_of(result), revision="14", when=WHEN, changed={"4": words}))[0]
    assert said.count(words) == 1


def test_the_caution_and_what_was_not_checked_stand_on_the_sheet(demo_pdf: bytes) -> None:
    said = pages(demo_pdf)[0]
    assert "Informs a qualified person" in said
    assert "Not checked: sway and shock, roll" in said
    assert "safe" not in said.casefold()


def test_the_floor_is_posted_for_what_is_left_beside_the_people(demo_pdf: bytes) -> None:
    # 75 psf on 30 ft by 3 ft is 6,750 lb; less two of 200 lb, in bricks of 25.3 lb (mean and spread): 250.9
    assert "at most 250 of the 25 lb bricks with 2 people" in pages(demo_pdf)[0]


def test_the_same_sheet_is_the_same_bytes(demo_pdf: bytes) -> None:
    assert printed(eight_sets()) == demo_pdf


def test_feet_are_printed_on_letter_and_metres_on_a4(demo_pdf: bytes) -> None:
    assert size(demo_pdf) == pytest.approx((215.9, 279.4), abs=0.1)  # ANSI/ASME Y14.1: size A
    demo = eight_sets()
    metric = replace(demo, house=demo.house.replace("units: us", "units: metric"))
    assert size(printed(metric)) == pytest.approx((210.0, 297.0), abs=0.1)  # ISO 216: A4


def test_a_name_that_looks_like_markup_is_printed_as_it_is_written() -> None:
    demo = eight_sets()
    quoted = "'" + HOSTILE + "'"
    texts = replace(demo, show=demo.show.replace("piece: painted drop", f"piece: {quoted}"),
                    hang=demo.hang.replace("piece: painted drop", f"piece: {quoted}"))  # fmt: skip
    said = "".join(pages(printed(texts))[0].split())
    assert "".join(HOSTILE.split()) in said


@pytest.mark.parametrize("name", ["x" * 300, "幕 🎭 ستارة", "a\u202eb\u0000c\u2028d"])
def test_no_name_stops_the_printer(name: str) -> None:
    result = judge(eight_sets())
    rigged = replace(result.house, name=name)
    assert (
        len(pages(bridge_sheet(replace(result, house=rigged), {}, revision=name, when=WHEN, changed={"4": name}))) == 1
    )


def test_sixty_sets_take_several_pages_and_each_says_its_stock() -> None:
    texts = many_sets(60)
    result = judge(texts)
    said = pages(printed(texts))
    assert len(said) > 3
    assert [f"page {n} of {len(said)}" in page for n, page in enumerate(said, start=1)] == [True] * len(said)
    labels = [int(found) for page in said for found in re.findall(r"^(\d+)\s+(?:painted|—)", page, re.MULTILINE)]
    assert labels == list(range(1, 61))
    stock = [tuple(map(int, found)) for page in said
             for found in re.findall(r"before this page (\d+), after it (\d+)", page)]  # fmt: skip
    assert stock[0][0] == 150
    assert all(one[1] == two[0] for one, two in pairwise(stock))
    loaded = sum(plan.final.bricks - 3 for plan in plans_of(result).values())
    assert stock[-1][1] == 150 - loaded
    assert loaded > 0


def test_bricks_that_are_not_there_are_not_asked_for() -> None:
    demo = eight_sets()
    short = replace(demo, house=demo.house.replace("stock: {loading bridge: 150}", "stock: {loading bridge: 4}"),
                    hang=demo.hang.replace('{set: "1", piece: border,', '{set: "1", piece: painted drop,'))  # fmt: skip
    result = judge(short)
    said = pages(bridge_sheet(result, plans_of(result), revision="", when=WHEN, changed={}))[0]
    assert said.count("+3") == 1
    assert "HOLD: short" in said
    assert "before this page 4, after it 1" in said


def letters(pdf: bytes) -> list[tuple[str, float, float]]:
    """Every run of letters on the first page, its size and how high it stands [pt]."""
    page = pypdfium2.PdfDocument(pdf)[0]
    told, found = page.get_textpage(), []
    for one in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT]):
        size = ctypes.c_float()
        assert raw.FPDFTextObj_GetFontSize(one.raw, size)
        said = told.get_text_bounded(*one.get_bounds()).strip()
        found.append((said, size.value * abs(one.get_matrix().d), one.get_matrix().f))
    return found


def test_both_counts_of_two_sizes_of_brick_stand_whole_and_large_and_are_named_as_the_house_names_them() -> None:
    # read at arm's length in the light of a bridge: 20 pt and more for what is done, common practice, no source
    texts = two_sizes()
    result = judge(texts)
    rows = rows_of(result, plans_of(result), {})
    visits = [(one.add, one.small_add) for row in rows for one in row.visits if one.small_add]
    assert visits
    pdf = printed(texts)
    found = letters(pdf)
    for large, small in visits:
        assert any(said == f"+{large} +{small}" and size >= 20.0 for said, size, _ in found), (large, small, found)
        assert any(said == f"{large} full, {small} half" and size >= 11.0 for said, size, _ in found)
    after = [size for said, size, _ in found if re.fullmatch(r"\d+ \+ \d+", said)]
    assert len(after) >= len(visits)
    assert min(after) >= 16.0
    assert "small" not in " ".join(pages(pdf))


def test_the_bridge_and_the_height_of_a_visit_are_as_large_as_words_of_the_page() -> None:
    result = judge(demo_texts())
    plans = {label: load_in(result.house, label) for label in ("16", "19")}
    only = replace(result, sets=tuple(one for one in result.sets if one.label in plans))
    found = letters(bridge_sheet(only, plans, revision="", when=WHEN, changed={}))
    where = [size for said, size, _ in found if said.startswith(("loading bridge", "mid bridge", "batten at"))]
    assert len(where) == 5  # one visit to 16, two to 19, each of those with its height
    assert min(where) >= 11.0


def test_what_a_set_goes_only_with_stands_above_its_counts() -> None:
    # common practice, no source: what comes first is read first
    result = judge(demo_texts())
    plans = {"19": load_in(result.house, "19")}
    only = replace(result, sets=tuple(one for one in result.sets if one.label in plans))
    found = letters(bridge_sheet(only, plans, revision="", when=WHEN, changed={}))
    (band,) = [high for said, _, high in found if said.startswith("ONLY WITH")]
    counts = [high for said, _, high in found if re.fullmatch(r"\+\d+", said)]
    assert len(counts) == 2
    assert all(band > high for high in counts)  # a page is measured from its foot


def test_a_set_that_goes_only_with_a_rated_hold_on_says_so_from_where_to_where_and_no_other_does() -> None:
    # common practice, no source: nobody takes a brick in hand before the hold that carries them has its strain
    result = judge(demo_texts())
    plans = {label: load_in(result.house, label) for label in ("16", "19")}
    assert {step.hold for step in plans["19"].steps if step.act is Act.RIG} == {"bull winch", "deck capstan"}
    said = " ".join(" ".join(pages(bridge_sheet(result, plans, revision="", when=WHEN, changed={}))).split())
    assert said.count("ONLY WITH") == 1
    # what the rail is told: on at low trim, off at the mid bridge where the last bricks go on
    last = next(line for line in plans["19"].lines if "20 on after" in line.says)
    assert last.to == "bridge"
    assert "22' 7\"" in " ".join(line.says for line in plans["19"].lines)
    assert ("ONLY WITH bull winch and deck capstan ON: from batten at 4' 0\", before brick 10 goes on, "
            "to 22' 7\" with 20 on") in said  # fmt: skip
    assert said.count("hold on") == 2  # both of its visits, none of the other set's
