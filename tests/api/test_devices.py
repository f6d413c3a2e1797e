"""Devices of the shop's network: let in with a code, known by a token, refused without."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable

import pytest
from fastapi import FastAPI, WebSocket, WebSocketDisconnect
from fastapi.testclient import TestClient

from api import access
from api.callers import COOKIE
from api.problems import Problem
from api.routes.devices import Tries
from journal.settings import Settings
from journal.shop import Shop
from tests.api.workshop import Workshop, picture, tone

LAN = "https://192.168.1.20:8491"
PHONE = ("192.168.1.77", 50000)
NewPhone = Callable[[], TestClient]


@pytest.fixture
def settings(settings: Settings) -> Settings:
    return settings.model_copy(update={"lan_names": "mould-shop.lan"})


@pytest.fixture
def new_phone(app: FastAPI, client: TestClient) -> NewPhone:
    """Return a function that gives a browser of another device; the app runs already."""
    return lambda: TestClient(app, base_url=LAN, client=PHONE, raise_server_exceptions=False)


@pytest.fixture
def phone(new_phone: NewPhone) -> TestClient:
    return new_phone()


@pytest.fixture
def code(client: TestClient) -> str:
    return str(client.post("/api/devices/pairings").json()["code"])


@pytest.fixture
def paired(phone: TestClient, code: str) -> TestClient:
    answer = phone.post("/pair", data={"code": code, "name": "bench phone"}, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/moulds")
    return phone


def test_a_device_without_a_token_sees_nothing_of_the_shop(phone: TestClient, workshop: Workshop) -> None:
    for path in ("/", "/moulds", "/api/moulds", "/api/openapi.json", "/devices", "/api/devices", "/api/photos/1/thumb"):
        answer = phone.get(path, follow_redirects=False)
        assert answer.status_code == 401, path
        assert "Niche" not in answer.text
    assert phone.post("/api/moulds", json={"name": "Paw"}).status_code == 401
    assert "/pair" in phone.get("/moulds").text


@pytest.mark.parametrize(
    "path", ["/pair", "/queue", "/away", "/service-worker.js", "/static/send.js", "/static/style.css"]
)
def test_the_shell_opens_without_a_token(phone: TestClient, path: str) -> None:
    assert phone.get(path).status_code == 200


@pytest.mark.parametrize(
    "path", ["/static/../api/moulds", "/static/%2e%2e/api/moulds", "//api/moulds", "/pair/../moulds"]
)
def test_no_way_round_through_the_shell(phone: TestClient, workshop: Workshop, path: str) -> None:
    answer = phone.get(path)
    assert answer.status_code in {401, 404}
    assert "Niche" not in answer.text


def test_pairing_gives_a_cookie_that_scripts_cannot_read(phone: TestClient, code: str) -> None:
    answer = phone.post("/pair", data={"code": code, "name": "bench phone"}, follow_redirects=False)
    cookie = answer.headers["set-cookie"]
    assert cookie.startswith(f"{COOKIE}=")
    for fence in ("Secure", "HttpOnly", "SameSite=Lax", "Path=/"):
        assert f"; {fence}" in cookie
    assert "Domain" not in cookie
    assert phone.get("/moulds").status_code == 200


def test_opening_the_address_of_the_picture_uses_nothing_up(phone: TestClient, code: str) -> None:
    for _ in range(2):
        page = phone.get(f"/pair?code={code}")
        assert f'value="{code}"' in page.text
    assert phone.post("/pair", data={"code": code, "name": "bench phone"}).url.path == "/moulds"


def test_a_program_pairs_and_shows_its_token_as_a_bearer(new_phone: NewPhone, code: str) -> None:
    answer = new_phone().post("/api/devices", json={"code": code, "name": "scale on the bench"})
    assert answer.status_code == 201
    bearer = {"authorization": f"Bearer {answer.json()['token']}"}
    assert new_phone().get("/api/moulds", headers=bearer).status_code == 200
    assert new_phone().get("/api/moulds", headers={"authorization": "Bearer 1.wrong"}).status_code == 401


def test_a_token_is_not_looked_at_without_encryption(app: FastAPI, paired: TestClient) -> None:
    token = paired.cookies[COOKIE]
    plain = TestClient(app, base_url="http://192.168.1.20:8490", client=PHONE)
    for headers in ({"cookie": f"{COOKIE}={token}"}, {"authorization": f"Bearer {token}"}):
        assert plain.get("/moulds", headers=headers).status_code == 403
    assert plain.get("/pair").status_code == 403


@pytest.mark.parametrize(
    ("host", "status"),
    [("192.168.1.20:8491", 200), ("mould-shop.lan:8491", 200), ("[fd00::20]:8491", 200), ("evil.example:8491", 403),
     ("127.0.0.1.evil.example", 403), ("", 403), ("[", 403)],
)  # fmt: skip
def test_only_the_machines_own_names_are_answered(paired: TestClient, host: str, status: int) -> None:
    assert paired.get("/moulds", headers={"host": host}).status_code == status


@pytest.mark.parametrize(
    ("headers", "status"),
    [({"host": "127.0.0.1:8490"}, 401), ({"host": "localhost"}, 403), ({"x-forwarded-for": "127.0.0.1"}, 401)],
)
def test_a_device_that_says_it_is_the_machine_is_not(phone: TestClient, headers: dict[str, str], status: int) -> None:
    assert phone.get("/moulds", headers=headers).status_code == status


def test_a_change_from_another_site_is_refused_with_the_cookie(paired: TestClient) -> None:
    for headers in ({"origin": "https://elsewhere.example"}, {"sec-fetch-site": "cross-site"}, {"origin": "null"}):
        assert paired.post("/api/moulds", json={"name": "Paw"}, headers=headers).status_code == 403
    assert paired.post("/api/moulds", json={"name": "Paw"}, headers={"origin": LAN}).status_code == 201


def test_a_revoked_device_is_refused_from_its_next_request(client: TestClient, paired: TestClient) -> None:
    device = client.get("/api/devices").json()[0]
    assert client.delete(f"/api/devices/{device['id']}").json()["revoked_at"]
    answer = paired.get("/api/moulds")
    assert answer.status_code == 401
    assert "what was spoken into it stays on it" in answer.json()["detail"]
    assert paired.get("/queue").status_code == 200


def test_what_a_device_sends_carries_its_name(paired: TestClient, shop: Shop, workshop: Workshop) -> None:
    build = workshop.build.key
    note = paired.post(f"/api/builds/{build}/notes?device=another", content=tone(1.0)).json()
    assert note["device"] == "bench phone"
    data = tone(1.0, 300)
    upload = f"/api/builds/{build}/uploads/5f0c6a1e-0000"
    paired.put(f"{upload}/0", content=data)
    sha256 = hashlib.sha256(data).hexdigest()
    said = {"size_bytes": len(data), "sha256": sha256, "recorded_at": "2026-04-13T13:12:00+01:00", "device": "browser"}
    finished = paired.post(upload, json=said).json()
    assert shop.store.note(finished["note_id"]).device == "bench phone"


def test_at_the_machine_itself_the_sender_says_where(client: TestClient, workshop: Workshop) -> None:
    note = client.post(f"/api/builds/{workshop.build.key}/notes?device=desk", content=tone(1.0)).json()
    assert note["device"] == "desk"


def test_codes_are_made_and_others_revoked_at_the_machine_only(
    client: TestClient, paired: TestClient, new_phone: NewPhone
) -> None:
    code = client.post("/api/devices/pairings").json()["code"]
    other = new_phone().post("/api/devices", json={"code": code, "name": "tablet"}).json()["device"]
    assert paired.post("/api/devices/pairings").status_code == 403
    assert paired.delete(f"/api/devices/{other['id']}").status_code == 403
    assert paired.put(f"/api/devices/{other['id']}/name", json={"name": "x"}).status_code == 403
    own = next(each for each in paired.get("/api/devices").json() if each["name"] == "bench phone")
    assert paired.put(f"/api/devices/{own['id']}/name", json={"name": "my phone"}).json()["name"] == "my phone"
    assert paired.delete(f"/api/devices/{own['id']}").status_code == 200
    assert paired.get("/moulds").status_code == 401


def test_wrong_codes_are_refused_and_soon_not_even_looked_at(phone: TestClient, code: str) -> None:
    for _ in range(5):
        answer = phone.post("/api/devices", json={"code": "AAAA-AAAA", "name": "x"})
        assert answer.status_code == 403
        assert "have a new one shown" in answer.json()["detail"]
    answer = phone.post("/api/devices", json={"code": code, "name": "bench phone"})
    assert answer.status_code == 429
    assert answer.headers["retry-after"] == "300"
    assert "wait five minutes" in phone.post("/pair", data={"code": code, "name": "bench phone"}).text


def test_a_stranger_cannot_hand_in_much(phone: TestClient, paired: TestClient) -> None:
    much = {"code": "A" * 200_000, "name": "x"}
    stranger = TestClient(paired.app, base_url=LAN, client=("192.168.1.78", 50000))
    assert stranger.post("/pair", data=much).status_code == 413
    form = {"content-type": "application/x-www-form-urlencoded"}  # in pieces: no length is said beforehand
    assert stranger.post("/pair", content=iter([b"code=" + b"A" * 100_000]), headers=form).status_code == 413


def test_tries_are_counted_for_each_and_for_all_and_forgotten() -> None:
    now = [0.0]
    tries = Tries(clock=lambda: now[0], most_each=2, most_in_all=3, window_s=60)
    for address in ("a", "a", "b"):
        tries.check(address)
        tries.failed(address)
    for address in ("a", "c"):
        with pytest.raises(Problem):
            tries.check(address)
    now[0] = 61.0
    tries.check("a")


def test_the_page_of_the_devices_pairs_renames_and_revokes(client: TestClient, new_phone: NewPhone) -> None:
    page = client.post("/devices/pairings").text
    code = re.search(r'class="code">([\w-]+)<', page)
    assert code is not None
    assert page.count('class="qr"') == 2
    assert "serve --lan" in page  # not served on the network here
    phone = new_phone()
    phone.post("/pair", data={"code": code[1], "name": "bench phone"})
    assert "bench phone" in client.get("/devices").text
    assert "this device" in phone.get("/devices").text
    number = client.get("/api/devices").json()[0]["id"]
    assert "layup tablet" in client.post(f"/devices/{number}/name", data={"name": "layup tablet"}).text
    assert client.post(f"/devices/{number}/name", data={"name": ""}).status_code == 422
    assert "Revoked" in client.post(f"/devices/{number}/revoke").text
    assert phone.get("/moulds").status_code == 401


def test_a_websocket_needs_the_token_and_our_own_page(app: FastAPI, paired: TestClient, new_phone: NewPhone) -> None:
    _echo(app)
    address = f"wss{LAN[5:]}/api/echo"
    with paired.websocket_connect(address, headers={"origin": LAN}) as socket:
        socket.send_text("anyone?")
        assert socket.receive_text() == "bench phone"
    for caller, origin in ((new_phone(), LAN), (paired, "https://elsewhere.example")):
        with pytest.raises(WebSocketDisconnect), caller.websocket_connect(address, headers={"origin": origin}):
            pass


def test_the_websocket_of_a_revoked_device_ends(
    app: FastAPI, shop: Shop, paired: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    _echo(app)
    monkeypatch.setattr(access, "AGAIN_AFTER_S", 0.0)
    with paired.websocket_connect(f"wss{LAN[5:]}/api/echo") as socket:
        socket.send_text("anyone?")
        assert socket.receive_text() == "bench phone"
        shop.store.revoke_device("bench phone", shop.now())
        socket.send_text("still?")
        with pytest.raises(WebSocketDisconnect):
            socket.receive_text()


def _echo(app: FastAPI) -> None:
    async def echo(socket: WebSocket) -> None:
        await socket.accept()
        async for _ in socket.iter_text():
            await socket.send_text(socket.state.caller.device.name)

    app.add_api_websocket_route("/api/echo", echo)


def test_a_photo_in_pieces_is_placed(paired: TestClient, shop: Shop, workshop: Workshop) -> None:
    data = picture(320, 240)
    upload = f"/api/builds/{workshop.build.key}/uploads/5f0c6a1e-0001"
    assert paired.put(f"{upload}/0", content=data[:1000]).json()["received"] == 1000
    paired.put(f"{upload}/1000", content=data[1000:])
    said = {
        "size_bytes": len(data), "sha256": hashlib.sha256(data).hexdigest(),
        "recorded_at": "2026-04-15T03:00:00+01:00", "place": "Left  scroll",
    }  # fmt: skip
    first = paired.post(upload, json=said)
    assert first.status_code == 201
    again = paired.post(upload, json=said)
    assert (again.status_code, again.json()) == (200, first.json())
    assert paired.get(upload).json() == first.json()
    photo = shop.store.photo(first.json()["photo_id"])
    assert (photo.place, photo.photo.sha256, photo.photo.time_source) == ("left scroll", said["sha256"], "given")
    assert photo.step_id == workshop.steps[2].id
