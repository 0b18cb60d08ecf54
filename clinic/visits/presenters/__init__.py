"""From rows to words, shared by screen and paper."""
