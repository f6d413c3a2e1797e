"""`mouldbook serve --lan` as it runs: real sockets and real certificates."""

from __future__ import annotations

import json
import os
import re
import signal
import ssl
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from itertools import takewhile
from pathlib import Path

import httpx
import pytest
import uvicorn
import zxingcpp
from PIL import Image
from websockets.exceptions import InvalidStatus
from websockets.sync.client import connect

from api.callers import COOKIE
from journal.cli import lan
from journal.lan.addresses import Place, place
from journal.lan.authority import Authority
from journal.settings import Settings
from tests.ports import reserved_ports

WAIT_S = 120.0  # the machine loads what it hears with at its start, and others are busy too
get = partial(httpx.get, timeout=WAIT_S)
join = partial(connect, open_timeout=WAIT_S)
pytestmark = pytest.mark.skipif(not place().addresses, reason="this machine is on no network")


@dataclass(frozen=True)
class Machine:
    """A running `mouldbook serve --lan`: its process, its ports, its data folder, and what it printed."""

    process: subprocess.Popen[str]
    here: str
    lan: str
    trust: str
    folder: Path
    printed: list[str]

    @property
    def trusting(self) -> httpx.Client:
        """A client that trusts the authority that this machine hands out."""
        der = get(f"{self.trust}/ca.crt").content
        context = ssl.create_default_context(cadata=der)
        return httpx.Client(base_url=self.lan, verify=context, timeout=WAIT_S)

    @property
    def code(self) -> str:
        """The code that it printed."""
        return re.findall(r"/pair\?code=(\S+)", "".join(self.printed))[-1]


@dataclass(frozen=True)
class OtherHost:
    """A network namespace with a wire to this machine: as separate from it as another computer."""

    name: str
    machine: str

    def run(self, script: str, *words: str) -> str:
        """Run Python there and return what it prints."""
        command = ["ip", "netns", "exec", self.name, sys.executable, "-c", script, *words]
        return subprocess.run(command, capture_output=True, text=True, check=True, timeout=2 * WAIT_S).stdout


@pytest.fixture(scope="module")
def other_host() -> Iterator[OtherHost | None]:
    """Another host on a network of ours, or None where none can be made (not root, no namespaces)."""
    name, near, far = f"phone{os.getpid()}", f"mb{os.getpid()}a"[-15:], f"mb{os.getpid()}b"[-15:]
    third, fourth = divmod(os.getpid() % 2**14, 64)  # a network of its own for each process that runs tests
    here, there = (f"10.213.{third}.{4 * fourth + end}" for end in (1, 2))
    steps = (
        f"ip netns add {name}",
        f"ip link add {near} type veth peer name {far} netns {name}",
        f"ip address add {here}/30 dev {near}",
        f"ip link set {near} up",
        f"ip netns exec {name} ip address add {there}/30 dev {far}",
        f"ip netns exec {name} ip link set {far} up",
    )
    try:
        for step in steps:
            subprocess.run(step.split(), check=True, capture_output=True)
        yield OtherHost(name, here)
    except (OSError, subprocess.CalledProcessError):
        yield None
    finally:
        for step in (f"ip link delete {near}", f"ip netns delete {name}"):
            with suppress(OSError):
                subprocess.run(step.split(), check=False, capture_output=True)


@pytest.fixture(scope="module")
def machine(tmp_path_factory: pytest.TempPathFactory, other_host: OtherHost | None) -> Iterator[Machine]:
    with reserved_ports(3) as ports:
        yield from serve(tmp_path_factory.mktemp("machine"), ports)


def serve(folder: Path, ports: list[int]) -> Iterator[Machine]:
    names = ("PORT", "LAN_PORT", "TRUST_PORT")
    environment = os.environ | {f"MOULDBOOK_{name}": str(port) for name, port in zip(names, ports, strict=True)}
    environment |= {"MOULDBOOK_DATA_DIR": str(folder), "PYTHONUNBUFFERED": "1"}
    process = subprocess.Popen(
        [sys.executable, "-c", "from journal.cli.app import main; main()", "serve", "--lan"],
        env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert process.stdout is not None
    printed: list[str] = []
    reading = threading.Thread(target=lambda out: printed.extend(out), args=(process.stdout,), daemon=True)
    reading.start()
    best = place().best
    running = Machine(
        process,
        f"http://127.0.0.1:{ports[0]}",
        f"https://{best}:{ports[1]}",
        f"http://{best}:{ports[2]}",
        folder,
        printed,
    )
    try:
        until = time.monotonic() + 180
        while not any("Another code" in line for line in printed):
            assert process.poll() is None, process.stderr and process.stderr.read()
            assert time.monotonic() < until
            time.sleep(0.1)
        yield running
        process.send_signal(signal.SIGTERM)
        assert process.wait(120) == 0
        assert process.stderr is not None
        assert process.stderr.read() == ""
    finally:
        process.kill()
        process.wait()
        reading.join()
        for pipe in (process.stdout, process.stderr):
            if pipe is not None:
                pipe.close()


def test_who_does_not_trust_the_authority_gets_no_answer(machine: Machine) -> None:
    with pytest.raises(httpx.ConnectError, match="certificate verify failed"):
        get(f"{machine.lan}/pair")


def test_who_trusts_it_is_asked_to_pair(machine: Machine) -> None:
    with machine.trusting as client:
        assert client.get("/moulds").status_code == 401
        assert client.get("/pair").status_code == 200


def test_the_machine_itself_stays_as_it_was(machine: Machine) -> None:
    assert get(f"{machine.here}/moulds").status_code == 200
    port = machine.here.rsplit(":", 1)[1]
    with pytest.raises(httpx.ConnectError):
        get(f"http://{place().best}:{port}/moulds")


def test_the_page_of_the_certificate_says_its_fingerprint_and_where_to_pair(machine: Machine) -> None:
    page = get(f"{machine.trust}/").text
    printed = "".join(line.strip() for line in machine.printed)
    fingerprint = re.search(r"(?:[0-9A-F]{2}:){31}[0-9A-F]{2}", page)
    assert fingerprint is not None
    assert fingerprint[0].replace(":", "") in printed.replace(":", "")
    assert f'href="{machine.lan}/pair"' in page
    download = get(f"{machine.trust}/ca.crt")
    assert download.headers["content-type"] == "application/x-x509-ca-cert"
    assert get(f"{machine.trust}/moulds").status_code == 404
    assert get(f"{machine.trust}/static/style.css").status_code == 200


def test_the_printed_code_pairs_once_and_the_command_revokes(machine: Machine) -> None:
    with machine.trusting as client:
        answer = client.post("/pair", data={"code": machine.code, "name": "bench phone"})
        assert answer.status_code == 303
        assert client.get("/moulds").status_code == 200
        assert client.post("/api/devices", json={"code": machine.code, "name": "other"}).status_code == 403
        environment = os.environ | {"MOULDBOOK_DATA_DIR": str(machine.folder)}
        command = [sys.executable, "-c", "from journal.cli.app import main; main()", "devices"]
        listed = subprocess.run(command, env=environment, capture_output=True, text=True, check=True).stdout
        assert "bench phone" in listed
        subprocess.run([*command, "--revoke", "bench phone"], env=environment, capture_output=True, check=True)
        assert client.get("/moulds").status_code == 401
        renamed = subprocess.run(
            [*command, "--rename", "bench phone", "old phone", "--json", "--pair"],
            env=environment, capture_output=True, text=True, check=True,
        ).stdout  # fmt: skip
        (old,) = [each for each in json.loads(renamed.splitlines()[0]) if each["name"] == "old phone"]
        assert old["revoked_at"]
        code = re.findall(r"/pair\?code=(\S+)", renamed)[-1]
        assert client.post("/api/devices", json={"code": code, "name": "bench phone"}).status_code == 201
        unknown = subprocess.run([*command, "--revoke", "no phone"], env=environment, capture_output=True, text=True)
        assert unknown.returncode == 1
        assert "there is no device 'no phone'" in unknown.stderr


FROM_THERE = """
import httpx, ssl, sys
trust, lan = sys.argv[1:3]
context = ssl.create_default_context(cadata=httpx.get(f"{trust}/ca.crt", timeout=120).content)
client = httpx.Client(base_url=lan, verify=context, timeout=120)
print(client.get("/moulds").status_code)
if len(sys.argv) > 3:
    said = {"code": sys.argv[3], "name": "phone of another host"}
    bearer = {"authorization": "Bearer " + client.post("/api/devices", json=said).json()["token"]}
    print(client.get("/moulds", headers=bearer).status_code)
"""


def test_another_host_of_the_network_is_let_in_when_it_is_paired(
    machine: Machine, other_host: OtherHost | None
) -> None:
    if other_host is None:
        pytest.skip("no network namespace can be made here: needs root")
    code = httpx.post(f"{machine.here}/api/devices/pairings", timeout=WAIT_S).json()["code"]
    ports = [address.rsplit(":", 1)[1] for address in (machine.trust, machine.lan)]
    trust, page = f"http://{other_host.machine}:{ports[0]}", f"https://{other_host.machine}:{ports[1]}"
    assert other_host.run(FROM_THERE, trust, page).split() == ["401"]
    assert other_host.run(FROM_THERE, trust, page, code).split() == ["401", "200"]


def test_the_printed_picture_leads_where_the_words_say(machine: Machine) -> None:
    text = "".join(machine.printed)
    for address in (f"{machine.trust}/", f"{machine.lan}/pair?code={machine.code}"):
        rows = text[: text.index(f"\n{address}")].rstrip("\n").splitlines()
        picture = list(takewhile(lambda row: set(row.strip("\n")) <= set("█▀▄ "), reversed(rows)))[::-1]
        (read,) = zxingcpp.read_barcodes(_drawn(picture))
        assert read.text == address


def _drawn(rows: list[str]) -> Image.Image:
    """Draw half-height blocks as a terminal with light letters on a dark ground does."""
    wide = max(map(len, rows))
    image = Image.new("L", (wide * 4, len(rows) * 8), 0)
    for y, row in enumerate(rows):
        for x, block in enumerate(row):
            for half, full in enumerate(("█▀", "█▄")):
                if block in full:
                    image.paste(255, (x * 4, y * 8 + half * 4, x * 4 + 4, y * 8 + half * 4 + 4))
    return image


def test_the_open_microphone_is_there_for_paired_devices_only(machine: Machine) -> None:
    with httpx.Client(base_url=machine.here, timeout=WAIT_S) as here:
        here.post("/api/moulds", json={"name": "Paw"})
        build = here.post("/api/builds", json={"mould": "paw"}).json()["key"]
        code = here.post("/api/devices/pairings").json()["code"]
    with machine.trusting as client:
        token = client.post("/api/devices", json={"code": code, "name": "open microphone"}).json()["token"]
    trusted = ssl.create_default_context(cadata=get(f"{machine.trust}/ca.crt").content)
    address = f"wss{machine.lan[5:]}/api/builds/{build}/live"
    cookie = {"Cookie": f"{COOKIE}={token}"}
    with join(address, ssl=trusted, origin=machine.lan, additional_headers=cookie) as socket:
        assert json.loads(socket.recv(timeout=WAIT_S)) == {"kind": "ready"}
    for origin, headers in ((machine.lan, {}), ("https://elsewhere.example", cookie)):
        with pytest.raises(InvalidStatus), join(address, ssl=trusted, origin=origin, additional_headers=headers):
            pass


def test_a_fingerprint_is_printed_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    settings = Settings(data_dir=tmp_path)
    now = lan.posture(settings)

    class Spelt(Authority):
        fingerprint = ":".join(["AB", "CD", "0A", "1B"] * 8)

    spelt = Spelt(tmp_path, now.authority._key, now.authority.certificate)
    lan.say_welcome(settings, lan.Posture(now.place, spelt, now.certified))
    assert ":".join(["AB", "CD", "0A", "1B"] * 4) in capsys.readouterr().out


def test_a_port_that_is_taken_is_told_with_the_setting_to_change(machine: Machine) -> None:
    taken = machine.lan.rsplit(":", 1)[1]
    with pytest.raises(lan.LanError, match=r"not free .* MOULDBOOK_LAN_PORT"):
        lan._listen("0.0.0.0", int(taken), "MOULDBOOK_LAN_PORT")


def test_the_certificate_follows_the_machine_to_another_address(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settings = Settings(data_dir=tmp_path)
    now = lan.posture(settings)
    files = {"ssl_certfile": now.certified.chain, "ssl_keyfile": now.certified.key}
    config = uvicorn.Config("none:app", **files)
    config.load_app = lambda: None  # type: ignore[method-assign]
    config.ssl = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    assert lan.renewed(settings, now, config) == now
    moved = Place(("elsewhere.local",), now.place.addresses, now.place.networks)
    monkeypatch.setattr(lan, "place", lambda names: moved)
    after = lan.renewed(settings, now, config)
    assert after.place == moved
    assert _served(config.ssl, now.authority.der, "elsewhere.local")


def _served(server: ssl.SSLContext, authority: bytes, name: str) -> bool:
    """Shake hands in memory, as a client that trusts the authority and asks for this name."""
    client = ssl.create_default_context(cadata=authority)
    up, down = ssl.MemoryBIO(), ssl.MemoryBIO()
    asking = client.wrap_bio(down, up, server_hostname=name)
    answering = server.wrap_bio(up, down, server_side=True)
    ends = [asking, answering]
    for _ in range(10):
        for end in list(ends):
            try:
                end.do_handshake()
                ends.remove(end)
            except ssl.SSLWantReadError:
                continue
    return not ends
