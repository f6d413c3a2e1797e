"""Words to step records; pure, given a catalogue and a language model."""
