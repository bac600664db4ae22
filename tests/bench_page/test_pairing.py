"""Phones pair once with a code of the laptop; until then, and after it is taken back, no page."""

from __future__ import annotations

import json
import stat
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from partsbin.bench.devices import CODE_LIFE, WRONG_CODES, WRONG_FROM_ONE, Devices, NotPairedError
from partsbin.bench.server import serving
from partsbin.cli.main import main
from partsbin.errors import PartsbinError
from tests.bench_page.conftest import BenchClient
from tests.conftest import Shop

PHONE_AT = "192.168.7.20"
INTO_B2 = {"mode": "into", "to": "B2", "number": "20000140"}


def paired(client: BenchClient, name: str = "Bea", address: str = PHONE_AT) -> BenchClient:
    """Return a phone that is paired under a name."""
    phone = client.device(address)
    code = client.held.devices.open_code().digits
    phone.learn_token()
    answer = phone.post("/pair", data={"code": code, "name": name})
    assert answer.status_code == 302
    phone.token = ""  # pairing gave it a new cookie
    return phone


def test_a_strange_device_reaches_nothing(
    client: BenchClient, snapshot: Callable[[Shop], str]
) -> None:
    """Before it is paired a device gets no page but the one to pair, and changes nothing."""
    phone = client.device(PHONE_AT)
    phone.learn_token()
    before = snapshot(client.shop)
    for rule in client.application.url_map.iter_rules():
        if rule.endpoint in ("static", "devices.pair", "devices.paired"):
            continue
        path = rule.rule
        for argument in rule.arguments:
            path = path.replace(f"<label:{argument}>", "20000140").replace(f"<{argument}>", "x")
        for method in (rule.methods or set()) & {"GET", "POST"}:
            answer = phone.open(path, method=method)
            assert answer.status_code in (302, 401, 404), (path, method)
            if answer.status_code == 302:
                assert answer.headers["Location"] == "/pair"
    assert snapshot(client.shop) == before


def test_a_paired_device_works_under_its_name(client: BenchClient) -> None:
    """What the phone does stands in the history under the name of who holds it."""
    phone = paired(client, "Bea Tansy")
    assert phone.post("/scan/number", data=INTO_B2).status_code == 302
    last = client.shop.asked("history", "20000140")
    assert "Bea Tansy" in json.dumps(last)


def test_undo_takes_back_only_ones_own(client: BenchClient) -> None:
    """The phone takes back what the phone did, though the laptop worked since."""
    phone = paired(client)
    phone.post("/scan/number", data=INTO_B2)
    client.post("/scan/number", data=INTO_B2 | {"number": "20009743"})
    told = phone.post("/undo", headers={"Accept": "application/json"}).get_json()
    assert told["done"].startswith("taken back")
    places = {n: client.shop.asked("part", "show", n)["places"] for n in ("20000140", "20009743")}
    assert [places[n][0]["place"] for n in places] == ["bin A1", "bin B2"]


def test_the_cookie_is_kept_from_scripts_and_other_sites(client: BenchClient) -> None:
    """Scripts cannot read the cookie and other sites cannot use it; it outlives the browser."""
    phone = client.device(PHONE_AT)
    code = client.held.devices.open_code().digits
    phone.learn_token()
    cookie = phone.post("/pair", data={"code": code, "name": "Bea"}).headers["Set-Cookie"]
    for word in ("HttpOnly", "SameSite=Strict", "Expires="):
        assert word in cookie


def test_pairing_gives_a_new_cookie(client: BenchClient) -> None:
    """A token from before the pairing holds no more, so nobody can have planted it."""
    phone = client.device(PHONE_AT)
    code = client.held.devices.open_code().digits
    before = phone.learn_token()
    phone.post("/pair", data={"code": code, "name": "Bea"})
    stale = phone.post("/scan/number", data=INTO_B2, headers={"X-CSRFToken": before})
    assert stale.status_code == 400


def test_a_code_is_for_one_device(client: BenchClient) -> None:
    """A second device cannot pair with a code that was used."""
    code = client.held.devices.open_code().digits
    answers = []
    for address in (PHONE_AT, "192.168.7.21"):
        phone = client.device(address)
        phone.learn_token()
        answers.append(phone.post("/pair", data={"code": code, "name": "Bea"}).status_code)
    assert answers == [302, 403]


def test_a_code_ends(tmp_path: Path) -> None:
    """After ten minutes a code holds no more."""
    devices = Devices(tmp_path / "devices.json")
    code = devices.open_code(now=1000)
    with pytest.raises(NotPairedError, match="no pairing code is open"):
        devices.pair(code.digits, "Bea", now=1001 + CODE_LIFE)
    assert devices.pair(devices.open_code(now=1000).digits, "Bea", now=1000 + CODE_LIFE)


def wrong(code: str) -> str:
    """Return another code than this one."""
    return f"{(int(code) + 1) % 10**6:06}"


def test_wrong_codes_are_counted_by_address(tmp_path: Path) -> None:
    """An address that guesses is heard no more, though it hits at last; another one still pairs."""
    devices = Devices(tmp_path / "devices.json")
    code = devices.open_code().digits
    for _ in range(WRONG_FROM_ONE):
        with pytest.raises(NotPairedError, match="not the code"):
            devices.pair(wrong(code), "Mallory", "192.168.7.66")
    with pytest.raises(NotPairedError, match="too many"):
        devices.pair(code, "Mallory", "192.168.7.66")
    assert devices.pair(code, "Bea", PHONE_AT)[0].name == "Bea"


def test_a_code_that_many_guess_at_is_taken_back(tmp_path: Path) -> None:
    """Ten guesses at a million codes, from wherever, are all there are."""
    devices = Devices(tmp_path / "devices.json")
    code = devices.open_code().digits
    for guess in range(WRONG_CODES):
        with pytest.raises(NotPairedError):
            devices.pair(wrong(code), "Mallory", f"192.168.7.{guess}")
    with pytest.raises(NotPairedError, match="no pairing code is open"):
        devices.pair(code, "Bea", PHONE_AT)


def test_a_device_that_is_removed_is_out_at_once(client: BenchClient) -> None:
    """The next request of a phone that the laptop removed leads to the pairing page."""
    phone = paired(client)
    assert phone.get("/scan/").status_code == 200
    device = client.held.devices.all()[0]
    assert client.post(f"/devices/{device.id}/revoke").status_code == 302
    assert phone.get("/scan/").headers["Location"] == "/pair"
    assert phone.post("/scan/number", data=INTO_B2, headers={"X-CSRFToken": "x"}).status_code == 401


def test_only_the_laptop_lets_in_and_removes_others(client: BenchClient) -> None:
    """A phone opens no code and removes no other phone, only itself."""
    phone, other = paired(client), paired(client, "Cai", "192.168.7.21")
    assert phone.post("/devices/code").status_code == 403
    theirs, own = client.held.devices.all()
    if own.name != "Bea":
        theirs, own = own, theirs
    assert phone.post(f"/devices/{theirs.id}/revoke").status_code == 403
    assert other.get("/scan/").status_code == 200
    phone.post(f"/devices/{own.id}/revoke")
    assert [device.name for device in client.held.devices.all()] == ["Cai"]


def test_a_link_alone_pairs_nothing(client: BenchClient) -> None:
    """Opening the scanned link only fills the code in: pairing takes a press and a name."""
    code = client.held.devices.open_code().digits
    phone = client.device(PHONE_AT)
    assert f'value="{code}"' in phone.read(f"/pair?code={code}")
    assert client.held.devices.all() == []


def test_devices_stay_paired_and_secrets_stay_secret(tmp_path: Path) -> None:
    """A restart keeps devices; the file is its owner's alone and holds no device's secret."""
    file = tmp_path / "state" / "devices.json"
    first = Devices(file)
    device, secret = first.pair(first.open_code().digits, "  Bea   Tansy " + "x" * 99)
    assert device.name == ("Bea Tansy " + "x" * 99)[:40]
    assert Devices(file).known(secret) == device
    assert Devices(file).secret_key == first.secret_key
    assert secret not in file.read_text()
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


@pytest.mark.parametrize("held", ["", "{", "[]", '{"secret_key": "x"}', '{"devices": [1]}'])
def test_a_damaged_file_is_told(tmp_path: Path, held: str) -> None:
    """A file of devices that cannot be read is named, with what to do."""
    file = tmp_path / "devices.json"
    file.write_text(held)
    with pytest.raises(PartsbinError, match=r"devices\.json cannot be read.*remove it"):
        Devices(file)


def test_the_terminal_shows_how_to_pair(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """`bench --lan` shows the addresses, a code, and the code's link as a QR of blocks."""
    monkeypatch.setenv("XDG_STATE_HOME", str(shop.database.parent))
    monkeypatch.setattr("waitress.server.TcpWSGIServer.run", lambda _: None)
    monkeypatch.setattr("partsbin.bench.server._names_here", lambda: ["192.168.7.5"])
    done = CliRunner().invoke(main, ["--db", shop.address, "bench", "--port", "0", "--lan"])
    assert done.exit_code == 0, done.output
    assert "http://localhost:" in done.stdout
    assert "http://192.168.7.5:" in done.stdout
    assert "\N{UPPER HALF BLOCK}" in done.stderr
    assert "type " in done.stderr


def test_scripts_are_told_the_address(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """With --json the address is JSON, and without --lan the only one."""
    monkeypatch.setenv("XDG_STATE_HOME", str(shop.database.parent))
    monkeypatch.setattr("waitress.server.TcpWSGIServer.run", lambda _: None)
    done = CliRunner().invoke(main, ["--db", shop.address, "bench", "--port", "0", "--json"])
    told = json.loads(done.stdout)
    assert told["here"].startswith("http://localhost:")
    assert told["lan"] == []


def test_without_lan_nobody_else_is_answered(shop: Shop, tmp_path: Path) -> None:
    """Alone the page listens on the loopback address and shows no code."""
    from partsbin.stock.database import open_database

    with (
        open_database(shop.address, "ada") as database,
        serving(database, 0, tmp_path / "d.json") as (server, held),
    ):
        assert server.effective_host == "127.0.0.1"
        assert held.addresses == []
        server.task_dispatcher.shutdown()


def test_a_port_that_is_taken_is_told(shop: Shop, tmp_path: Path) -> None:
    """A second page on the same port is refused with what to do."""
    from partsbin.stock.database import open_database

    file = tmp_path / "d.json"
    with (
        open_database(shop.address, "ada") as database,
        serving(database, 0, file) as (server, _),
    ):
        port = int(server.effective_port)
        with (
            pytest.raises(PartsbinError, match=r"cannot be used.*choose another with --port"),
            serving(database, port, file),
        ):
            pass
        server.task_dispatcher.shutdown()
