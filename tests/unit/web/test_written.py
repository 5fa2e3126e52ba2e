"""The little of Markdown that the manual is written in; what is read is CommonMark 0.31 and the tables of its kin."""

import re
from pathlib import Path

import pytest
from htpy import div

from counterpoise.checks.explain import FORMULAS
from counterpoise.web.manual_page import PAGES, manual_page, manual_text
from counterpoise.web.written import slug, written

DOCS = Path(__file__).parents[3] / "docs"


def shown(text: str) -> str:
    return str(div[written(text, lambda to: f"/theory/{to}")])


# CommonMark 0.31, sections 4.2, 4.5, 4.8, 5.2, 6.1, 6.2, 6.3: the rule each shows, its words ours
@pytest.mark.parametrize(
    ("text", "markup"),
    [
        ("# one\n\n## two ##", '<h1 id="one">one</h1><h2 id="two">two</h2>'),
        ("a line\ngoes on\n\nanother", "<p>a line goes on</p><p>another</p>"),
        ("- a\n- b", "<ul><li>a</li><li>b</li></ul>"),
        ("1. a\n2. b", "<ol><li>a</li><li>b</li></ol>"),
        ("- a\n  goes on\n  - in\n- b", "<ul><li>a goes on<ul><li>in</li></ul></li><li>b</li></ul>"),
        ("> said", "<blockquote><p>said</p></blockquote>"),
        ("**a** and *b* and `c*d*`", "<p><b>a</b> and <em>b</em> and <code>c*d*</code></p>"),
        ("2 * 3 * 4 and a_b_c", "<p>2 * 3 * 4 and a_b_c</p>"),
        ("[a `b`](c.md#d)", '<p><a href="/theory/c.md#d">a <code>b</code></a></p>'),
        ("[a](https://example.org/)", '<p><a href="https://example.org/">a</a></p>'),
        ("[a](#b)", '<p><a href="#b">a</a></p>'),
        ("    F = a\n      + b\n\nso", '<pre tabindex="0"><code>F = a\n  + b</code></pre><p>so</p>'),
        ("```text\n# no heading\n```", '<pre tabindex="0"><code># no heading</code></pre>'),
    ],
)
def test_a_page_is_read_as_commonmark_reads_it(text: str, markup: str) -> None:
    assert shown(text) == f"<div>{markup}</div>"


def test_a_table_has_its_head_and_its_cells() -> None:
    said = shown("| a | b |\n| --- | ---: |\n| 1 | `x` |")
    assert "<thead><tr><th>a</th><th>b</th></tr></thead>" in said
    assert "<tbody><tr><td>1</td><td><code>x</code></td></tr></tbody>" in said


@pytest.mark.parametrize(
    "text", ["<script>x</script>", "`<b>`", "[a](javascript:x)", "# <i>", "| <u> |\n| - |\n| <u> |"]
)
def test_no_word_of_a_page_becomes_an_element_or_a_script(text: str) -> None:
    said = shown(text)
    assert not re.search(r"<(script|b|i|u)>", said)
    assert 'href="javascript' not in said


@pytest.mark.parametrize("formula", FORMULAS)
def test_the_link_of_every_figure_leads_to_a_heading_of_its_page(formula: str) -> None:
    name = FORMULAS[formula][1].rpartition("/")[2]
    text = manual_text(name)
    assert text is not None
    assert f'id="{slug(formula)}"' in str(manual_page(name, text))


def test_every_link_between_pages_of_the_manual_leads_to_a_heading_that_is_there() -> None:
    pages = {f"{name}.md": str(manual_page(f"{name}.md", manual_text(f"{name}.md") or "")) for name in PAGES}
    for markup in pages.values():
        for name, heading in re.findall(r'href="/theory/([^"#]+)#([^"]+)"', markup):
            target = pages.get(name) or str(manual_page(name, manual_text(name) or ""))
            assert f'id="{heading}"' in target, (name, heading)


def test_no_mark_of_the_writing_is_left_standing_on_a_page() -> None:
    for name in PAGES:
        markup = str(manual_page(f"{name}.md", manual_text(f"{name}.md") or ""))
        plain = re.sub(r"<(pre|code)[^>]*>.*?</\1>", "", markup, flags=re.DOTALL)
        assert not re.search(r"\*\*|`|\]\(|>#+ ", plain), name
