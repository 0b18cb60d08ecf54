"""Statements about wear, amounts, codes, visits, and the methods of the figures."""

from __future__ import annotations

from typing import Final

from planning.evidence.claims.claim import (
    Claim,
    abstract,
    excerpt,
    full_text,
    not_read,
    second_hand,
)
from planning.evidence.mark import Mark

_BY_LIBRARIES: Final = "The paper was not read. Figures of the method agree with two libraries."

CLAIMS: Final[tuple[Claim, ...]] = (
    # --- wear ---------------------------------------------------------------------------------
    not_read("richbourg2008/means", "Barriers are worn 4.6 to 5.0 days on average.",
             "Not read; means of 4.55, 5.01 and 5.02 days by kind of stoma."),
    abstract("leak2016/quality", "Quality of life falls from 4 leaks in 10 changes.",
             "Asked of over 4200 people in 13 countries."),
    # --- procurement codes --------------------------------------------------------------------
    second_hand("lcd/maxima", "The usual maximum a month under this code.",
                "Two copies of the table, which agree; the rule itself was not read."),
    second_hand("lcd/no_figure", "The table names no maximum for this code.",
                "Not in either copy of the table: unknown, not zero."),
    second_hand("lcd/meaning", "What is ordered under this code.",
                "A page of a code dictionary or a fee list of 1999 was read for it."),
    # --- visits -------------------------------------------------------------------------------
    excerpt("cambridge/first_call", "A first call comes 2 to 3 days after discharge.",
            "Urostomy page; counted from discharge, not from surgery."),
    full_text("salford/first_contact", "A nurse makes contact within 72 hours.",
              "Discharge page; counted from discharge, not from surgery."),
    excerpt("chelsea/yearly", "A stoma is reviewed every year.", "Page of a stoma service."),
    full_text("eastkent/yearly", "A stoma is reviewed every year.", "Page of a hospital."),
    # --- diagnosis codes ----------------------------------------------------------------------
    Claim("icd10cm/titles", "This code exists, has this title and may be submitted.",
          Mark.BY_PROGRAM,
          "Title and place in the list; which finding it is suggested for is ours."),
    Claim("icd10cm/excludes", "These codes are never given together.", Mark.BY_PROGRAM,
          "The list's own notes on exclusion."),
    Claim("icd10cm/additional", "This code calls for another beside it.", Mark.BY_PROGRAM,
          "The list's own notes on additional codes."),
    # --- methods of the figures ---------------------------------------------------------------
    not_read("kaplan1958/curve", "The share still holding, with barriers still on.", _BY_LIBRARIES),
    not_read("mantel1966/log_rank", "Two such curves compared.", _BY_LIBRARIES),
    not_read("garwood1936/exact", "The exact interval of a count.", _BY_LIBRARIES),
    not_read("przyborowski1940/rates", "Two counts over time compared.",
             "Not read; named from memory."),
    not_read("sen1968/slope", "A slope that a few odd values do not move.", _BY_LIBRARIES),
    not_read("pocock1977/looks", "How much less chance is allowed at each of several looks.",
             "Not read; the level for three looks is computed."),
    not_read("rao1992/effect", "Counts that vary more than by chance count for less.",
             "Not read; named from memory."),
    not_read("simes1986/several", "Whether several comparisons together show any difference.",
             "Not read; the bound is computed."),
    not_read("bland1986/error", "The least change that measuring error does not explain.",
             "The paper was not read; its published data give the figures expected."),
)  # fmt: skip
