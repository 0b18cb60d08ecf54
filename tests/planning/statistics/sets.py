"""Published times to an event, each with its source."""

from __future__ import annotations

#: Remission of acute leukaemia in weeks, 21 patients on 6-mercaptopurine and 21 on placebo.
#: Freireich and others, Blood 1963;21:699-716.
MERCAPTOPURINE = (
    [6, 6, 6, 7, 10, 13, 16, 22, 23, 6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35],
    [True] * 9 + [False] * 12,
)
PLACEBO = (
    [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23],
    [True] * 21,
)

#: Acute myelogenous leukaemia, weeks in remission with and without maintained chemotherapy.
#: Miller, Survival Analysis, 1981.
MAINTAINED = (
    [9, 13, 13, 18, 23, 28, 31, 34, 45, 48, 161],
    [True, True, False, True, True, False, True, True, False, True, False],
)
NOT_MAINTAINED = (
    [5, 5, 8, 8, 12, 16, 23, 27, 30, 33, 43, 45],
    [True] * 5 + [False] + [True] * 6,
)
