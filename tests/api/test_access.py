"""Who is let in, and what no page may do."""

from __future__ import annotations

import pytest
from fastapi import FastAPI, WebSocket, WebSocketDisconnect
from fastapi.testclient import TestClient

from tests.api.conftest import HERE

MOULD = {"name": "Paw"}


def test_a_stranger_on_the_network_is_refused(app: FastAPI) -> None:
    client = TestClient(app, base_url=HERE, client=("192.168.1.20", 50000))
    assert client.get("/moulds").status_code == 403
    assert client.get("/api/moulds").json()["status"] == 403


@pytest.mark.parametrize("host", ["127.0.0.1:8490", "localhost:8490", "[::1]:8490"])
def test_the_machine_itself_is_let_in_by_its_own_names(client: TestClient, host: str) -> None:
    assert client.get("/api/moulds", headers={"host": host}).status_code == 200


def test_a_name_that_was_made_to_point_here_is_refused(client: TestClient) -> None:
    assert client.get("/api/moulds", headers={"host": "moulds.example:8490"}).status_code == 403


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://elsewhere.example"},
        {"origin": "http://127.0.0.1:9999"},
        {"origin": "null"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site", "origin": HERE},
    ],
)
def test_a_change_from_another_page_is_refused(client: TestClient, headers: dict[str, str]) -> None:
    assert client.post("/api/moulds", json=MOULD, headers=headers).status_code == 403
    assert client.get("/api/moulds", headers=headers).json() == []


@pytest.mark.parametrize("headers", [{}, {"origin": HERE}, {"sec-fetch-site": "same-origin", "origin": HERE}])
def test_a_change_from_our_page_or_a_program_is_taken(client: TestClient, headers: dict[str, str]) -> None:
    assert client.post("/api/moulds", json=MOULD, headers=headers).status_code == 201


@pytest.mark.parametrize("path", ["/moulds", "/api/moulds", "/static/style.css", "/nowhere"])
def test_every_answer_keeps_the_page_to_its_own_parts(client: TestClient, path: str) -> None:
    headers = client.get(path).headers
    policy = headers["content-security-policy"]
    assert "script-src 'self'" in policy
    assert "unsafe" not in policy
    assert headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize(
    ("method", "path"), [("GET", "/api/nowhere"), ("DELETE", "/api/moulds"), ("PUT", "/static/style.css")]
)
def test_what_is_not_served_says_where_to_look(client: TestClient, method: str, path: str) -> None:
    answer = client.request(method, path)
    assert answer.status_code in {404, 405}
    assert "see /moulds" in answer.json()["detail"]


def test_something_that_breaks_is_told_without_its_inside(client: TestClient, app: FastAPI) -> None:
    def broken() -> None:
        raise RuntimeError("the secret inside")

    app.add_api_route("/api/broken", broken, include_in_schema=False)
    answer = client.get("/api/broken")
    assert answer.status_code == 500
    assert "secret" not in answer.text
    assert "kept" in answer.json()["detail"]


@pytest.mark.parametrize(
    ("headers", "let_in"),
    [
        ({}, True),
        ({"origin": HERE}, True),
        ({"origin": "http://elsewhere.example"}, False),
        ({"host": "a.example"}, False),
    ],
)
def test_a_websocket_is_let_in_from_our_own_pages_only(app: FastAPI, headers: dict[str, str], let_in: bool) -> None:
    async def echo(socket: WebSocket) -> None:
        await socket.accept()
        await socket.send_text("here")

    app.add_api_websocket_route("/api/echo", echo)
    with TestClient(app, base_url=HERE, client=("127.0.0.1", 50000)) as client:
        if let_in:
            with client.websocket_connect(f"ws{HERE[4:]}/api/echo", headers=headers) as socket:
                assert socket.receive_text() == "here"
        else:
            with (
                pytest.raises(WebSocketDisconnect),
                client.websocket_connect(f"ws{HERE[4:]}/api/echo", headers=headers),
            ):
                pass
