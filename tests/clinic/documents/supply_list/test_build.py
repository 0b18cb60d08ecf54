"""The supply list: what was accepted, what was changed, codes as chosen, a safe table."""

import csv
import io
from dataclasses import replace
from datetime import date, timedelta
from html import unescape
from typing import Any

import pytest
from django.db import IntegrityError, transaction
from django.template.loader import render_to_string
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from django.utils.html import strip_tags

from clinic.accounts import permissions
from clinic.accounts.models import Role
from clinic.accounts.permissions import Right
from clinic.audit.models import AccessLog
from clinic.documents.rendering.pdf import pdf_of
from clinic.documents.supply_list.build import UCUM, SupplyList, supply_list
from clinic.documents.supply_list.csv_file import COLUMNS, guarded, supply_csv
from clinic.follow_up.models import FollowUp
from clinic.plans.actions.choose_codes import CodesRefusedError, choose_codes
from clinic.plans.diagnosis_codes import asked_for, offers
from clinic.plans.models import ChosenCode
from clinic.plans.order_lines import accepted_quantities
from clinic.visits.models import Assessment
from clinic.visits.policies import NotAllowedNow
from planning import Plan, recommend
from planning.instructions.quantities import LINES
from planning.results.message import to_patient
from planning.results.plan import (
    Change,
    ItemKind,
    Need,
    Quantity,
    Reason,
    Recommendation,
    SuggestedCode,
)
from tests.clinic.documents import made_findings, made_plans, made_visits, paper
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db

WHY = (Reason("The skin is raw at 5 to 7 o'clock.", ("CP",)),)


def using(key: str, kind: ItemKind, text: str, *needs: str) -> Recommendation:
    return Recommendation(key, kind, Change.START, text, WHY, needs, to_patient(f"{text}."))


def amount(key: str, text: str, month: int | None, code: str | None, **more: Any) -> Quantity:
    return Quantity(key, text, 1.0, more.pop("unit", "each"), month and month // 2, month, code,
                    **more)  # fmt: skip


PLAN: Plan = replace(
    made_plans.BARE,
    dimensions=replace(
        made_plans.LEAK.dimensions, plateau_mm=34.0, opening_length_mm=34.0, opening_width_mm=30.0
    ),
    needs=(Need("lift", "Lift the rim by 3 mm", WHY), Need("seal", "Seal the edge", WHY)),
    recommendations=(
        using("soft_convex_shallow", ItemKind.BARRIER, "Soft convex barrier, shallow", "lift"),
        using("one_piece", ItemKind.BARRIER, "One-piece system"),
        using("opening", ItemKind.OPENING, "Cut the opening to 34 x 30 mm"),
        using("ring", ItemKind.RING, "Mouldable ring", "seal"),
        using("powder", ItemKind.SKIN_CARE, "Plain powder, on weeping skin only"),
        using("drainable", ItemKind.POUCH, "Drainable pouch"),
    ),
    supplies=("soft_convex_shallow", "one_piece", "cut_to_fit", "ring", "powder", "drainable"),
    quantities=(
        amount("barrier", "One-piece drainable pouch, convex", 10, None),
        amount("ring", "Mouldable ring", 12, "A4404", usual_monthly_maximum=10.0,
               over_maximum=True, until_at_most=8, code_note="doubtful: ask the biller"),
        amount("powder", "Skin powder", None, "A4371", usual_monthly_maximum=10 / 6, unit="oz"),
    ),
    suggested_codes=(
        SuggestedCode("K94.13", "Enterostomy malfunction", "ICD-10-CM, April 2026", WHY),
        SuggestedCode("L24.B3", "Irritant contact dermatitis", "ICD-10-CM, April 2026", WHY),
    ),
)  # fmt: skip


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> Assessment:
    made_visits.use_plan(monkeypatch, PLAN)
    return made_visits.assessed(
        given_name="Imogen", family_name="Thistledown", date_of_birth=date(1961, 4, 5)
    )


def signed_with(made: Assessment, **decisions: Any) -> SupplyList:
    made_visits.decide(made, PLAN, **decisions)
    made_visits.sign(made)
    return supply_list(made_visits.decided(made))


def html_of(listed: SupplyList) -> str:
    return render_to_string("documents/supply_list/list.html", {"list": listed, "paper": "a4"})


def text_of(listed: SupplyList) -> str:
    """The words of the list; the paper's own are read where the paper is tested."""
    return " ".join(unescape(strip_tags(html_of(listed).partition("<body")[2])).split())


# --- lines ----------------------------------------------------------------------------------
def test_lines_as_the_plan_counted_them(made: Assessment) -> None:
    barrier, ring, powder = signed_with(made).items
    assert barrier.text == "One-piece drainable pouch, convex"
    assert barrier.size == (
        "dome shallow, 3.4 mm; flat middle at least 34 mm; opening to cut 34 × 30 mm"
    )
    assert (barrier.amount, barrier.per_month, barrier.code) == ("5", 10, "")
    assert (ring.amount, ring.per_month, ring.code, ring.over) == ("6 to 8", 12, "A4404", True)
    assert (powder.amount, powder.per_month, powder.unit) == ("", None, "oz")


def test_the_reason_is_one_sentence_from_the_plan(made: Assessment) -> None:
    barrier, ring, powder = signed_with(made).items
    assert barrier.reason == "The skin is raw at 5 to 7 o'clock (need: lift the rim by 3 mm)."
    assert ring.reason == "The skin is raw at 5 to 7 o'clock (need: seal the edge)."
    assert powder.reason == "The skin is raw at 5 to 7 o'clock."


def test_several_reasons_read_as_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    urine = (Reason("Urine runs all day.", ("CP",)),)
    pouch = replace(PLAN.recommendations[5], because=urine, need_keys=("seal",))
    plan = replace(PLAN, recommendations=(*PLAN.recommendations[:5], pouch))
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan)
    assert supply_list(made_visits.decided(made)).items[0].reason == (
        "The skin is raw at 5 to 7 o'clock (need: lift the rim by 3 mm); "
        "urine runs all day (need: seal the edge)."
    )


def test_a_dropped_item_is_named_and_not_ordered(made: Assessment) -> None:
    listed = signed_with(made, dropped=("ring",))
    assert [item.text for item in listed.items][1:] == ["Skin powder"]
    assert listed.left_out == ("Mouldable ring",)
    assert "do not order: Mouldable ring" in text_of(listed)


def test_what_the_clinician_put_instead_is_to_be_written_in(made: Assessment) -> None:
    """The plan's amount and code belong to another thing."""
    listed = signed_with(made, changed={"soft_convex_shallow": "flat barrier, extended wear"})
    barrier = listed.items[0]
    assert barrier.by_hand
    assert barrier.text == "flat barrier, extended wear; One-piece system; Drainable pouch"
    assert (barrier.amount, barrier.code, barrier.size, barrier.per_month) == ("", "", "", None)
    assert "enter amount, size and code" in text_of(listed)
    assert "convex" not in html_of(listed)


def test_a_changed_pouch_changes_a_one_piece_system(made: Assessment) -> None:
    assert signed_with(made, changed={"drainable": "closed pouch"}).items[0].by_hand


def test_a_changed_opening_leaves_the_barrier_and_hides_the_size(made: Assessment) -> None:
    barrier = signed_with(made, changed={"opening": "cut 36 mm round"}).items[0]
    assert not barrier.by_hand
    assert "opening" not in barrier.size


def test_the_visit_page_counts_what_was_accepted(made: Assessment) -> None:
    signed_with(made, dropped=("drainable", "powder"))
    keys = [one.supply_key for one in accepted_quantities(made_visits.decided(made))]
    assert keys == ["ring"]


@pytest.mark.parametrize("day", ["2026-03-05", None])
def test_amounts_hold_only_to_the_day_the_plan_counted_to(
    made: Assessment, day: str | None
) -> None:
    """The next visit was moved or dropped: the amounts to the planned day would mislead."""
    moved = {"changed": {"follow_up": day}} if day else {"dropped": ("follow_up",)}
    listed = signed_with(made, **moved)
    assert [item.amount for item in listed.items] == ["", "", ""]
    assert [item.per_month for item in listed.items] == [10, 12, None]
    text = text_of(listed)
    assert "go by the amounts for 30 days" in text
    assert "not counted" in text
    assert rows(listed, made)[1]["until_next_visit"] == ""


def test_a_visit_moved_since_is_the_one_that_counts(made: Assessment) -> None:
    assert signed_with(made).counted
    FollowUp.objects.filter(set_by=made).update(due=date(2026, 4, 1))
    listed = supply_list(made_visits.decided(made))
    assert (listed.next_visit, listed.counted) == (date(2026, 4, 1), False)
    assert [item.amount for item in listed.items] == ["", "", ""]


@pytest.mark.parametrize(("days", "over"), [(0, False), (1, True)])
def test_a_next_visit_that_is_over_counts_no_more(
    client: Client, made: Assessment, days: int, over: bool
) -> None:
    """The patient did not come: what was counted to that day is used up."""
    due = signed_with(made).next_visit
    assert due is not None
    today = due + timedelta(days=days)
    text = text_of(supply_list(made_visits.decided(made), today))
    assert ("which is over: go by the amounts for 30 days" in text) is over
    assert ("Amounts last until the next visit" in text) is not over
    page = as_role(client, Role.NURSE).get(at("supplies", made)).content.decode()
    assert "which is over: go by the amounts for 30 days" in page


def test_a_code_in_doubt_says_so_on_the_paper(made: Assessment) -> None:
    text = " ".join(text_of(signed_with(made)).split())
    assert text.count("A4404, Mouldable ring: doubtful: ask the biller.") == 1


def test_a_usual_maximum_names_its_unit(made: Assessment) -> None:
    """1.67 a month of what is sold by the ounce; the table has a column for the unit."""
    listed = signed_with(made)
    assert "1.67 oz" in text_of(listed)
    assert "10 each" not in text_of(listed)
    assert rows(listed, made)[2]["usual_maximum_per_month"] == "1.67"


@pytest.mark.parametrize("lines", [7, 8, 11])
def test_the_page_to_sign_has_the_codes(made: Assessment, lines: int) -> None:
    listed = signed_with(made)
    long = replace(listed, items=(replace(listed.items[0], reason="Sore. " * 40),) * lines)
    pages = paper.page_texts(pdf_of(html_of(long)))
    signed = next(text for text in pages if "Prescriber" in text)
    assert "Diagnosis codes chosen by the clinician" in signed


def test_every_unit_the_planner_uses_has_a_ucum_code() -> None:
    assert {line.unit for line in LINES.values()} <= set(UCUM)


def test_every_line_of_a_sweep_rests_on_something_and_has_a_reason(swept: Assessment) -> None:
    """No line would be ordered although what it rests on was dropped."""
    bare = {}
    for name, findings in made_findings.cases():
        plan = recommend(findings)
        for item in supply_list(made_visits.all_accepted(plan, swept)).items:
            if not item.reason or "  " in item.reason or ".." in item.reason:
                bare[name] = item
    assert not bare


# --- the paper ------------------------------------------------------------------------------
def test_notice_over_the_usual_maximum_and_unknown_packs(made: Assessment) -> None:
    text = text_of(signed_with(made))
    assert "Over the usual monthly maximum: Mouldable ring: 12 a month, usually at most 10." in text
    assert "Pack sizes are not known" in text
    assert "Clinician" in text
    assert "Prescriber" in text
    assert "as needed, whole packs" in text
    assert "None" not in text.replace("None was chosen", "")


HALVED = "Mouldable ring to halve (counted in whole rings)"


def with_halves() -> Plan:
    """A ring and a half ring of one code, 9 and 6 a month."""
    kept = [one for one in PLAN.quantities if one.supply_key != "ring"]
    most: dict[str, Any] = {"usual_monthly_maximum": 10.0, "over_maximum": True}
    both = (
        amount("ring", "Mouldable ring", 9, "A4404", **most),
        amount("half_ring", HALVED, 6, "A4404", **most),
    )
    return replace(
        PLAN,
        quantities=(*kept, *both),
        recommendations=(
            *PLAN.recommendations,
            using("half_ring", ItemKind.RING, "Half a mouldable ring", "lift"),
        ),
        supplies=(*PLAN.supplies, "half_ring"),
    )


@pytest.mark.parametrize("dropped", [(), ("half_ring",)])
def test_lines_of_one_code_are_said_together(
    client: Client, monkeypatch: pytest.MonkeyPatch, dropped: tuple[str, ...]
) -> None:
    plan = with_halves()
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan, dropped=dropped)
    made_visits.sign(made)
    said = f"Mouldable ring and m{HALVED[1:]}: 15 together a month, usually at most 10."
    page = as_role(client, Role.NURSE).get(at("supplies", made)).content.decode()
    addendum = reverse("visits:addendum", args=[made.visit.uuid])
    assert (said in page) is (not dropped)
    assert (said in text_of(supply_list(made_visits.decided(made)))) is (not dropped)
    assert page.count("together over 10") == (0 if dropped else 2)
    assert (addendum in page) is (not dropped)


def test_a_draft_list_says_so_on_every_page(made: Assessment) -> None:
    made_visits.decide(made, PLAN)
    listed = supply_list(made_visits.decided(made))
    for text in paper.page_texts(pdf_of(html_of(listed))):
        assert "Not signed yet" in text
    assert listed.signed_words == ""


def test_title_language_tags_and_identifiers(made: Assessment) -> None:
    listed = signed_with(made)
    many = replace(listed, items=listed.items * 9)
    pdf = pdf_of(html_of(many))
    read = paper.reader(pdf)
    assert read.metadata is not None
    assert read.metadata.title == "Supply list"
    assert "Thistledown" not in str(dict(read.metadata))
    assert read.trailer["/Root"]["/Lang"] == "en"  # type: ignore[index]
    assert {"H1", "H2", "Table", "TH", "TD"} <= set(paper.tags(pdf))
    texts = paper.page_texts(pdf)
    assert len(texts) > 1
    for text in texts:
        assert "Imogen Thistledown" in text
        assert "5 April 1961" in text
        assert made.visit.patient.record_number in text


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_a_long_name_is_whole_and_inside_the_paper(
    made: Assessment, size: str, tmp_path: Any
) -> None:
    listed = signed_with(made)
    name = f"{'Wilhelmina' * 10} {'Thistledown' * 9}"
    long = replace(listed, who=replace(listed.who, name=name))
    html = render_to_string("documents/supply_list/list.html", {"list": long, "paper": size})
    pdf = pdf_of(html)
    assert name.replace(" ", "") in paper.whole_text(pdf).replace(" ", "")
    for box in paper.boxes(pdf, tmp_path):
        assert box.top >= 14
        assert 28 <= box.left < box.right <= box.page_width - 28


# --- the table ------------------------------------------------------------------------------
def rows(listed: SupplyList, made: Assessment) -> list[dict[str, str]]:
    made_csv = supply_csv(listed, made.visit.patient)
    assert made_csv.startswith(b"\xef\xbb\xbf")
    return list(csv.DictReader(io.StringIO(made_csv.decode("utf-8-sig"), newline="")))


def test_the_table(made: Assessment) -> None:
    barrier, ring, powder = rows(signed_with(made), made)
    assert set(ring) == set(COLUMNS)
    assert ring["date_of_birth"] == "1961-04-05"
    assert (ring["visit_date"], ring["next_visit_date"]) == ("2026-03-02", "2026-03-16")
    assert (ring["until_next_visit"], ring["until_next_visit_at_most"]) == ("6", "8")
    assert (ring["unit"], ring["unit_ucum"], ring["hcpcs_code"]) == ("each", "{each}", "A4404")
    assert (powder["per_30_days"], powder["unit_ucum"]) == ("", "[oz_av]")
    assert ring["note"].startswith("Code doubtful: ask the biller.")
    assert "Code" not in powder["note"]
    assert barrier["hcpcs_code"] == ""
    assert ring["visit_signed"] == "yes"


@pytest.mark.parametrize("sly", ["=1+1", "+1", "-1", "@sum", "\t=1", " =1", "\r=1"])
def test_a_name_is_never_a_formula(made: Assessment, sly: str) -> None:
    """OWASP, CSV injection."""
    listed = signed_with(made)
    type(made.visit.patient).objects.filter(pk=made.visit.patient.pk).update(family_name=sly)
    made.visit.patient.refresh_from_db()
    assert rows(listed, made)[0]["family_name"] == f"'{sly}"
    assert guarded(sly)[0] == "'"


# --- codes ----------------------------------------------------------------------------------
def choose(made: Assessment, *codes: str) -> None:
    choose_codes(
        assessment=made,
        offered=offers(PLAN, "ileostomy"),
        codes=codes,
        by=made.visit.clinician,
        at=timezone.now(),
    )


def codes_of(made: Assessment) -> list[str]:
    return [one.code for one in ChosenCode.objects.filter(assessment=made)]


def test_offered_are_the_plans_and_the_status_and_none_is_ticked(made: Assessment) -> None:
    assert [one.code for one in offers(PLAN, "ileostomy")] == ["K94.13", "L24.B3", "Z93.2"]
    assert signed_with(made).codes == ()


def test_codes_are_chosen_after_the_signature_only(made: Assessment) -> None:
    with pytest.raises(NotAllowedNow):
        choose(made, "L24.B3")
    with pytest.raises(IntegrityError, match="signed visit"), transaction.atomic():
        ChosenCode.objects.create(
            assessment=made, code="L24.B3", title="x", release="x",
            chosen_by=made.visit.clinician, chosen_at=timezone.now(),
        )  # fmt: skip


def test_excluded_pairs_are_refused_and_nothing_is_written(made: Assessment) -> None:
    """ICD-10-CM tabular list: Z93 Excludes1 K94.-."""
    signed_with(made)
    choose(made, "L24.B3")
    with pytest.raises(CodesRefusedError) as refused:
        choose(made, "K94.13", "Z93.2")
    assert refused.value.problems == (
        "Z93.2 and K94.13 cannot be combined for one stoma (Excludes1 in the code list): "
        "keep one of them.",
    )
    assert codes_of(made) == ["L24.B3"]


def test_what_is_not_offered_is_not_kept(made: Assessment) -> None:
    signed_with(made)
    choose(made, "L24.B3", "C18.9", "nonsense")
    assert codes_of(made) == ["L24.B3"]


def test_a_choice_can_be_taken_back_and_its_history_stays(made: Assessment) -> None:
    signed_with(made)
    choose(made, "L24.B3", "Z93.2")
    first = ChosenCode.objects.get(assessment=made, code="Z93.2")
    choose(made, "Z93.2")
    assert codes_of(made) == ["Z93.2"]
    assert ChosenCode.objects.get(assessment=made).pk == first.pk
    events = ChosenCode.pgh_event_model.objects.order_by("pgh_id")  # type: ignore[attr-defined]
    assert [(e.code, e.pgh_label) for e in events] == [
        ("L24.B3", "insert"),
        ("Z93.2", "insert"),
        ("L24.B3", "delete"),
    ]


def test_a_code_without_what_it_calls_for_says_so() -> None:
    """ICD-10-CM tabular list: L24.B, use additional code Z93.-."""
    assert asked_for(["L24.B3"]) == ("L24.B3: add the stoma's status (Z93.-).",)
    assert asked_for(["L24.B3", "Z93.2"]) == ()


# --- pages ----------------------------------------------------------------------------------
def as_role(client: Client, role: Role) -> Client:
    client.force_login(UserFactory.create(role=role))
    return client


def at(name: str, made: Assessment) -> str:
    return reverse(f"documents:{name}", args=[made.uuid])


def test_codes_ticked_on_the_page_reach_paper_and_table(client: Client, made: Assessment) -> None:
    signed_with(made)
    as_role(client, Role.NURSE)
    before = client.get(at("supplies", made)).content.decode()
    assert "checked" not in before.split('id="codes"')[1]
    response = client.post(at("codes", made), {"code": ["L24.B3", "Z93.2"]}, follow=True)
    assert response.status_code == 200
    assert response.content.decode().count(" checked") == 2
    printed = client.get(at("supply_list", made))
    assert "L24.B3 Irritant contact dermatitis" in paper.whole_text(printed.content)
    table = client.get(at("supply_list_csv", made))
    assert "L24.B3; Z93.2" in table.content.decode("utf-8-sig")
    assert table["Content-Disposition"] == 'attachment; filename="supply-list.csv"'
    told = list(AccessLog.objects.order_by("id").values_list("action", "detail"))
    assert ("chose codes", "") in told
    assert ("printed", "supply list") in told
    assert ("exported", "supply list, CSV") in told


def test_a_refused_pair_is_shown_beside_the_ticks_which_stay(
    client: Client, made: Assessment
) -> None:
    signed_with(made)
    as_role(client, Role.NURSE)
    response = client.post(at("codes", made), {"code": ["K94.13", "Z93.2"]})
    assert response.status_code == 422
    page = response.content.decode()
    assert "cannot be combined" in page
    assert page.count(" checked") == 2
    assert not ChosenCode.objects.exists()


@pytest.mark.parametrize("role", [Role.SURGEON, Role.LEAD])
def test_who_reads_sees_no_boxes(client: Client, made: Assessment, role: Role) -> None:
    signed_with(made)
    page = as_role(client, role).get(at("supplies", made)).content.decode()
    assert 'type="checkbox"' not in page
    assert client.post(at("codes", made), {"code": "Z93.2"}).status_code == 403


def test_the_desk_prints_without_the_page_and_without_the_file(
    client: Client, made: Assessment
) -> None:
    """Need and codes are clinical: on the patient's own paper, not on the desk's screen or disk."""
    signed_with(made)
    as_role(client, Role.DESK)
    assert client.get(at("supplies", made)).status_code == 403
    assert client.get(at("supply_list", made)).status_code == 200
    assert client.get(at("supply_list_csv", made)).status_code == 403


def test_seeing_without_printing_gives_no_file(
    client: Client, made: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    signed_with(made)
    monkeypatch.setattr(permissions, "ROLE_RIGHTS", {Role.SURGEON: frozenset({Right.SEE_CLINICAL})})
    as_role(client, Role.SURGEON)
    assert client.get(at("supply_list_csv", made)).status_code == 403


def test_a_plan_without_supplies_says_so(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    plan = replace(PLAN, quantities=())
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan)
    made_visits.sign(made)
    response = as_role(client, Role.NURSE).get(at("supplies", made))
    assert response.status_code == 409
    assert "has no supplies" in response.content.decode()


@pytest.mark.parametrize("name", ["supplies", "supply_list", "supply_list_csv"])
def test_a_plan_whose_supplies_were_all_dropped_says_so(
    client: Client, made: Assessment, name: str
) -> None:
    barrier = ("soft_convex_shallow", "one_piece", "drainable")
    signed_with(made, dropped=(*barrier, "ring", "powder"))
    response = as_role(client, Role.NURSE).get(at(name, made))
    assert response.status_code == 409
    assert "Every supply of this plan was dropped" in response.content.decode()


def test_number_of_queries_is_constant(
    client: Client, made: Assessment, django_assert_max_num_queries: Any
) -> None:
    signed_with(made)
    choose(made, "L24.B3", "Z93.2")
    as_role(client, Role.NURSE)
    with django_assert_max_num_queries(29):
        assert client.get(at("supplies", made)).status_code == 200
