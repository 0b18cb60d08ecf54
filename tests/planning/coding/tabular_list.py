"""The official tabular list of ICD-10-CM, as the package simple-icd-10-cm carries it."""

from __future__ import annotations

import warnings

with warnings.catch_warnings():
    # Its way of reading its own data is deprecated; what it reads is what counts here.
    warnings.simplefilter("ignore", DeprecationWarning)
    import simple_icd_10_cm as icd

__all__ = ["icd"]
