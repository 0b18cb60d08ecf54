"""What setting up says: short lines as it goes, one sentence when it cannot go on."""

import os
import sys
from pathlib import Path


class SetupError(Exception):
    """Setting up cannot go on; the text is one sentence for the person at the terminal."""


def say(text: str) -> None:
    """Print one line of progress, apart from what a command itself prints."""
    print(text, file=sys.stderr, flush=True)


def show_count(done: int, total: int, what: str) -> None:
    """Show how far a long step is: in place on a terminal, every tenth line elsewhere."""
    line = f"  {done} of {total}  {what}"
    if sys.stderr.isatty():
        end = "\n" if done >= total else ""
        print(f"\r\x1b[K{line}", end=end, file=sys.stderr, flush=True)
    elif done % 10 == 0 or done == total:
        say(line)


def require_writable(folder: Path) -> None:
    """Raise SetupError unless this user may make files in the folder."""
    if not os.access(folder, os.W_OK | os.X_OK):
        raise SetupError(
            f"The folder {folder} is read-only for this user, so nothing can be set up in it: "
            "copy it to a folder of your own and start it there."
        )
