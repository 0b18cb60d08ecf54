"""A line of the access log as a clinic lead reads it. Stored rows keep their short words: only
what the page shows is worded here, and nothing of a record's contents."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from clinic import formatting
from clinic.audit.models import AccessLog
from clinic.audit_trail.page_names import PAGES

#: (action, subject) as stored -> what was done. ``{who}``: whose account it is; ``{what}``: the
#: first words of the detail, which then are not repeated behind.
SENTENCES = {
    ("signed in", "user"): "signed in",
    ("signed out", "user"): "signed out",
    ("sign-in failed", "user"): "failed to sign in as {who}",
    ("added", "user"): "made an account for {who}",
    ("changed", "user"): "changed the account of {who}",
    ("set the password of", "user"): "set a new password for {who}",
    ("removed the second factors of", "user"): "removed the second sign-in step of {who}",
    ("let try again", "user"): "let {who} try to sign in again at once",
    ("locked", "user"): "locked their screen",
    ("unlocked", "user"): "unlocked their screen",
    ("ended own session", "user"): "signed themselves out on another device",
    ("ended other own sessions", "user"): "signed themselves out everywhere else",
    ("changed own password", "user"): "changed the password of their own account",
    ("switched on second factor", "user"): "switched on a second sign-in step",
    ("switched off second factor", "user"): "switched off a second sign-in step",
    ("renewed second factor", "user"): "made new codes for the second sign-in step",
    ("second factor failed", "user"): "typed a wrong code at the second sign-in step of {who}",
    ("changed", "clinic details"): "changed the clinic's details",
    ("added holiday", "clinic details"): "added a day on which the clinic is closed",
    ("removed holiday", "clinic details"): "removed a day on which the clinic was to be closed",
    ("read", "audit trail"): "read this audit trail",
    ("searched", "patients"): "searched for a patient",
    ("found", "patients"): "was shown the patient by a search",
    ("searched", "referrals"): "searched the referrals by patient",
    ("listed", "clinic day"): "was shown the patient in a day's list, for the first time that day",
    ("listed", "referrals"): "was shown the patient in the referrals, for the first time that day",
    ("listed", "day's sheets"): (
        "was shown the patient among a day's sheets to print, for the first time that day"
    ),
    ("compared", "patients"): "was shown the patient as similar to one being registered",
    ("registered", "patient"): "registered a new patient",
    ("viewed", "patient"): "opened the patient's record",
    ("opened to change", "patient"): "opened a form to change the patient's record",
    ("corrected", "patient"): "corrected the patient's record",
    ("was asked why", "patient"): "was asked why the restricted record is to be opened",
    ("opened restricted", "patient"): "opened the restricted record, saying why",
    (
        "asked for papers",
        "patient",
    ): "asked for papers of somebody who is not of the day; nothing was printed",
    ("restricted", "patient"): "restricted the patient's record",
    ("lifted restriction", "patient"): "lifted the restriction of the patient's record",
    ("read", "restricted records"): "read who opened restricted records",
    ("changed contacts", "patient"): "changed the patient's contacts",
    ("added", "sensitivity"): "added a sensitivity to the record",
    ("opened to change", "sensitivity"): "opened a form to remove a sensitivity from the record",
    ("removed", "sensitivity"): "removed a sensitivity from the record",
    ("added", "stoma"): "added a stoma to the record",
    ("opened to change", "stoma"): "opened a form to change a stoma's entry",
    ("corrected", "stoma"): "corrected a stoma's entry",
    ("closed", "stoma"): "noted that a stoma was reversed or removed",
    ("agreed", "known state"): "recorded something as known and accepted in a stoma",
    ("opened to change", "known state"): "opened a form to end what was agreed of a stoma",
    ("ended", "known state"): "ended what was agreed of a stoma",
    ("viewed trend", "stoma"): "opened the trend of a stoma",
    ("viewed what was tried", "stoma"): "opened the list of what was tried with a stoma",
    ("viewed complications", "stoma"): "opened the complications of a stoma",
    ("added", "complication"): "recorded a complication",
    ("opened to change", "complication"): "opened a form to change a complication",
    ("corrected", "complication"): "corrected a complication",
    ("removed", "complication"): "removed a complication from the register",
    ("added", "earlier trial"): "added a trial from before this record",
    ("opened to change", "earlier trial"): "opened a form to change an earlier trial",
    ("corrected", "earlier trial"): "corrected an earlier trial",
    ("removed", "earlier trial"): "removed an earlier trial from the list",
    ("viewed teaching", "stoma"): "opened the teaching checklist of a stoma",
    ("opened teaching", "stoma"): "opened the form to record teaching",
    ("recorded teaching", "stoma"): "recorded teaching",
    ("opened to change", "taught point"): "opened a form to withdraw a teaching entry",
    ("withdrew", "taught point"): "withdrew a teaching entry",
    ("opened site marking", "patient"): "opened the form to mark a site before surgery",
    ("marked", "site marking"): "recorded the marking of a site before surgery",
    ("viewed", "site marking"): "opened a site marking",
    ("viewed photo", "site marking"): "viewed the photo of a site marking",
    ("opened to change", "site marking"): "opened a form to withdraw a site marking",
    ("withdrew", "site marking"): "withdrew a site marking",
    ("printed", "site marking"): "printed a site marking",
    ("recorded site used", "stoma"): "recorded at which marked site a stoma was made",
    ("viewed wear log", "stoma"): "opened the wear log of a stoma",
    ("changed wear log", "stoma"): "changed the wear log of a stoma",
    ("started", "visit"): "began a visit",
    ("added", "assessment"): "began to chart a stoma at a visit",
    ("opened draft", "visit"): "opened a draft visit to chart it",
    ("saved", "visit"): "saved a draft visit",
    ("compared versions", "visit"): "compared what two people entered for the same visit",
    ("discarded", "visit"): "discarded a draft visit",
    ("accepted plan", "visit"): "accepted what a plan proposed",
    ("signed", "visit"): "signed a visit",
    ("added to", "visit"): "added to a signed visit",
    ("viewed", "visit"): "opened a visit",
    ("viewed history", "visit"): "opened the history of a visit's changes",
    ("added photo", "assessment"): "added a photo to a visit",
    ("viewed photo", "assessment"): "viewed a photo",
    ("opened photo to measure", "assessment"): "opened a photo to measure the stoma on it",
    ("had marks proposed on photo", "assessment"): "had the computer propose marks on a photo",
    ("measured on photo", "assessment"): "measured the stoma on a photo",
    ("kept recorded size", "assessment"): "kept the recorded size where a photo gives another",
    ("removed photo", "visit"): "removed a photo from a visit",
    ("opened to refer", "assessment"): "opened the form for a referral",
    ("referred", "referral"): "made a referral",
    ("viewed", "referral"): "opened a referral",
    ("answered", "referral"): "answered a referral",
    (
        "recorded answer received",
        "referral",
    ): "recorded an answer to a referral, received by {what}",
    ("opened to change", "follow up"): "opened the form to move the next visit to another day",
    ("moved next visit", "follow up"): "moved the next visit to another day",
    ("viewed", "assessment"): "looked at the {what}",
    ("edited care sheet", "assessment"): "changed the care sheet before printing",
    ("chose codes", "assessment"): "chose the diagnosis codes of the supply list",
    ("opened to print", "assessment"): "tried to print; nothing was printed",
    ("opened to print", "stoma"): "tried to print; nothing was printed",
    ("opened to print", "referral"): "tried to print; nothing was printed",
    ("printed", "assessment"): "printed the {what}",
    ("printed", "stoma"): "printed the {what}",
    ("exported", "assessment"): "saved the {what} as a file",
    (
        "opened again",
        "printed document",
    ): "opened a printed document again: {what}",
    ("opened to add task", "patient"): "opened the form for a task about the patient",
    ("added task", "task"): "added a task about the patient",
    ("did task", "task"): "marked a task as done",
    ("opened task again", "task"): "marked a task as not done after all",
    ("opened answers", "assessment"): "opened the clinic's own questions to the patient",
    ("recorded answers", "patient's answers"): "recorded what the patient answered",
    ("opened to change", "patient's answers"): "opened a form to withdraw a patient's answers",
    ("withdrew", "patient's answers"): "withdrew a patient's answers",
    ("opened repeat", "assessment"): "opened the form to measure a stoma again",
    ("charted repeat", "repeat measurement"): "measured a stoma again at the same visit",
    ("viewed", "repeat measurement"): "opened a repeat measurement",
    ("opened to change", "repeat measurement"): "opened a form to withdraw a repeat measurement",
    ("withdrew", "repeat measurement"): "withdrew a repeat measurement",
    ("viewed", "measuring error"): "opened the clinic's error of measuring",
    ("viewed", "measures"): "opened the clinic's measures",
    ("listed", "measures"): "was shown the patient in a list behind a number of the measures",
    ("exported", "measures"): "saved the clinic's measures as a file",
}
#: A detail as stored -> as it is worded.
DETAILS = {
    "known user": "there is an account of that name",
    "unknown user": "there is no account of that name",
    "small": "in small",
    "decide first": "the plan was not decided yet",
    "printing unavailable": "printing did not work",
}
_DAY = re.compile(r"\b\d{4}-\d\d(-\d\d)?\b")


@dataclass(frozen=True)
class Sentence:
    """``did`` goes on from who it was: *opened a visit*; ``more`` is a remark or ""."""

    did: str
    more: str


def sentence_for(row: AccessLog, people: Mapping[UUID, str]) -> Sentence:
    """What ``row`` says. ``people``: names by the id of their account.

    What no sentence is written for is shown as it is stored, so that nothing is ever hidden.
    """
    if row.action == "was refused":
        page = PAGES.get(row.subject_kind, f"the page {row.subject_kind}")
        return Sentence(f"was refused: {page}", row.detail)
    sentence = SENTENCES.get((row.action, row.subject_kind))
    if sentence is None:
        return Sentence(f"{row.action} {row.subject_kind}", row.detail)
    what, more = "", row.detail
    if "{what}" in sentence:
        what, _, more = row.detail.partition(", ")
    who = people.get(row.subject_uuid, "somebody") if row.subject_uuid else "somebody"
    return Sentence(sentence.format(what=what or "paper", who=who), _more(more))


def _more(detail: str) -> str:
    """Without the code's underscores, counts of nothing and days in figures."""
    told = DETAILS.get(detail, detail)
    told = ", ".join(part for part in told.split(", ") if not part.startswith("0 ")) or told
    return _DAY.sub(_in_letters, told).replace("_", " ")


def _in_letters(found: re.Match[str]) -> str:
    """A day or a month with its name; what is none stays as it is."""
    try:
        if found[0].count("-") == 1:
            return f"{date.fromisoformat(found[0] + '-01'):%b %Y}"
        return formatting.day(date.fromisoformat(found[0]))
    except ValueError:
        return found[0]
