"""What the tools and places of the shop tell of an act that is said without a verb of the trade.

"Steel roller all over", "final buff with the foam pad", "away in its box".
"""

from __future__ import annotations

from collections.abc import Iterable

_BY_ACT = {
    "roll": "roller rollers buster",
    "wet out": "squeegee",
    "stipple": "stippler bristles",
    "spray": "spraygun airless",
    "trim": "jigsaw router multitool scalpel trimmer",
    "sand": "sandpaper sander abrasive longboard",
    "polish": "mop buff compounds gloss buffer",
    "drill": "countersink reamer",
    "check": "coin thumbnail feelers hygrometer thermometer straightedge durometer callipers calipers micrometer",
    "demould": "wedge wedges mallet crowbar",
    "photograph": "video photos photo snapshots pics camera snaps",
    "store": "shelf rack racking storeroom",
    "degas": "degasser",
    "wall": "dam cottle cottles shuttering",
    "press": "ratchets g-clamps sandbags",
    "clean": "meths thinners tack-rag",
}
_ACTS = {tool: action for action, tools in _BY_ACT.items() for tool in tools.split()}


def act_of(span: Iterable[str]) -> str | None:
    """Return the act that the first tool among these words is used for, or None."""
    return next((_ACTS[word] for word in span if word in _ACTS), None)
