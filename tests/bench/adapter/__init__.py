"""How `journal/hear/makers.npz` is made: Whisper base's decoder learns from the notes of `work`, spoken by machines.

    pip install torch==2.13.0
    python -m tests.bench.adapter.speech FOLDER      speak and encode the notes (an hour on two cores)
    python -m tests.bench.adapter.train FOLDER OUT   learn, and write the adapter (three quarters of an hour)

Torch is needed for `train` alone, never by the project itself. Voices and notes used to measure hearing take no part.
"""
