"""The paper that sheets are set on: A4 in black on white, a font of its own, numbered pages, text that can be copied.

A value in doubt has the word `check` beside it and a lozenge before it, so that neither colour nor print quality
decides whether it is seen.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from datetime import datetime
from pathlib import Path

import fontpkg_fira_sans
from fpdf import FPDF
from fpdf.enums import XPos, YPos

from journal.review.values import TIED, Row, Value

FONT = "sheet"
LANGUAGE = "en-GB"
_FILES = Path(fontpkg_fira_sans.ROOT) / "files"
_STYLES = {"": "FiraSans-Regular.ttf", "B": "FiraSans-Bold.ttf", "I": "FiraSans-Italic.ttf"}
_MARGIN, _BOTTOM, _INDENT, _LABEL = 15.0, 18.0, 5.0, 24.0  # mm
_LINE, _SIZE = 4.8, 9.5
_KEEP = 28.0  # mm that a heading wants below it on the same page
_PICTURE_W, _PICTURE_H, _GAP = 56.0, 42.0, 5.0
_PAGES = "{nb}"  # the library puts the number of pages in its place
LACKING = "\N{WHITE VERTICAL RECTANGLE}"  # for a character that the font does not have: never left out in silence


class Paper(FPDF):
    """One sheet being set. Lengths are mm."""

    def __init__(self, title: str, foot: str, made_at: datetime) -> None:
        super().__init__(orientation="portrait", unit="mm", format="A4")
        self._foot = foot
        for style, name in _STYLES.items():
            self.add_font(FONT, style, _FILES / name)
        self.set_font(FONT, "", _SIZE)
        self._known = set(self.fonts[FONT].cmap)  # type: ignore[union-attr]
        self.set_title(self.printable(title))
        self.set_lang(LANGUAGE)
        self.set_creator("Mouldbook")
        self.set_creation_date(made_at)
        self.set_margin(_MARGIN)
        self.set_auto_page_break(True, _BOTTOM)
        self.set_image_filter("DCTDecode")
        self.oversized_images = "DOWNSCALE"
        self.add_page()

    def footer(self) -> None:
        """Set the foot of a page: what it is of, and its number."""
        self.set_y(-12)
        self.set_font(FONT, "", 8)
        self.cell(self.epw / 2, 5, self.printable(self._foot))
        self.cell(self.epw / 2, 5, f"Page {self.page_no()} of {_PAGES}", align="R")

    def printable(self, text: str) -> str:
        """Return a text with a sign of its own for each character that the font does not have."""
        text = text.replace("\r", "").replace(_PAGES, "{n b}")  # what somebody said is not the number of pages
        return "".join(c if ord(c) in self._known or c == "\n" else LACKING for c in text)

    def data(self) -> bytes:
        """Return the PDF."""
        return bytes(self.output())

    # ---- text --------------------------------------------------------------------------------------

    def words(self, text: str, style: str = "", size: float = _SIZE, indent: float = 0.0) -> None:
        """Set a paragraph."""
        self.set_font(FONT, style, size)
        self.set_x(_MARGIN + indent)
        height = _LINE * size / _SIZE
        text = self.printable(text)
        self.multi_cell(self.epw - indent, height, text, new_x=XPos.LMARGIN, new_y=YPos.NEXT, align="L")

    def heading(self, text: str, level: int = 2) -> None:
        """Set a heading, on the next page when too little would stand below it here."""
        if self.get_y() > self.h - _BOTTOM - _KEEP:
            self.add_page()
        size = {1: 18.0, 2: 12.5, 3: 10.5}[level]
        self.ln(0 if level == 1 else 2.5)
        self.words(text, "B", size)
        if level == 2:
            self.line(_MARGIN, self.get_y(), self.w - _MARGIN, self.get_y())
            self.ln(1)

    def items(self, texts: Iterable[str], indent: float = 0.0) -> None:
        """Set a list, a dash before each."""
        for text in texts:
            self.words(f"\N{EN DASH} {text}", indent=indent)

    def facts(self, pairs: Iterable[tuple[str, str]]) -> None:
        """Set labels with their values, empty ones left out."""
        for label, value in pairs:
            if value:
                self.labelled(label, [(value, False)])

    def labelled(self, label: str, values: Sequence[tuple[str, bool]], indent: float = 0.0) -> None:
        """Set a label and its values, each a line; those that are in doubt are marked."""
        for i, (text, doubtful) in enumerate(values):
            self._room(_LINE)
            left, top = _MARGIN + indent, self.get_y()
            self.set_font(FONT, "", _SIZE)
            self.set_xy(left, top)
            if i == 0:
                self.cell(_LABEL, _LINE, self.printable(label))
            if doubtful:
                self._lozenge(left + _LABEL - 3.6, top + _LINE / 2)
            self.set_xy(left + _LABEL, top)
            told = self.printable(f"{text} (check)" if doubtful else text)
            width = self.epw - indent - _LABEL
            self.multi_cell(width, _LINE, told, new_x=XPos.LMARGIN, new_y=YPos.NEXT, align="L")

    def rows(self, rows: Iterable[Row], doubtful: frozenset[str], indent: float = 0.0) -> None:
        """Set the facts of a step."""
        for row in rows:
            self.labelled(row.label, [(said(value), value.field in doubtful) for value in row.values], indent)

    def query(self, text: str, indent: float = 0.0) -> None:
        """Set what a foreman would ask, between a double bar and the margin."""
        self._room(_LINE)
        left, top, page = _MARGIN + indent, self.get_y(), self.page
        self.words(text, "B", _SIZE, indent + 3.5)
        if self.page == page:
            for offset in (0.6, 1.8):
                self.line(left + offset, top + 0.4, left + offset, self.get_y() - 0.4)

    def boxed(self, title: str, texts: Sequence[str]) -> None:
        """Set cautions in a frame, on one page."""
        if not texts:
            return
        lines = sum(1 + len(text) // 95 for text in texts) + 2
        self._room(lines * _LINE + 6)
        top = self.get_y() + 1
        self.set_y(top + 2)
        self.words(title, "B", 10.5, indent=3)
        self.items(texts, indent=3)
        self.set_line_width(0.7)
        self.rect(_MARGIN, top, self.epw, self.get_y() - top + 1.5)
        self.set_line_width(0.2)
        self.ln(4)

    def pictures(self, pictures: Sequence[tuple[bytes, str]], indent: float = 0.0) -> None:
        """Set pictures side by side, each with its words below it, which are also read out in its place."""
        across = max(1, int((self.epw - indent + _GAP) // (_PICTURE_W + _GAP)))
        for start in range(0, len(pictures), across):
            self._room(_PICTURE_H + 2 * _LINE)
            top = self.get_y() + 1
            for i, (data, words) in enumerate(pictures[start : start + across]):
                left, told = _MARGIN + indent + i * (_PICTURE_W + _GAP), self.printable(words)
                self.image(io.BytesIO(data), left, top, _PICTURE_W, _PICTURE_H, keep_aspect_ratio=True, alt_text=told)
                self.set_xy(left, top + _PICTURE_H + 0.5)
                self.set_font(FONT, "", 8)
                self.cell(_PICTURE_W, 4, told)
            self.set_xy(_MARGIN, top + _PICTURE_H + 5.5)

    def _room(self, height: float) -> None:
        if self.get_y() + height > self.h - _BOTTOM:
            self.add_page()

    def _lozenge(self, x: float, y: float) -> None:
        self.set_fill_color(0, 0, 0)
        self.polygon([(x, y - 1.3), (x + 1.3, y), (x, y + 1.3), (x - 1.3, y)], style="DF")


def said(value: Value) -> str:
    """Return a value in words."""
    note = f" ({value.note})" if value.note else ""
    return f"{value.amount} {value.text}".strip().replace(TIED, "\N{NO-BREAK SPACE}") + note


def moment(at: datetime) -> str:
    """Return a moment as the shop's wall showed it."""
    return f"{at.day} {at:%B %Y}, {at:%H:%M}"
