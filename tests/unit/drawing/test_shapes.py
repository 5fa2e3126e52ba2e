from xml.etree import ElementTree

import pytest
from PIL import ImageFont

from counterpoise.drawing import Picture, keyed, svg, svg_file
from counterpoise.drawing.shapes import box, group, line, link, number, path, words
from counterpoise.drawing.widths import width_of

HOSTILE = ["<script>alert(1)</script>", "\"'><img src=x onerror=y>", "]]>&amp;", "a\x00b\x0bc", "\ud800", "&#x3c;"]


def picture(*shapes: object, title: str = "t") -> Picture:
    return Picture(name="n", width=10, height=10, title=title, shapes=shapes)  # type: ignore[arg-type]


@pytest.mark.parametrize("said", HOSTILE)
def test_words_come_out_of_a_parser_as_they_were_and_make_no_element(said: str) -> None:
    drawn = ElementTree.fromstring(svg(picture(words(1, 2, said, aria_label=said), title=said)))
    tags = [one.tag.split("}")[1] for one in drawn.iter()]
    assert tags == ["svg", "text"]
    kept = "".join("\ufffd" if one in "\x00\x0b\ud800" else one for one in said)
    assert drawn[0].text == drawn[0].get("aria-label") == drawn.get("aria-label") == kept


@pytest.mark.parametrize("name", ["style", "onclick", "x y", 'a"b'])
def test_an_attribute_that_a_strict_policy_forbids_is_refused(name: str) -> None:
    with pytest.raises(ValueError, match="no attribute"):
        svg(picture(group(**{name: "1"})))


@pytest.mark.parametrize(
    ("value", "said"), [(1.0, "1"), (-0.001, "0"), (1e-12, "0"), (12.345, "12.35"), (1e7, "10000000")]
)
def test_a_coordinate_has_no_exponent_and_no_minus_zero(value: float, said: str) -> None:
    assert number(value) in {said, "12.35", "12.34"} if value == 12.345 else number(value) == said


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_a_coordinate_that_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="coordinate"):
        number(value)


def test_what_moves_is_found_by_its_key_wherever_it_stands() -> None:
    drawn = picture(group(line(0, 0, 1, 1, data_key="a"), group(words(3, 4, "hi", data_key="b"))), box(0, 0, 1, 1))
    assert keyed(drawn) == {"a": {"x1": "0", "y1": "0", "x2": "1", "y2": "1"}, "b": {"x": "3", "y": "4", "text": "hi"}}


def test_a_path_goes_through_its_points_and_closes() -> None:
    assert path([(0, 0), (1, 2.5)], closed=True).attrs["d"] == "M0 0L1 2.5Z"


def test_a_drawing_in_a_file_brings_its_look_and_has_no_address_and_no_field_to_take_hold_of() -> None:
    inner = (box(0, 0, 9, 9, class_="hit"), words(1, 1, "set 2 & <3>"), box(0, 0, 4, 4, class_="handle wide"))
    picture = Picture(name="p", width=10, height=10, title="t", shapes=(link("/set/2", *inner),))
    for dark in (False, True):
        text = svg_file(picture, dark=dark)
        root = ElementTree.fromstring(text)
        assert [one.tag.rpartition("}")[2] for one in root.iter()] == ["svg", "style", "g", "text"]
        assert "href" not in text
        assert root[1][0].text == "set 2 & <3>"


def test_a_drawing_in_a_file_says_its_caption_below_and_gives_every_word_its_width() -> None:
    caption = ("Larkspur Hall: 3 within", "Not checked here: " + "sway and shock; " * 20)
    picture = Picture(name="p", width=400, height=100, title="t", shapes=(words(1, 20, "set 2"),), caption=caption)
    root = ElementTree.fromstring(svg_file(picture))
    texts = [one for one in root.iter() if one.tag.endswith("text")]
    assert " ".join(one.text or "" for one in texts[1:]).split() == " ".join(caption).split()
    assert all(float(one.attrib["y"]) > 100 for one in texts[1:])
    assert float(root.attrib["height"]) > max(float(one.attrib["y"]) for one in texts)
    assert all(float(one.attrib["x"]) + float(one.attrib["textLength"]) <= 400 for one in texts)


@pytest.mark.parametrize(
    ("classes", "size", "face"),
    [("label middle", 14, "Regular"), ("", 15, "Regular"), ("number middle word-within", 22, "Bold"),
     ("number tight middle", 17, "Bold"), ("label tiny end", 13, "Regular"), ("small middle word-over", 15, "Bold"),
     ("count", 30, "Bold")],
)  # fmt: skip
def test_words_are_as_wide_as_the_face_sets_them(classes: str, size: int, face: str) -> None:
    font = ImageFont.truetype(f"src/counterpoise/sheets/fonts/AtkinsonHyperlegibleNext-{face}.ttf", 1000)
    said = "loft beam, line 3: 886 of 2,000 lb"
    set_wide = font.getlength(said, features=["-kern", "-liga"]) * size / 1000  # the outside reference: FreeType
    assert width_of(said, classes) == pytest.approx(set_wide, rel=0.01)
