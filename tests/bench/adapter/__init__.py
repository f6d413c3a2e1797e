"""How `journal/hear/makers.npz` is made: Whisper base's decoder learns from notes that machines speak.

    pip install torch==2.13.0
    python -m tests.bench.adapter.speech FOLDER      speak and encode the notes (an hour on two cores)
    python -m tests.bench.adapter.train FOLDER OUT   learn, and write the adapter (fifty minutes)

The notes are those of `work`; everyday sentences are among them. Voices and notes used to measure hearing take no part.
The adapter in place learnt for fifteen minutes from the notes alone and went on (`--go-on`) for 35 with the sentences.
Torch is needed for `train` alone, never by the project itself.
"""
