"""Outcomes, the photos of faults, lives and pictures over the API and through the forms."""

from __future__ import annotations

from fastapi.testclient import TestClient

from tests.api.workshop import Workshop

SHOP_TIME = "2026-04-24T11:00"


def put(client: TestClient, **said: object) -> dict[str, object]:
    answer = client.post("/api/builds/niche-1/outcomes", json=said)
    assert answer.status_code == 201, answer.text
    return answer.json()  # type: ignore[no-any-return]


def test_a_life_is_put_on_record_and_read_back(client: TestClient, workshop: Workshop) -> None:
    put(client, kind="opened", seen="good", at="2026-04-20T09:00:00+01:00")
    kept = put(client, kind="pull", number=1, seen="chip", words="small chip", place="Left scroll",
               at="2026-04-24T11:00:00+01:00", who="second maker")  # fmt: skip
    assert kept["record"]["pull"] == 1  # type: ignore[index]
    (life,) = client.get("/api/moulds/niche/life").json()["moulds"]
    assert [(event["kind"], event["pulls"]) for event in life["events"]] == [("opened", 0), ("pull", 1), ("fault", 1)]
    assert client.get("/api/lives").json()["verdict"]
    again = client.post("/api/builds/niche-1/outcomes", json={"kind": "pull", "number": 1})
    assert (again.status_code, "is on record already" in again.json()["detail"]) == (422, True)
    assert client.post("/api/builds/niche-1/outcomes", json={"kind": "lost"}).status_code == 422


def test_a_photo_shows_a_fault_until_it_is_taken_off(client: TestClient, workshop: Workshop) -> None:
    step = workshop.steps[2].id
    (photo, *_) = client.get("/api/builds/niche-1/photos").json()
    at = f"/api/steps/{step}/photos/{photo['id']}"
    assert client.put(at).json()["id"] == photo["id"]
    assert client.put(at).status_code == 200  # said again, it changes nothing
    (fault,) = client.get("/api/moulds/niche/faults/photos").json()
    assert [each["id"] for each in fault["shown"]] == [photo["id"]]
    assert client.delete(at).status_code == 200
    assert client.delete(at).status_code == 404
    (fault,) = client.get("/api/moulds/niche/faults/photos").json()
    assert fault["shown"] == []
    changes = client.get(f"/api/steps/{step}/history").json()
    assert [change["what"] for change in changes][-2:] == ["photo added", "photo taken off"]
    sound = workshop.steps[0].id
    assert client.put(f"/api/steps/{sound}/photos/{photo['id']}").status_code == 422
    assert client.put(f"/api/steps/{step}/photos/99").status_code == 404


def test_pictures_have_their_data(client: TestClient, workshop: Workshop) -> None:
    pictures = {each["name"]: each for each in client.get("/api/builds/niche-1/pictures").json()}
    assert list(pictures) == ["timeline", "ratios", "temperature", "life"]
    # 14 g to 700 g is 2 per hundred; "fourteen" was heard with little confidence
    row = [cell["words"] for cell in pictures["ratios"]["rows"][0]]
    assert row[1].startswith("2 of catalyst per 100 by weight (to check: ")
    assert row[3] == "within the range"
    assert client.get("/api/builds/nothing/pictures").status_code == 404
    strip = client.get("/api/compare/photos?build=niche-1").json()
    assert strip["builds"] == ["niche-1"]
    assert strip["rows"]


def test_the_form_takes_the_shops_own_time_and_says_what_is_wrong(client: TestClient, workshop: Workshop) -> None:
    said = {"kind": "pull", "build": "niche-1", "at": SHOP_TIME, "seen": "good", "who": "lead maker"}
    assert client.post("/moulds/niche/life", data=said, follow_redirects=False).status_code == 303
    (pull,) = client.get("/api/moulds/niche/pulls").json()
    assert pull["at"].startswith("2026-04-24T11:00:00+01:00")
    wrong = client.post("/moulds/niche/life", data=said | {"kind": "fault", "seen": ""})
    assert wrong.status_code == 422
    assert "say what kind of fault it is" in wrong.text
    assert client.post("/moulds/niche/life", data=said | {"at": "noon"}).status_code == 422
