"""Photos on the page: written anew before they are kept, served by digest only, taken away."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest
from PIL import Image

from tests.bench_page.conftest import BenchClient

TEASEL, PART = "30000355", "20000140"
HIDDEN = b"a place that nobody should read"


def picture(size: tuple[int, int] = (300, 200), *, turned: int = 1, form: str = "JPEG") -> bytes:
    """Return a picture with a hidden note; `turned` is its EXIF orientation."""
    written = io.BytesIO()
    exif = Image.Exif()
    exif[0x0112] = turned
    exif[0x010E] = HIDDEN.decode()
    Image.new("RGB", size, (30, 90, 120)).save(written, form, exif=exif)
    return written.getvalue()


def sent(client: BenchClient, *pictures: bytes, number: str = TEASEL, name: str = "a.jpg") -> int:
    """Send pictures and return the status of the answer."""
    files = [(io.BytesIO(content), name) for content in pictures]
    data = {"picture": files, "note": "left side"}
    return client.post(f"/photos/of/{number}", data=data).status_code


def digests(client: BenchClient, number: str = TEASEL) -> list[str]:
    """Return the names of a thing's photos."""
    return [one["photo"] for one in client.shop.asked("photo", "list", number)]


@pytest.mark.parametrize("number", [TEASEL, PART], ids=["bike", "part"])
def test_kept_and_served(client: BenchClient, number: str) -> None:
    """A photo is kept, shown on its page in small, and served as JPEG by its digest."""
    assert sent(client, picture(), number=number) == 302
    (digest,) = digests(client, number)
    assert f"/photos/{digest}/small" in client.read(f"/photos/of/{number}")
    for path, longest in ((f"/photos/{digest}", 300), (f"/photos/{digest}/small", 300)):
        answer = client.get(path)
        assert (answer.status_code, answer.mimetype) == (200, "image/jpeg")
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert "private" in answer.headers["Cache-Control"]
        assert max(Image.open(io.BytesIO(answer.data)).size) <= longest


def test_nothing_is_kept_as_sent(client: BenchClient) -> None:
    """Orientation is applied and the camera's notes are gone, from every file in the folder.

    Source: EXIF 2.32, tag 0x0112: 6 means that the picture is to be turned by 90 degrees.
    """
    assert sent(client, picture(turned=6)) == 302
    (digest,) = digests(client)
    served = Image.open(io.BytesIO(client.get(f"/photos/{digest}").data))
    assert served.size == (200, 300)
    assert not served.getexif()
    folder = Path(f"{client.shop.database}-photos")
    files = [file.read_bytes() for file in folder.rglob("*") if file.is_file()]
    assert len(files) == 2
    assert not any(HIDDEN in content for content in files)


@pytest.mark.parametrize(
    ("content", "name"),
    [
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", "a.svg"),
        (b"<html><script>alert(1)</script></html>", "a.jpg"),
        (picture()[:200], "a.jpg"),
        (b"", "a.jpg"),
        (b"%PDF-1.4 nothing", "../../etc/passwd"),
    ],
    ids=["svg", "html", "cut off", "empty", "pdf"],
)
def test_what_is_no_picture(client: BenchClient, content: bytes, name: str) -> None:
    """What is no whole picture is refused, with its name but no path, and nothing is kept."""
    assert sent(client, picture(), content, name=name) == 422
    assert digests(client) == []
    assert not Path(f"{client.shop.database}-photos").exists()


def test_a_bomb(client: BenchClient) -> None:
    """A small file of very many pixels is refused before it is unpacked."""
    written = io.BytesIO()
    Image.new("1", (20_000, 20_000)).save(written, "PNG")
    assert len(written.getvalue()) < 100_000
    assert sent(client, written.getvalue()) == 422
    assert digests(client) == []


def test_too_many(client: BenchClient) -> None:
    """More pictures than are taken at once are refused, and so is none."""
    assert sent(client, *[picture((8, 8))] * 13) == 422
    assert sent(client) == 422
    assert digests(client) == []


@pytest.mark.parametrize(
    "name",
    [
        "0" * 64,
        "..%2F..%2Fetc%2Fpasswd",
        "%2e%2e",
        "A" * 64,
        "0" * 63,
        "thumbnails",
        "0" * 64 + "%0a",
    ],
)
def test_only_known_digests(client: BenchClient, name: str) -> None:
    """What is not the digest of a photo in the record is not there, whatever it looks like."""
    assert client.get(f"/photos/{name}").status_code == 404
    assert client.get(f"/photos/{name}/small").status_code == 404


def test_taken_away(client: BenchClient) -> None:
    """A photo that is taken away is neither listed nor served, and a wrong name is refused."""
    sent(client, picture((60, 40)), picture((40, 60)))
    first, second = digests(client)
    assert client.post(f"/photos/of/{TEASEL}/remove", data={"photo": "abc"}).status_code == 400
    client.post(f"/photos/of/{TEASEL}/remove", data={"photo": first})
    assert digests(client) == [second]
    assert client.get(f"/photos/{first}").status_code == 404
    page = client.read(f"/bikes/{TEASEL}/")
    assert re.findall(r'src="/photos/([0-9a-f]{64})/small"', page) == [second]


def test_a_bin_has_none(client: BenchClient) -> None:
    """A bin has no photos, and says so."""
    assert client.get("/photos/of/10000119").status_code == 400
    assert sent(client, picture(), number="10000119") >= 400
