"""Text that people and programs hand in: checked before it is kept, turned into keys and search words."""

from __future__ import annotations

import re
import unicodedata

from journal.keep.views import FieldError

_MOST = 200


def checked(field: str, text: str, most: int = _MOST) -> str:
    """Return the text without outer blanks. Raises FieldError when it is too long or has a NUL in it."""
    text = text.strip()
    if "\0" in text:
        raise FieldError(field, "has a NUL character in it")
    if len(text) > most:
        raise FieldError(field, f"is {len(text)} characters long; at most {most} are kept")
    return text


def checked_or_none(field: str, text: str | None, most: int = _MOST) -> str | None:
    """Return the checked text, None for None and for blanks."""
    return None if text is None else checked(field, text, most) or None


def named(field: str, name: str) -> tuple[str, str]:
    """Return the checked name with single blanks, and its key for addresses ("Niche 2" is "niche-2")."""
    name = " ".join(checked(field, name).split())
    plain = unicodedata.normalize("NFKD", name)
    plain = "".join(letter for letter in plain if not unicodedata.combining(letter))
    key = re.sub(r"[\W_]+", "-", plain.casefold()).strip("-")
    if not key:
        raise FieldError(field, "needs a letter or a digit")
    return name, key


def words_of(text: str) -> list[str]:
    """Return the words of a text, in lower case, as the full-text index takes them apart."""
    return re.findall(r"[^\W_]+", text.casefold())
