"""The load-in as pages: the whole of it, and a step at a time; nothing here needs a script."""

import re
from collections.abc import Iterator
from html import unescape

import pytest
from starlette.testclient import TestClient

from counterpoise.app import demo_texts, judge
from counterpoise.app.calls import whole_call
from counterpoise.checks import Verdict
from counterpoise.planning.call import Call
from counterpoise.web import create_app


@pytest.fixture(scope="module")
def call() -> Call:
    return whole_call(judge(demo_texts()), is_strike=False, seconds=2.0)


@pytest.fixture(scope="module")
def client() -> Iterator[TestClient]:
    with TestClient(create_app(None, demo_texts()), base_url="http://localhost") as client:
        yield client


def words(markup: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", markup)).split())


def test_every_set_that_is_unknown_is_named_at_the_head_and_at_its_steps(client: TestClient, call: Call) -> None:
    said = client.get("/load-in").text
    known = {one.label: one.verdict for one in judge(demo_texts()).sets}
    unknown = [turn.set for turn in call.turns if known[turn.set] is Verdict.UNKNOWN]
    assert len(unknown) >= 3
    head = words(re.search(r'<p class="[^"]*unknown-sets">.*?</p>', said, re.DOTALL)[0])  # type: ignore[index]
    assert "Nothing is promised of these" in head
    for label in unknown:
        assert re.search(rf"\b{label}\b", head)
        assert re.search(rf'<section class="turn is-unknown"><h2><a href="/set/{label}">', said)
    marked = re.findall(r'<section class="turn is-unknown">', said)
    assert len(marked) == len(unknown)


@pytest.mark.parametrize("label", ["7", "18", "44"])
def test_a_set_that_is_held_says_so_in_the_call_and_on_its_page(client: TestClient, label: str) -> None:
    assert re.search(rf"set {label} unknown: hold until it is found out", words(client.get("/load-in").text))
    assert "Hold: unknown. Find out first." in words(client.get(f"/set/{label}").text)


def test_a_set_that_is_over_twice_is_told_by_what_governs_and_what_mends_all(client: TestClient) -> None:
    said = words(client.get("/load-in").text)
    assert re.search(
        r"set 21 : would end over: sag: 0\.97 of 0\.66 in\. For all of it cloud may weigh at most 264 lb", said
    )
    assert "at most 281 lb" not in said


def test_each_step_is_a_page_whose_reply_leads_to_the_next(client: TestClient, call: Call) -> None:
    at, seen = "/load-in/step", []
    for line in call.lines[:12]:
        said = client.get(at).text
        seen.append(words(re.search(r'<p class="step-says">.*?</p>', said, re.DOTALL)[0]))  # type: ignore[index]
        assert line.reply in words(said)
        assert f'<p class="to">{line.to}</p>' in said
        found = re.search(r'<a class="step-reply" href="([^"]+)"', said)
        assert found is not None
        at = unescape(found[1])
    assert [one.lower() for one in seen] == [
        one.says.removeprefix(f"Set {one.set}: ").lower() for one in call.lines[:12]
    ]


def test_a_step_that_is_done_only_if_has_a_way_past_it(client: TestClient, call: Call) -> None:
    at = next(line.number for line in call.lines if line.is_branch)
    past = next(line.number for line in call.lines[at:] if not line.is_branch)
    said = client.get(f"/load-in/step?n={at}").text
    assert f'<a class="step-else" href="/load-in/step?n={past}">' in said
    assert "step-else" not in client.get(f"/load-in/step?n={past}").text


def test_sets_on_which_nothing_is_put_are_named_before_the_first_step_and_once(client: TestClient, call: Call) -> None:
    # common practice, no source: who calls a load-in says first what is left alone
    before, _, after = client.get("/load-in").text.partition('<section class="steps call">')
    held = [one.set for one in call.held]
    assert len(held) >= 3
    assert after
    for label in held:
        assert words(before).count(f"Hold set {label} :") == 1
        assert f": Set {label}:" not in words(before)  # its name is said once
        assert f"Hold set {label} :" not in words(after)


def test_of_a_set_that_is_held_the_great_button_goes_past_it_and_the_lesser_one_on_with_it(
    client: TestClient, call: Call
) -> None:  # fmt: skip
    numbers = [line.number for line in call.lines if line.set == "7"]
    said = client.get(f"/load-in/step?n={numbers[0]}").text
    great = re.findall(r'<a class="step-reply" href="/load-in/step\?n=(\d+)">(.*?)</a>', said)
    assert [int(at) for at, _ in great] == [numbers[-1] + 1]
    assert "hold set 7" in words(great[0][1])
    lesser = re.findall(r'<a class="step-else is-held" href="/load-in/step\?n=(\d+)">(.*?)</a>', said)
    assert [int(at) for at, _ in lesser] == [numbers[0] + 1]
    assert call.lines[numbers[0] - 1].reply in words(lesser[0][1])


def test_a_set_that_is_held_can_be_passed_over_step_by_step(client: TestClient, call: Call) -> None:
    numbers = [line.number for line in call.lines if line.set == "7"]
    for at in (numbers[0], numbers[-1]):
        said = client.get(f"/load-in/step?n={at}").text
        assert "Nothing is promised of it." in said
        assert f'<a class="step-reply" href="/load-in/step?n={numbers[-1] + 1}">' in said


def test_where_a_set_is_closed_the_bricks_that_are_left_are_told(client: TestClient, call: Call) -> None:
    said = words(client.get(f"/load-in/step?n={call.closed[0].lines}").text)
    assert f"Set {call.turns[0].set} is then closed; now loading bridge" in said


@pytest.mark.parametrize("n", [-3, 0, 10**9])
def test_a_step_that_is_none_is_the_nearest_there_is(client: TestClient, call: Call, n: int) -> None:
    said = words(client.get(f"/load-in/step?n={n}").text)
    assert (f"step 1 of {len(call.lines)}" in said) if n < 1 else ("All steps are called." in said)


def test_one_can_go_to_the_first_step_of_every_set(client: TestClient, call: Call) -> None:
    said = client.get("/load-in/step").text
    for label in {turn.set for turn in call.turns}:
        first = next(line.number for line in call.lines if line.set == label)
        assert f'<a href="/load-in/step?n={first}">{label}</a>' in said


def test_no_page_leaves_a_mark_of_the_text_standing(client: TestClient) -> None:
    for path in ("/", "/load-in", *(f"/set/{one.label}" for one in judge(demo_texts()).sets)):
        for said in re.findall(r">([^<]+)<", client.get(path).text):
            assert "`" not in said, path
            assert not re.search(r"[+−-]\d+ lb (arbor|batten)-heavy", said), path


def test_a_page_that_is_not_there_can_be_dark_and_be_skipped_into(client: TestClient) -> None:
    answer = client.get("/nosuch")
    assert answer.status_code == 404
    assert 'data-act="theme"' in answer.text
    assert '<a class="skip" href="#main">' in answer.text
