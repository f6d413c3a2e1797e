"""Reads a form from a page, as a browser would send it untouched."""

from __future__ import annotations

from html.parser import HTMLParser


class FormReader(HTMLParser):
    """The fields of the form with this action: inputs, radios that are set, and what selects stand at."""

    def __init__(self, action: str) -> None:
        super().__init__()
        self.fields: dict[str, str] = {}
        self._action = action
        self._inside = False
        self._select: str | None = None
        self._option: str | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag == "form":
            self._inside = given.get("action") == self._action
        if self._inside and tag in {"input", "select", "option"}:
            getattr(self, f"_{tag}_begins")(given)

    def _input_begins(self, given: dict[str, str]) -> None:
        if given.get("type") not in {"radio", "checkbox"} or "checked" in given:
            self.fields[given["name"]] = given.get("value", "")

    def _select_begins(self, given: dict[str, str]) -> None:
        self._select = given["name"]

    def _option_begins(self, given: dict[str, str]) -> None:
        if self._select is not None and (self._select not in self.fields or "selected" in given):
            self.fields[self._select] = given.get("value", "")
            self._option = None if "value" in given else self._select

    def handle_data(self, data: str) -> None:
        if self._option is not None and data.strip():
            self.fields[self._option] = data.strip()
            self._option = None

    def handle_endtag(self, tag: str) -> None:
        if tag == "select":
            self._select = None
        if tag == "form":
            self._inside = False


def form_fields(html: str, action: str) -> dict[str, str]:
    """Return the fields of the form with this action."""
    reader = FormReader(action)
    reader.feed(html)
    assert reader.fields, f"no form goes to {action}"
    return reader.fields
