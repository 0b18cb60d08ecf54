"""Stage 2: what follows from the findings alone, before any cause or rule."""
