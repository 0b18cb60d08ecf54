"""From plan to words, shared by screen and paper."""
