"""The log page: stored only when confirmed, with a message when somebody else was faster,
nothing lost."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise
from typing import Any
from uuid import uuid4

import pytest
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from pghistory.models import Events

from clinic import formatting
from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.patients.models import Stoma
from clinic.plans.bridge import findings_of
from clinic.visits.models import WornBarrier
from clinic.visits.queries import with_parts
from clinic.visits.wear_log.entry.table import MOST_ROWS
from clinic.visits.wear_log.whole_log import log_of
from planning.inputs.findings import Circumstance
from tests.clinic.plans.signed_visits import signed
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

Row = tuple[str, str, str]


@pytest.fixture
def nurse(client: Client) -> Client:
    client.force_login(UserFactory(role=Role.NURSE))
    return client


@pytest.fixture
def stoma() -> Stoma:
    made: Stoma = StomaFactory()
    return made


def page(client: Client, stoma: Stoma, query: str = "") -> str:
    answer = client.get(reverse("visits:wear_log", args=[stoma.uuid]) + query)
    assert answer.status_code == 200
    return answer.content.decode()


def seen(client: Client, stoma: Stoma) -> str:
    return str(client.get(reverse("visits:wear_log", args=[stoma.uuid])).context["seen"])


def post(
    client: Client, stoma: Stoma, *rows: Row, keys: list[str] | None = None, **more: Any
) -> Any:
    """Post rows as the page would, on what is stored now unless ``seen`` is given."""
    keys = keys or [str(uuid4()) for _ in rows]
    data: dict[str, Any] = {"row": keys, "press": "save", "seen": seen(client, stoma), **more}
    for key, (on, off, why) in zip(keys, rows, strict=True):
        data |= {f"on-{key}": on, f"off-{key}": off, f"why-{key}": why}
    return client.post(reverse("visits:wear_save", args=[stoma.uuid]), data)


def stored(stoma: Stoma) -> list[tuple[int, int | None, str]]:
    rows = WornBarrier.objects.filter(stoma=stoma)
    return [(r.on.day, r.off.day if r.off else None, r.reason) for r in rows]


def text_of(answer: HttpResponse) -> str:
    return " ".join(answer.content.decode().split())


def test_rows_are_stored_with_who_entered_them(nurse: Client, stoma: Stoma) -> None:
    answer = post(nurse, stoma, ("1 oct 2025", "4 oct 2025", "p"), ("=", "+3", "l"), ("=", "o", ""))
    assert answer.status_code == 302
    assert stored(stoma) == [(1, 4, "planned"), (4, 7, "leak"), (7, None, "")]
    assert WornBarrier.objects.values_list("entered_by__role", flat=True)[0] == Role.NURSE
    line = AccessLog.objects.get(action="changed wear log")
    assert line.detail == "3 added, 0 corrected, 0 removed"
    assert line.patient_uuid == stoma.patient.uuid


def test_a_page_sent_twice_is_stored_once(nurse: Client, stoma: Stoma) -> None:
    keys, old = [str(uuid4())], seen(nurse, stoma)
    for _ in range(2):
        answer = post(nurse, stoma, ("1 oct 2025", "", ""), keys=keys, seen=old)
        assert answer.status_code == 302
    assert stored(stoma) == [(1, None, "")]


def test_nothing_is_stored_while_one_row_is_wrong(nurse: Client, stoma: Stoma) -> None:
    answer = post(nurse, stoma, ("1 oct 2025", "4 oct 2025", "p"), ("3 oct 2025", "soonish", "?"))
    assert answer.status_code == 422
    assert stored(stoma) == []
    shown = text_of(answer)
    assert 'value="soonish"' in shown
    assert "This is not a day." in shown


@pytest.mark.parametrize("press", ["check", "paste", "rule"])
def test_a_preview_stores_nothing_and_keeps_what_was_typed(
    nurse: Client, stoma: Stoma, press: str
) -> None:
    more: dict[str, Any] = {
        "press": press,
        "paste": "5 Oct 2025\t8 Oct 2025\tleak\nnot a line of a diary",
        "rule-every": "3",
        "rule-since": "8 Oct 2025",
        "rule-until": "14 Oct 2025",
        "rule-why": "p",
        "rule-exceptions": "10 Oct 2025 f",
    }
    answer = post(nurse, stoma, ("1 oct 2025", "4 oct 2025", "p"), **more)
    assert answer.status_code == 200
    assert stored(stoma) == []
    shown = text_of(answer)
    for words in ("1 oct 2025", "5 Oct 2025", "not a line of a diary", "8 Oct 2025", "10 Oct 2025"):
        assert words in shown
    if press == "rule":
        assert 'value="13 Oct 2025"' in shown


def test_what_waits_in_the_paste_box_is_not_lost_by_saving(nurse: Client, stoma: Stoma) -> None:
    answer = post(nurse, stoma, ("1 oct 2025", "", ""), paste="5 Oct 2025\t8 Oct 2025\tl")
    assert answer.status_code == 422
    assert "There is text in the paste box" in text_of(answer)
    assert stored(stoma) == []


def test_somebody_else_was_faster(nurse: Client, stoma: Stoma) -> None:
    opened = seen(nurse, stoma)
    other = Client()
    fern = UserFactory(first_name="Fern", last_name="Larkspur")
    other.force_login(fern)
    post(other, stoma, ("1 oct 2025", "4 oct 2025", "p"))
    mine = [("1 sep 2025", "4 sep 2025", "l")]
    answer = post(nurse, stoma, *mine, seen=opened)
    assert answer.status_code == 409
    assert "Fern Larkspur" in text_of(answer)
    assert 'value="1 sep 2025"' in text_of(answer)
    assert stored(stoma) == [(1, 4, "planned")]
    again = post(nurse, stoma, *mine, seen=answer.context["seen"])
    assert again.status_code == 302
    assert stored(stoma) == [(1, 4, "leak"), (1, 4, "planned")]


@pytest.mark.parametrize("press", ["check", "paste", "rule"])
def test_checking_first_does_not_hide_that_somebody_was_faster(
    nurse: Client, stoma: Stoma, press: str
) -> None:
    """The barrier still on was closed by somebody else; the older page may not open it again."""
    post(nurse, stoma, ("1 oct 2025", "", ""))
    (key,) = (str(row.pk) for row in WornBarrier.objects.all())
    opened = seen(nurse, stoma)
    other = Client()
    other.force_login(UserFactory())
    post(other, stoma, ("1 oct 2025", "4 oct 2025", "l"), keys=[key])
    mine, keys = ("1 oct 2025", "", ""), [key]
    checked = post(nurse, stoma, mine, keys=keys, press=press, seen=opened)
    answer = post(nurse, stoma, mine, keys=keys, seen=checked.context["seen"])
    assert answer.status_code == 409
    assert stored(stoma) == [(1, 4, "leak")]


def test_saving_again_takes_no_correction_of_somebody_else_back(
    nurse: Client, stoma: Stoma
) -> None:
    """The page shows the barrier still on; in the meantime somebody closes it and removes
    another."""
    post(nurse, stoma, ("1 sep 2025", "4 sep 2025", "p"), ("1 oct 2025", "", ""))
    gone, on = (str(row.pk) for row in WornBarrier.objects.order_by("on"))
    opened = seen(nurse, stoma)
    other = Client()
    other.force_login(UserFactory())
    theirs = [("1 sep 2025", "4 sep 2025", "p"), ("1 oct 2025", "4 oct 2025", "l")]
    post(other, stoma, *theirs, keys=[gone, on], remove=gone)
    mine = str(uuid4())
    rows = [
        ("1 sep 2025", "4 sep 2025", "p"),
        ("1 oct 2025", "", ""),
        ("1 aug 2025", "3 aug 2025", "p"),
    ]
    answer = post(nurse, stoma, *rows, keys=[gone, on, mine], seen=opened)
    assert answer.status_code == 409
    typed = answer.context["grid"].typed
    again = [(one.on, one.off, one.why) for one in typed]
    assert [one.key for one in typed] == [on, mine]
    post(nurse, stoma, *again, keys=[on, mine], seen=answer.context["seen"])
    assert stored(stoma) == [(1, 3, "planned"), (1, 4, "leak")]


def test_a_diary_longer_than_a_page_is_stored_in_turns(nurse: Client, stoma: Stoma) -> None:
    first = date(2025, 1, 1)
    days = [formatting.day(first + timedelta(days=n)) for n in range(MOST_ROWS + 6)]
    lines = [f"{on}\t{off}\tp" for on, off in pairwise(days)]
    pasted = "\n".join(["on\toff\twhy", *lines])
    page_one = post(nurse, stoma, press="paste", paste=pasted)
    for turn in range(2):
        grid = page_one.context["grid"]
        rows = [(one.on, one.off, one.why) for one in grid.typed]
        keys = [one.key for one in grid.typed]
        # Reading again finds no room, and loses no line.
        again = post(nurse, stoma, *rows, keys=keys, press="paste", paste=grid.paste)
        assert len(again.context["grid"].typed) == len(rows) == (5 if turn else MOST_ROWS)
        answer = post(nurse, stoma, *rows, keys=keys, paste=again.context["grid"].paste)
        if not turn:
            left = answer.context["grid"].paste
            page_one = post(nurse, stoma, press="paste", paste=left)
    assert WornBarrier.objects.filter(stoma=stoma).count() == len(lines)


def test_a_row_typed_below_a_full_page_is_kept(nurse: Client, stoma: Stoma) -> None:
    first = date(2025, 1, 1)
    days = [formatting.day(first + timedelta(days=n)) for n in range(MOST_ROWS + 2)]
    answer = post(nurse, stoma, *((on, off, "p") for on, off in pairwise(days)))
    assert answer.status_code == 302
    assert WornBarrier.objects.filter(stoma=stoma).count() == MOST_ROWS + 1


def test_a_correction_and_a_removal(nurse: Client, stoma: Stoma) -> None:
    post(nurse, stoma, ("1 oct 2025", "4 oct 2025", "p"), ("4 oct 2025", "7 oct 2025", "p"))
    first, second = (str(row.pk) for row in WornBarrier.objects.order_by("on"))
    assert 'value="1 Oct 2025"' in page(nurse, stoma, f"?row={first}")
    post(
        nurse,
        stoma,
        ("1 oct 2025", "4 oct 2025", "l"),
        ("4 oct 2025", "7 oct 2025", "p"),
        keys=[first, second],
        remove=[second],
    )
    assert stored(stoma) == [(1, 4, "leak")]
    kept = Events.objects.filter(pgh_obj_id=second).values_list("pgh_label", flat=True)
    assert sorted(kept) == ["delete", "insert"]


def test_what_else_was_the_matter_is_stored_shown_corrected_and_reaches_the_planner(
    nurse: Client, stoma: Stoma
) -> None:
    post(nurse, stoma, ("1 may 2025", "4 may 2025", "l, too full"), ("=", "+1", "leak"))
    first = WornBarrier.objects.get(on=date(2025, 5, 1))
    assert first.circumstance == "overfull"
    assert "Leak (pouch too full)" in page(nurse, stoma)
    assert 'value="leak, pouch too full"' in page(nurse, stoma, f"?row={first.pk}")
    assessment = AssessmentFactory(stoma=stoma, visit__patient=stoma.patient)
    worn = findings_of(with_parts().get(pk=assessment.pk)).wear
    assert worn is not None
    assert [one.circumstance for one in worn] == [Circumstance.OVERFULL, None]
    same = ("1 may 2025", "4 may 2025", "leak")
    post(nurse, stoma, same, keys=[str(first.pk)])
    assert WornBarrier.objects.get(pk=first.pk).circumstance == ""


def test_a_circumstance_alone_is_asked_about_and_kept_as_typed(nurse: Client, stoma: Stoma) -> None:
    answer = post(nurse, stoma, ("1 may 2025", "4 may 2025", "pulled off"))
    assert answer.status_code == 422
    assert "Write the reason first" in text_of(answer)
    assert 'value="pulled off"' in text_of(answer)
    assert stored(stoma) == []


def test_emptying_a_stored_row_is_no_removal(nurse: Client, stoma: Stoma) -> None:
    post(nurse, stoma, ("1 oct 2025", "4 oct 2025", "p"))
    key = str(WornBarrier.objects.get().pk)
    answer = post(nurse, stoma, ("", "", ""), keys=[key])
    assert answer.status_code == 422
    assert "tick Remove" in text_of(answer)
    assert stored(stoma) == [(1, 4, "planned")]


def test_a_row_of_another_stoma_is_never_touched(nurse: Client, stoma: Stoma) -> None:
    other = StomaFactory()
    post(nurse, other, ("1 oct 2025", "4 oct 2025", "p"))
    key = str(WornBarrier.objects.get().pk)
    post(nurse, stoma, ("2 oct 2025", "4 oct 2025", "l"), keys=[key])
    assert stored(other) == [(1, 4, "planned")]
    assert stored(stoma) == [(2, 4, "leak")]
    post(nurse, stoma, keys=[], remove=[key])
    assert stored(other) == [(1, 4, "planned")]


def test_the_barrier_still_on_is_ready_to_be_closed(nurse: Client, stoma: Stoma) -> None:
    post(nurse, stoma, ("1 oct 2025", "", ""))
    shown = page(nurse, stoma)
    assert 'value="1 Oct 2025"' in shown
    later = post(nurse, stoma, ("8 oct 2025", "9 oct 2025", "p"))
    assert later.status_code == 422
    assert "as still on. Write there first when it came off." in text_of(later)


NOT_COUNTED = "is not counted yet: type o (still on) under Came off, or clear the row."


@pytest.mark.parametrize("press", ["save", "check"])
def test_a_day_only_the_page_filled_in_is_said_not_to_count(
    nurse: Client, stoma: Stoma, press: str
) -> None:
    keys = [str(uuid4()), str(uuid4())]
    rows = [("1 oct 2025", "4 oct 2025", "p"), ("4 Oct 2025", "", "")]
    more: dict[str, Any] = {f"given-{keys[1]}": "4 Oct 2025", "press": press}
    answer = post(nurse, stoma, *rows, keys=keys, **more)
    if press == "save":
        answer = nurse.get(answer["Location"])
        said = [str(message) for message in answer.context["messages"]]
        assert said == [f"1 barrier added. Put on 4 Oct 2025 {NOT_COUNTED}"]
        assert stored(stoma) == [(1, 4, "planned")]
    shown = text_of(answer)
    assert f"Put on 4 Oct 2025 {NOT_COUNTED}</p>" in shown
    assert 'value="4 Oct 2025"' in shown
    # And what the words say, holds.
    post(nurse, stoma, ("4 Oct 2025", "o", ""))
    assert stored(stoma)[-1] == (4, None, "")


def test_an_unfinished_row_stays_though_the_log_ends_elsewhere(nurse: Client, stoma: Stoma) -> None:
    post(nurse, stoma, ("1 nov 2025", "4 nov 2025", "p"))
    keys = [str(uuid4()), str(uuid4())]
    rows = [("1 oct 2025", "4 oct 2025", "p"), ("4 Oct 2025", "", "")]
    given: dict[str, Any] = {f"given-{keys[1]}": "4 Oct 2025"}
    answer = post(nurse, stoma, *rows, keys=keys, **given)
    assert answer.status_code == 200
    assert f"Put on 4 Oct 2025 {NOT_COUNTED}</p>" in text_of(answer)
    assert stored(stoma) == [(1, 4, "planned"), (1, 4, "planned")]
    cleared = post(nurse, stoma, ("", "", ""), keys=keys[1:])
    assert cleared.status_code == 302
    assert "Put on 4 Oct 2025" not in page(nurse, stoma)


def test_a_gap_is_said_and_saved(nurse: Client, stoma: Stoma) -> None:
    rows = [("1 oct 2025", "4 oct 2025", "p"), ("6 oct 2025", "9 oct 2025", "p")]
    gap = "Between 4 and 6 October 2025 no barrier is recorded: forgotten, or none worn?"
    assert gap in text_of(post(nurse, stoma, *rows, press="check"))
    assert post(nurse, stoma, *rows).status_code == 302
    assert gap in " ".join(page(nurse, stoma).split())


def test_a_contradiction_with_a_visit_is_said_and_both_are_kept(
    nurse: Client, stoma: Stoma
) -> None:
    AssessmentFactory(stoma=stoma, leaking=True)  # 4 to 6 May 2025: leak
    assert post(nurse, stoma, ("4 may 2025", "7 may 2025", "p")).status_code == 302
    shown = " ".join(page(nurse, stoma).split())
    assert "4 May 2025 to 6 May 2025, 2 days: leak (visit of 6 May 2025, not signed); but" in shown
    assert shown.count("contradicted") == 2
    assert len(log_of(stoma) or ()) == 2


def test_the_server_says_what_rows_mean(nurse: Client, stoma: Stoma) -> None:
    key, other = str(uuid4()), str(uuid4())
    data = {
        "row": [key, other],
        f"on-{key}": "3/11/2025",
        f"on-{other}": "8 Nov 2025",
        f"off-{other}": "+2",
        f"why-{other}": "f",
    }
    answer = nurse.post(reverse("visits:wear_read", args=[stoma.uuid]), data).json()
    assert "Is that 11 Mar 2025 or 3 Nov 2025?" in answer["rows"][key]["problems"]["on"]
    assert answer["rows"][other]["said"] == {
        "on": "Sat 8 Nov 2025",
        "off": "Mon 10 Nov 2025",
        "why": "Fell off",
    }
    assert answer["rows"][other]["worn"] == "2 days"
    assert answer["count"] == 1
    assert WornBarrier.objects.count() == 0


@pytest.mark.parametrize("role", [Role.SURGEON, Role.LEAD])
def test_users_who_only_read_get_no_form(client: Client, stoma: Stoma, role: Role) -> None:
    WornBarrier.objects.create(stoma=stoma, on=date(2025, 5, 2), entered_by=UserFactory())
    client.force_login(UserFactory(role=role))
    shown = page(client, stoma)
    assert "2 May 2025" in shown
    assert "wear-rows" not in shown
    assert "Correct" not in shown
    assert client.post(reverse("visits:wear_save", args=[stoma.uuid])).status_code == 403


def test_the_page_costs_the_same_however_long_the_log(nurse: Client, stoma: Stoma) -> None:
    def cost() -> int:
        with CaptureQueriesContext(connection) as queries:
            page(nurse, stoma)
        return len(queries)

    cost()  # the first request also renews the session
    little = cost()
    for day in range(1, 20):
        WornBarrier.objects.create(
            stoma=stoma,
            on=date(2025, 1, day),
            off=date(2025, 1, day + 1),
            reason="planned",
            entered_by=UserFactory(),
        )
    assert cost() == little


def test_anything_posted_is_answered(nurse: Client, stoma: Stoma) -> None:
    key = str(uuid4())
    for data in (
        {"row": ["x", key], f"on-{key}": "\x00\u0663" * 600, "order": "sideways", "press": "save"},
        {"press": "paste", "paste": '"' * 1000 + "\n\t\t\t\n;;;"},
        {"press": "rule", "rule-every": "\u0663", "rule-since": "9" * 3000},
        {"press": "nonsense", "remove": "x"},
    ):
        for name in ("visits:wear_save", "visits:wear_read"):
            answer = nurse.post(reverse(name, args=[stoma.uuid]), data)
            assert answer.status_code in {200, 302, 422}


def test_visits_and_record_lead_to_the_log(nurse: Client) -> None:
    before = signed(well_fitting=True)
    stoma = before.stoma
    post(nurse, stoma, ("6 may 2025", "9 may 2025", "l"))
    link = reverse("visits:wear_log", args=[stoma.uuid])
    now = AssessmentFactory(
        stoma=stoma, visit__patient=stoma.patient, visit__happened_at="2025-05-12T10:00:00Z"
    )
    shown = nurse.get(reverse("charting:chart", args=[now.uuid])).content.decode()
    assert link in shown
    assert "6 May 2025 to 9 May 2025, 3 days: leak" in shown
    record = nurse.get(reverse("patients:record", args=[stoma.patient.uuid])).content.decode()
    assert link in record
