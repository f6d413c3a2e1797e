"""Whether "to" says what an act is for ("to stop it sagging"), or only goes on with a verb ("want to stop")."""

from __future__ import annotations

from journal.read.findings import NoteWords

PURPOSES = frozenset(
    "mark grab stop keep avoid help prevent let allow ensure reduce save protect hold catch break ease strengthen"
    " stiffen improve pop drive support minimise minimize lessen cut stiff even match bridge spread soften"
    " shift beef bulk loosen coax finish bring hide release compensate account fight slow speed encourage lock"
    " control chase burst"
    " clear shake draw lift knock free flatten feather blend guard guarantee get give make be kill".split()
)
_GOVERNORS = frozenset(
    "want wants wanted need needs needed going gon go got have has had having used using went come came"
    " nipped ran out try tries tried trying ready able start starts started starting begin began begun"
    " plan planning planned like likes supposed meant mean seem seems seemed remember remembered forgot"
    " forget how what where when up close down hard easy happy about due as next back thanks prone likely"
    " tend tends decided managed said told ask asked left not is was 's be are enough good nice safe"
    " fine best better important difficult possible tempting".split()
) - {"up", "down", "back", "left"}
_PURPOSES_WITH = {
    "get": frozenset("the rid all any a more it air better out into".split()),
    "give": frozenset("it the a us me them you some more better".split()),
    "make": frozenset("it sure the them demoulding".split()),
    "bring": frozenset({"the", "air", "bubbles"}),
    "finish": frozenset({"the"}),
    "shift": frozenset("the any air bubbles it".split()),
    "beef": frozenset({"up", "it", "the"}),
    "be": frozenset("safe sure on certain".split()),
}


def is_purpose(words: NoteWords, at: int) -> bool:
    """Return whether the token is the "to" of a purpose ("to stop it sagging"), not that of "want to stop"."""
    lower, after = words.lower, at + 1
    if lower[at] != "to" or at == 0 or after >= len(lower) or lower[after] not in PURPOSES:
        return False
    before = at - 2 if lower[at - 1] == "just" else at - 1
    if _is_too(words, at):
        return False
    if lower[before] == "about" and words.tags[before - 1] == "PRP":
        return True  # "jigged it about to shift the air"
    if lower[before] in _GOVERNORS or words.tags[before] in ("MD", "WRB"):
        return False
    needed = _PURPOSES_WITH.get(lower[after])
    return needed is None or (lower[at + 2 : at + 3] != () and lower[at + 2] in needed)


def _is_too(words: NoteWords, to: int) -> bool:
    """ "Too hot to hold", "hot enough to hold"."""
    return "too" in words.lower[max(to - 3, 0) : to] or words.lower[to - 1] == "enough"
