"""Why no PDF can be made, in words for the page."""


class PrintingUnavailable(Exception):  # noqa: N818 - a state of this machine, shown on a page
    """No PDF can be made here; the message says why in words for the page."""

    #: Whether it may be there a moment later.
    passing = False


class PrintingBusy(PrintingUnavailable):
    """Too many papers are asked for at once."""

    passing = True
