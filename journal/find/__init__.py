"""Search over notes, steps, builds and recipes."""
