"""Who is answered at all: hosts, forged requests, sizes, paths and headers."""

from __future__ import annotations

import io
import socket
import time
import zlib
from collections.abc import Callable
from urllib.parse import urlsplit

import pytest

from labels.number import Thing, make
from tests.bench_page.conftest import LAN, BenchClient, Served
from tests.conftest import Shop

STRANGE_HOSTS = ("evil.example", "localhost.evil.example", "127.0.0.1.evil.example", "0.0.0.0", "")
PART = make(Thing.PART, 1)


@pytest.mark.parametrize("host", [*STRANGE_HOSTS, LAN])
@pytest.mark.parametrize("path", ["/scan/", "/devices/", "/static/bench.css", "/nowhere"])
def test_a_rebound_name_is_refused_on_the_laptop(client: BenchClient, host: str, path: str) -> None:
    """A page of another name that leads to this machine is told nothing, not even in a template.

    Source: the attack is described at en.wikipedia.org/wiki/DNS_rebinding.
    """
    answer = client.get(path, headers={"Host": host})
    assert (answer.status_code, answer.mimetype) == (400, "text/plain")
    assert "<" not in answer.get_data(as_text=True)


@pytest.mark.parametrize("host", [*STRANGE_HOSTS, "localhost", f"{LAN}.evil.example"])
def test_a_rebound_name_is_refused_in_the_network(client: BenchClient, host: str) -> None:
    """A device of the network is answered only under the laptop's own names."""
    phone = client.device("192.168.7.20")
    answer = phone.get("/pair", headers={"Host": host})
    # From the network "localhost" is a name of ours too: it opens only what is open to all.
    assert answer.status_code == (200 if host == "localhost" else 400)
    assert phone.get("/scan/", headers={"Host": host}).status_code in (302, 400)


CHANGES = {
    "undo": ("/undo", {}),
    "a number that acts": ("/scan/number", {"mode": "into", "to": "B2", "number": "20000140"}),
    "a count": ("/scan/count/write", {"to": "A1", "lines": "", "shown": ""}),
    "a pairing code": ("/devices/code", {}),
}


@pytest.mark.parametrize("token", ["", "x", "forged.token.here"])
@pytest.mark.parametrize("name", CHANGES)
def test_without_the_token_nothing_changes(
    name: str, token: str, client: BenchClient, snapshot: Callable[[Shop], str]
) -> None:
    """A form that another site sends in the user's name lacks the token and does nothing."""
    path, form = CHANGES[name]
    before = snapshot(client.shop)
    client.learn_token()
    answer = client.post(path, data=form, headers={"X-CSRFToken": token})
    assert answer.status_code == 400
    assert snapshot(client.shop) == before


def test_a_token_of_another_browser_does_not_hold(client: BenchClient) -> None:
    """A token is bound to the cookie of the browser that got it."""
    other = client.device("127.0.0.1")
    other.origin = "http://localhost"
    other.learn_token()
    token = client.learn_token()
    form = {"mode": "look", "number": "20000140"}
    assert other.post("/scan/number", data=form, headers={"X-CSRFToken": token}).status_code == 400
    assert other.post("/scan/number", data=form).status_code == 200


def test_a_huge_upload_is_refused_at_its_first_bytes(served: Served) -> None:
    """100 MB are refused by what the request says of itself, before they are sent."""
    where = urlsplit(served.url)
    head = (
        f"POST /scan/picture HTTP/1.1\r\nHost: {where.netloc}\r\n"
        "Content-Type: multipart/form-data; boundary=x\r\nContent-Length: 100000000\r\n\r\n"
    )
    with socket.create_connection(("127.0.0.1", where.port or 0), timeout=20) as line:
        line.sendall(head.encode() + b"--x\r\n")
        assert b" 413 " in line.recv(4096).splitlines()[0]


def test_a_huge_upload_in_pieces_is_refused_too(served: Served) -> None:
    """Of an upload that does not say how large it is no more is taken than a picture may have."""
    where = urlsplit(served.url)
    piece = b"100000\r\n" + bytes(0x100000) + b"\r\n"
    head = f"POST /scan/picture HTTP/1.1\r\nHost: {where.netloc}\r\nTransfer-Encoding: chunked\r\n"
    sent, answer = 0, b""
    with socket.create_connection(("127.0.0.1", where.port or 0), timeout=20) as line:
        line.sendall(head.encode() + b"\r\n")
        for _ in range(100):
            try:
                line.sendall(piece)
            except OSError:
                break
            sent += 1
        try:
            answer = line.recv(4096)
        except ConnectionError:
            answer = b""
    assert sent < 100 or b" 413 " in answer.splitlines()[0]


def bomb(side: int) -> bytes:
    """Return a PNG of a few kilobytes that unpacks to `side` times `side` pixels."""

    def chunk(kind: bytes, held: bytes) -> bytes:
        sealed = kind + held
        return len(held).to_bytes(4, "big") + sealed + zlib.crc32(sealed).to_bytes(4, "big")

    sides = side.to_bytes(4, "big") * 2
    row = bytes(1 + side // 8)
    packer = zlib.compressobj(9)
    rows = b"".join(packer.compress(row) for _ in range(side)) + packer.flush()
    head = chunk(b"IHDR", sides + bytes((1, 0, 0, 0, 0)))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


@pytest.mark.parametrize("path", ["picture", "frame"])
def test_a_decompression_bomb_is_refused_packed(path: str, client: BenchClient) -> None:
    """A small file that claims 400 megapixels is refused by its head, not after unpacking.

    Source: the attack is described at en.wikipedia.org/wiki/Zip_bomb.
    """
    sent = bomb(20_000)
    assert len(sent) < 100_000
    client.learn_token()
    start = time.process_time()
    if path == "frame":
        answer = client.post("/scan/frame", data=sent, content_type="image/jpeg")
    else:
        form = {"mode": "look", "picture": (io.BytesIO(sent), "p.png")}
        answer = client.post("/scan/picture", data=form)
    assert answer.status_code in (400, 409)
    assert "megapixels" in answer.get_data(as_text=True)
    # Unpacking 400 million pixels takes some seconds of work; this is no bar of speed.
    assert time.process_time() - start < 2


def test_a_frame_is_small(client: BenchClient) -> None:
    """What is sent as a frame is refused above two megabytes, far below what a photograph may."""
    answer = client.post("/scan/frame", data=bytes(2_000_001), content_type="image/jpeg")
    assert answer.status_code == 413


TRAVERSALS = (
    "/static/../app.py",
    "/static/%2e%2e/app.py",
    "/static/..%2fapp.py",
    "/static//etc/passwd",
    "/static/%5c..%5capp.py",
    "/photos/../../etc/passwd",
    "/photos/" + "a" * 63 + "/",
    "/photos/" + "a" * 64,
    "/photos/" + "A" * 64 + "/small",
    "/photos/..%2f..%2fworkshop.db",
    "/photos/..%2f..%2fworkshop.db/small",
    "/n/20000141",
    "/n/..%2f20000140",
    "/n/" + "2" * 4000,
    "/stock/parts/20000140%00/",
    "/stock/bins/20000140/",
    "/bikes/20000140/",
    "/bikes/30000161/slots/..%2f..%2fetc",
    "/bikes/30000161/slots/%00",
    "/stock/add/../../app.py",
    "/stock/add/_private",
)


@pytest.mark.parametrize("path", TRAVERSALS)
def test_a_path_reaches_only_what_is_in_the_record(path: str, client: BenchClient) -> None:
    """No name in an address is a file's, and one that is not in the record is not found."""
    answer = client.get(path, follow_redirects=True)
    told = answer.get_data(as_text=True)
    assert answer.status_code in (400, 404, 409), told
    assert "Traceback" not in told
    assert "import annotations" not in told
    assert "root:" not in told


@pytest.mark.parametrize("path", ["/scan/", "/nowhere", "/static/bench.css", "/pair"])
def test_every_answer_says_what_it_may_do(path: str, client: BenchClient) -> None:
    """No answer may load from elsewhere, run scripts in it, be framed, or be taken for another.

    Source: developer.mozilla.org, Content-Security-Policy.
    """
    with client.get(path) as answer:
        headers = answer.headers
    policy = headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert "Server" not in headers or "Werkzeug" not in headers["Server"]


def test_what_the_record_shows_is_kept_by_no_browser(client: BenchClient) -> None:
    """After a phone is no longer paired its browser has no page to show again."""
    assert client.get("/scan/").headers["Cache-Control"] == "no-store"


def test_a_fault_of_ours_shows_no_insides(
    client: BenchClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """If the page itself fails it says so in a sentence; what failed stands in the terminal."""
    monkeypatch.setattr("partsbin.bench.rooms.scan.scanner", lambda _: 1 / 0)
    answer = client.get("/scan/")
    told = answer.get_data(as_text=True)
    assert answer.status_code == 500
    assert "nothing was changed" in told
    assert "ZeroDivision" not in told
    assert "Traceback" not in told
