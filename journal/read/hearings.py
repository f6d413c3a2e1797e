"""Choose among what a note may have said: the transcript kept and the other hearings of the same audio.

A recogniser that has never been in a mould shop mishears the trade's words and numbers. Where it heard a
stretch more than one way, the catalogue, the grammar of an act, the sound and the arithmetic are asked which
way holds together. What they settle is taken and flagged; what they leave open is flagged and left.
"""
