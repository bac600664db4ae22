"""What the scanner answers: to numbers that are typed, to photographs and to live frames."""

from __future__ import annotations

import html
import io
import re
from collections.abc import Callable
from typing import Any

import pytest

from labels.number import Thing, make
from labels.reading.look import Decoder, Look, Reading, Symbol
from tests.bench_page.conftest import BenchClient
from tests.bench_page.fake_camera import HEIGHT, WIDTH, picture
from tests.conftest import Shop

POST, THICK_POST = "20008482", "20008676"
"""Seatposts of 26.6 and 27.2 mm in bin D1; Sorrel's frame takes 26.6 (the invented workshop)."""
SORREL, BIN_B2, BIN_D1 = "30000258", "10000216", "10000895"
FRONT_TYRE = "20019152"
NOBODYS = make(Thing.PART, 99_000)
AS_SCRIPT = {"Accept": "application/json"}


@pytest.fixture
def bench(client: BenchClient) -> BenchClient:
    """Return the page on a workshop where Sorrel has no seatpost."""
    client.shop.told("unmount", "Sorrel", "seatpost", "D1")
    return client


def typed(client: BenchClient, number: str, mode: str = "look", **more: str) -> tuple[int, str]:
    """Return the status and the words that a typed number brings, on the page it leads to."""
    form = {"number": number, "mode": mode, **more}
    answer = client.post("/scan/number", data=form)
    if answer.status_code == 302:
        return 302, in_words(client.read(answer.headers["Location"]))
    return answer.status_code, in_words(answer.get_data(as_text=True))


def in_words(page: str) -> str:
    """Return the words of a page without its tags."""
    return " ".join(html.unescape(re.sub("<[^>]+>", " ", page)).split())


def where(shop: Shop, number: str) -> list[str]:
    """Return where a part is."""
    return [place["place"] for place in shop.asked("part", "show", number)["places"]]


def frame(
    client: BenchClient, *numbers: str, watch: str = "", mode: str = "look", to: str = ""
) -> Any:
    """Return what the page answers to a frame with labels in it."""
    answer = client.post(
        "/scan/frame",
        query_string={"watch": watch, "mode": mode, "to": to},
        data=picture(numbers),
        content_type="image/jpeg",
        headers=AS_SCRIPT,
    )
    assert answer.status_code == 200, answer.get_data(as_text=True)
    return answer.get_json()


def frames(client: BenchClient, *numbers: str, count: int = 8, **options: str) -> Any:
    """Return the first frame's answer that says something, of a few alike; the last one if none."""
    came = frame(client, *numbers, **options)
    for _ in range(count):
        if came["answer"]:
            break
        came = frame(client, *numbers, **{**options, "watch": came["watch"]})
    return came


@pytest.mark.parametrize(
    ("number", "told"),
    [
        ("2000 8482", "2000 8482 seatpost, diameter 26.6 mm"),
        ("2000-8482", "bin D1"),
        (SORREL, "bike Sorrel bought"),
        (BIN_D1, "bin D1 19 parts and lots in it"),
    ],
    ids=["grouped", "with a dash", "bike", "bin"],
)
def test_a_number_is_looked_up(number: str, told: str, client: BenchClient) -> None:
    """A number in any grouping is shown: what it is and where, with the way to its page."""
    answer = client.post("/scan/number", data={"number": number, "mode": "look"})
    page = answer.get_data(as_text=True)
    assert answer.status_code == 200
    assert told in in_words(page)
    assert f'href="/n/{number.replace(" ", "").replace("-", "")}"' in page


@pytest.mark.parametrize(
    ("number", "told"),
    [
        ("20008483", "check digits do not agree"),
        ("2000848", "7 digits"),
        ("seatpost", "digits only"),
        (NOBODYS, "there is no part"),
        ("", "0 digits"),
    ],
)
def test_what_is_no_number_is_told(number: str, told: str, client: BenchClient) -> None:
    """A misread or unknown number is refused with what to do."""
    status, words = typed(client, number)
    assert status == 409
    assert told in words


def test_onto_a_bike(bench: BenchClient) -> None:
    """A part goes onto the bike; the page says from where, the verdict and the caution."""
    status, words = typed(bench, POST, "onto", to="Sorrel")
    assert status == 302
    for told in ("bin D1 → Sorrel, seatpost", "fits: ", "Onto Sorrel"):
        assert told in words
    assert where(bench.shop, POST) == ["Sorrel's seatpost slot"]


def test_a_clash_takes_a_second_press(bench: BenchClient) -> None:
    """What clashes is refused with the reason; only the press that says so mounts it."""
    form = {"number": THICK_POST, "mode": "onto", "to": "Sorrel"}
    answer = bench.post("/scan/number", data=form)
    page = answer.get_data(as_text=True)
    assert answer.status_code == 409
    assert "the post is too thick" in page
    assert "--anyway" not in page
    assert '<input type="hidden" name="anyway" value="yes">' in page
    assert where(bench.shop, THICK_POST) == ["bin D1"]
    assert typed(bench, THICK_POST, "onto", to="Sorrel", anyway="yes")[0] == 302
    assert where(bench.shop, THICK_POST) == ["Sorrel's seatpost slot"]


def test_the_slot_is_asked_where_two_would_do(bench: BenchClient) -> None:
    """A tyre for a bike without tyres: the page offers both slots, and takes the one chosen."""
    for end in ("front", "rear"):
        bench.shop.told("unmount", "Sorrel", f"{end} tyre", "E2")
    status, words = typed(bench, FRONT_TYRE, "onto", to="Sorrel")
    assert status == 409
    assert "Which slot?" in words
    assert words.index("front tyre") < words.index("rear tyre")
    assert typed(bench, FRONT_TYRE, "onto", to="Sorrel", slot="rear tyre")[0] == 302
    assert where(bench.shop, FRONT_TYRE) == ["Sorrel's rear tyre slot"]


def test_into_a_bin(client: BenchClient) -> None:
    """A part goes into the bin."""
    assert "bin D1 → bin B2" in typed(client, POST, "into", to="B2")[1]
    assert where(client.shop, POST) == ["bin B2"]


@pytest.mark.parametrize(
    ("mode", "label", "title"),
    [("onto", SORREL, "Onto Sorrel"), ("into", BIN_D1, "Into bin D1"), ("count", BIN_D1, "Count")],
)
def test_a_label_chooses_the_bike_or_bin(
    mode: str, label: str, title: str, client: BenchClient
) -> None:
    """Scanning a bike's tag or a bin's label says what to work with, typed or before a camera."""
    status, words = typed(client, label, mode)
    assert status == 302
    assert title in words
    came = frames(client, label, mode=mode)["answer"]
    assert (came["state"], came["title"][: len(title)]) == ("target", title)


def test_without_a_target_nothing_is_moved(client: BenchClient) -> None:
    """A part is refused while no bike is chosen."""
    status, words = typed(client, POST, "onto")
    assert status == 409
    assert "scan the label of a bike first" in words


def test_an_unknown_target_is_told(client: BenchClient) -> None:
    """A link that names a bike that is not there shows the scanner and says so."""
    answer = client.get("/scan/?mode=onto&to=Sorrell")
    assert answer.status_code == 404
    assert "Sorrel" in in_words(answer.get_data(as_text=True))


def test_undo_is_at_hand(bench: BenchClient) -> None:
    """Undo right after an act puts the part back; the page stays where it was."""
    typed(bench, POST, "onto", to="Sorrel")
    where_from = {"Referer": "http://localhost/scan/?mode=onto&to=Sorrel"}
    answer = bench.post("/undo", headers=where_from)
    assert answer.headers["Location"] == "/scan/?mode=onto&to=Sorrel"
    assert where(bench.shop, POST) == ["bin D1"]


def photographed(client: BenchClient, sent: bytes, mode: str, **more: str) -> tuple[int, str]:
    """Return the status and words that a photograph brings."""
    form = {"mode": mode, **more, "picture": (io.BytesIO(sent), "IMG_1.jpg")}
    answer = client.post("/scan/picture", data=form)
    if answer.status_code == 302:
        return 302, in_words(client.read(answer.headers["Location"]))
    return answer.status_code, in_words(answer.get_data(as_text=True))


def test_a_photograph_acts(bench: BenchClient) -> None:
    """One label in a photograph, read from both its symbols, acts as a typed number does."""
    assert photographed(bench, picture([POST]), "onto", to="Sorrel")[0] == 302
    assert where(bench.shop, POST) == ["Sorrel's seatpost slot"]


def test_a_photograph_of_several_asks(bench: BenchClient) -> None:
    """Of several labels in a photograph none is moved; each has a button."""
    status, words = photographed(bench, picture([POST, THICK_POST]), "into", to="B2")
    assert status == 409
    assert "Which one?" in words
    assert "2000 8482 seatpost" in words
    assert "2000 8676 seatpost" in words
    assert where(bench.shop, POST) == where(bench.shop, THICK_POST) == ["bin D1"]


def test_a_photograph_shows_all(client: BenchClient) -> None:
    """To look up, all labels in a photograph are shown."""
    words = photographed(client, picture([POST, THICK_POST, NOBODYS]), "look")[1]
    for told in ("diameter 26.6 mm", "diameter 27.2 mm", f"there is no part '{NOBODYS}'"):
        assert told in words


def look(number: str, decoder: Decoder = Decoder.ZBAR) -> Look:
    """Return one look at a number."""
    corners = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
    return Look(number, corners, Symbol.CODE_128, decoder, "")  # type: ignore[arg-type] # as read


@pytest.mark.parametrize("decoders", [1, 2])
def test_one_look_does_not_act(
    decoders: int, client: BenchClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What one decoder alone saw in one symbol of a photograph moves nothing, only two do."""
    looks = tuple(look(POST, decoder) for decoder in list(Decoder)[:decoders])
    read = Reading(looks[0].number, looks[0].corners, looks)
    monkeypatch.setattr(client.held.watches, "still", lambda _: [read])
    status, words = photographed(client, picture([]), "into", to="B2")
    assert (status == 302) is (decoders == 2)
    assert ("seen only once" in words) is (decoders == 1)
    assert where(client.shop, POST) == (["bin B2"] if decoders == 2 else ["bin D1"])


@pytest.mark.parametrize(
    ("sent", "told"),
    [
        (b"", "not a picture"),
        (b"GIF89a", "not a picture"),
        (picture([POST])[:9000], "damaged or cut short"),
        (picture([]), "no label was found"),
    ],
    ids=["empty", "other format", "cut short", "no label"],
)
def test_a_poor_photograph_is_told(sent: bytes, told: str, client: BenchClient) -> None:
    """What is no picture, or shows no label, is refused with what to do."""
    status, words = photographed(client, sent, "look")
    assert status == 409
    assert told in words


def test_a_frame_says_where_the_labels_are(client: BenchClient) -> None:
    """The corners of each label lie within the frame, and the labels beside each other."""
    came = frame(client, POST, THICK_POST)
    assert came["size"] == [WIDTH, HEIGHT]
    lefts = {one["number"]: min(x for x, _ in one["corners"]) for one in came["labels"]}
    assert 0 < lefts[POST] < WIDTH / 2 < lefts[THICK_POST] < WIDTH


def test_a_label_acts_once_while_it_is_in_view(bench: BenchClient) -> None:
    """Frame after frame with the same label mounts it once and then is quiet."""
    came = frames(bench, POST, mode="onto", to="Sorrel")
    assert came["answer"]["state"] == "done"
    assert "fits" in came["answer"]["html"]
    again = [frame(bench, POST, watch=came["watch"], mode="onto", to="Sorrel") for _ in range(6)]
    assert [one["answer"] for one in again] == [None] * 6
    assert where(bench.shop, POST) == ["Sorrel's seatpost slot"]


def test_of_two_labels_the_user_chooses(bench: BenchClient) -> None:
    """Two labels in view move nothing; the chosen one goes, and the camera leaves both alone."""
    came = frames(bench, POST, THICK_POST, mode="into", to="B2")
    assert came["answer"]["state"] == "ask"
    assert where(bench.shop, POST) == ["bin D1"]
    form = {"number": POST, "mode": "into", "to": "B2", "watch": came["watch"]}
    done = bench.post("/scan/number", data=form, headers=AS_SCRIPT).get_json()
    assert done["answer"]["state"] == "done"
    for _ in range(6):
        quiet = frame(bench, POST, watch=came["watch"], mode="into", to="B2")
        assert quiet["answer"] is None
    assert where(bench.shop, THICK_POST) == ["bin D1"]


def test_an_unknown_label_is_told_once(client: BenchClient) -> None:
    """A label that reads well but is in no record is refused, not acted on."""
    came = frames(client, NOBODYS, mode="into", to="B2")
    assert came["answer"]["state"] == "refused"
    assert frame(client, NOBODYS, watch=came["watch"])["answer"] is None


def test_a_count_takes_all_in_view(client: BenchClient) -> None:
    """When a bin is counted, several labels in view are all counted."""
    came = frames(client, POST, THICK_POST, mode="count", to="D1")
    assert {one["number"] for one in came["answer"]["counted"]} == {POST, THICK_POST}


def counted(client: BenchClient, lines: str, to: str = "D1") -> str:
    """Return the page that compares a list with the record."""
    answer = client.post("/scan/count", data={"to": to, "lines": lines})
    assert answer.status_code == 200
    return answer.get_data(as_text=True)


def mark(page: str) -> str:
    """Return what tells the count that is shown."""
    found = re.search(r'name="shown" value="([0-9a-f]+)"', page)
    assert found
    return found[1]


def test_a_count_sets_the_record_right(
    client: BenchClient, snapshot: Callable[[Shop], str]
) -> None:
    """The comparison changes nothing; the yes writes off what is missing and moves what is here."""
    there = [part["number"] for part in client.shop.asked("bin", "show", "D1")["parts"]]
    lines = "\n".join([*there[1:], "2000 0140", "rubbish"])
    before = snapshot(client.shop)
    page = counted(client, lines)
    words = in_words(page)
    for told in (
        "missing",
        "misplaced",
        "recorded: bin A1",
        f"{len(there) - 1} of {len(there) + 1} items right",
    ):
        assert told in words
    assert "'rubbish' has" in words
    assert snapshot(client.shop) == before
    form = {"to": "D1", "lines": lines, "shown": mark(page)}
    assert client.post("/scan/count/write", data=form).status_code == 302
    now = {part["number"] for part in client.shop.asked("bin", "show", "D1")["parts"]}
    assert now == {*there[1:], "20000140"}


def test_what_is_missing_may_be_left(client: BenchClient) -> None:
    """With that mark nothing is written off, though nothing was seen."""
    page = counted(client, "")
    form = {"to": "D1", "lines": "", "shown": mark(page), "leave_missing": "yes"}
    client.post("/scan/count/write", data=form)
    assert len(client.shop.asked("bin", "show", "D1")["parts"]) == 19


def test_a_count_of_another_record_is_not_written(client: BenchClient) -> None:
    """If somebody took a part meanwhile, the yes is to something else: it is shown again."""
    page = counted(client, "")
    client.shop.told("part", "move", POST, "B2")
    form = {"to": "D1", "lines": "", "shown": mark(page)}
    answer = client.post("/scan/count/write", data=form)
    assert answer.status_code == 409
    assert "the record changed meanwhile" in answer.get_data(as_text=True)
    assert len(client.shop.asked("bin", "show", "D1")["parts"]) == 18


def test_a_lot_is_counted_with_its_quantity(client: BenchClient) -> None:
    """A lot that is only seen is asked for; with a quantity it is compared."""
    cables = ("brake_cable", "--bin", "B2", "--grade", "new", "--quantity", "10", "--cost", "15")
    lot = client.shop.asked("part", "add", *cables)["part"]
    assert f"add {lot}=QUANTITY" in in_words(counted(client, lot, "B2"))
    assert "7 of 10" in in_words(counted(client, f"{lot} = 7", "B2"))
    came = frames(client, lot, mode="count", to="B2")["answer"]
    assert came["counted"][0]["unit"] == "pieces"
    assert "How much of it is there" in came["html"]


def test_a_photograph_fills_the_list(client: BenchClient) -> None:
    """The labels of a photographed bin are put at the end of the list, to be looked over."""
    form = {"mode": "count", "to": "D1", "lines": "20009743"}
    sent = {**form, "picture": (io.BytesIO(picture([POST, THICK_POST])), "p.jpg")}
    page = client.post("/scan/picture", data=sent).get_data(as_text=True)
    assert f">20009743\n{POST}\n{THICK_POST}</textarea>" in page


def test_an_unsure_number_moves_nothing_here(client: BenchClient) -> None:
    """One look at a photograph is taken only for what the record has in this bin."""
    assert "seen only once" in in_words(counted(client, "20000140?"))


def test_another_bin_does_not_slip_into_a_count(client: BenchClient) -> None:
    """The label of another bin, in view by chance, does not move the count there."""
    came = frames(client, BIN_B2, mode="count", to="D1")["answer"]
    assert came["state"] == "refused"
    assert came["to"] == ""


@pytest.mark.parametrize("form", [{}, {"to": "Z9"}, {"to": "D1", "lines": "1\n" * 5001}])
def test_a_count_of_nothing_is_refused(form: dict[str, str], client: BenchClient) -> None:
    """Without a bin, with one that is not there, or with a list beyond all bins."""
    assert client.post("/scan/count", data=form).status_code in (400, 404)
