"""The trend as a picture: one file a part of it.

Nothing here keeps state between two drawings: figures are made as objects, never through the
drawing library's own notion of a current one.
"""

import atexit
import os
import shutil
import tempfile


def _own_folder() -> None:
    """Give the drawing library a folder of its own before it is loaded.

    It keeps a list of fonts there, and would look for a home folder that the clinic's service
    account need not have, nor be able to write to. No one else can write to this one.
    """
    if "MPLCONFIGDIR" not in os.environ:
        folder = tempfile.mkdtemp(prefix="trend-figure-")
        os.environ["MPLCONFIGDIR"] = folder
        atexit.register(shutil.rmtree, folder, ignore_errors=True)


_own_folder()
