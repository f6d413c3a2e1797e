"""The verbs of the trade and what each means by what stands beside it, one module a group of senses.

A line of SENSES is `verb: test > action; test > action; ...`; the first test that holds wins. A test is words
after the verb and before the next one (`back|down` either), `+up` the word right after it, `@fabric` a family of
`families.py`, which may stand before the verb as well ("the gel went on"), `=fabric` the family of the first thing
named after it ("laid MAT on the frame"); `a & b` needs both, `!a` must not be there, and an empty test always holds.
The action `apply` is whatever is done with the family that was named (APPLIED of `acts_patterns.py`); `@none` is no
act. A line that starts with blanks goes on with the one before.
"""

from __future__ import annotations

from journal.read.verbs import after, batch, layup, plain, surface

SENSES = "".join(group.SENSES for group in (surface, batch, layup, after, plain))
