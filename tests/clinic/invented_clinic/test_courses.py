"""Each course of the invented clinic tells its story."""

import pytest
from django.utils import timezone

from clinic.follow_up.models import FollowUp
from clinic.patients.models import Patient, Stoma
from clinic.plans.models import PlanSnapshot
from clinic.referrals.models import Referral, Urgency
from clinic.visits.models import SkinFinding, Visit
from fixtures.invented_clinic.load import Loaded
from tests.clinic.invented_clinic.changes_over_clinic import counted, table
from tests.clinic.invented_clinic.record import families, kinds, seen

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("family", ["Footstool", "Hailstone"])
def test_a_leak_at_the_lowest_hours_heals_after_a_change(loaded: Loaded, family: str) -> None:
    first, *_, last = seen(family)
    assert set(first.system.leak_hours) <= {5, 6, 7}
    assert kinds(first)
    assert first.system.opening_length_mm > last.system.opening_length_mm
    assert last.system.leak_hours == []
    assert kinds(last) == set()
    assert last.last_plan_helped is True


@pytest.mark.parametrize("family", families("shrinking"))
def test_a_new_stoma_shrinks(loaded: Loaded, family: str) -> None:
    lengths = [one.measurement.length_mm for one in seen(family)]
    assert lengths == sorted(lengths, reverse=True)
    assert lengths[0] - lengths[-1] >= 8


@pytest.mark.parametrize("family", families("flush"))
def test_a_low_stoma_is_helped_by_a_convex_barrier(loaded: Loaded, family: str) -> None:
    first, *_, last = seen(family)
    assert all(one.measurement.protrusion_mm <= 4 for one in (first, last))
    assert first.system.profile == "flat"
    assert first.system.leak_hours
    assert last.system.profile == "convex"
    assert last.system.leak_hours == []


@pytest.mark.parametrize("family", families("prolapse"))
def test_a_prolapse_grows_and_slips_back(loaded: Loaded, family: str) -> None:
    heights = [one.measurement.protrusion_mm for one in seen(family)]
    assert heights == sorted(set(heights))
    last = seen(family)[-1].measurement
    assert last.prolapse == "present"
    assert last.prolapse_reducible is True


@pytest.mark.parametrize("family", families("hernia"))
def test_a_bulge_appears_beside_the_stoma(loaded: Loaded, family: str) -> None:
    assert seen(family)[-1].abdomen.bulge == "present"


def test_the_bulge_is_held_with_a_half_ring(loaded: Loaded) -> None:
    _, lifted, *_, last = seen("Bookcase")
    assert lifted.system.leak_hours
    assert "half_ring" in last.system.accessories
    assert last.system.leak_hours == []


@pytest.mark.parametrize("family", families("contact_reaction"))
def test_a_contact_reaction_is_found_out_and_settles(loaded: Loaded, family: str) -> None:
    patient = Patient.objects.get(family_name=family)
    reacted = SkinFinding.objects.get(
        assessment__visit__patient=patient, product_outline=True, hours__len=12
    )
    assert reacted.assessment.system.leak_hours == []
    assert patient.sensitivities.count() == 1
    assert kinds(seen(family)[-1]) == set()


def test_high_output_comes_down(loaded: Loaded) -> None:
    volumes = [one.output.volume_ml_24h or 0 for one in seen("Thunderhead")]
    assert volumes[0] >= 1500
    assert 0 < volumes[-1] < 1000


@pytest.mark.parametrize("family", families("urostomy_crystals"))
def test_crystals_come_and_go(loaded: Loaded, family: str) -> None:
    signs = [one.output.urine_signs for one in seen(family)]
    assert any("crystals" in found for found in signs)
    assert signs[-1] == []


@pytest.mark.parametrize("family", families("separation"))
def test_the_skin_join_opens_early_and_narrows(loaded: Loaded, family: str) -> None:
    first, *_, last = seen(family)
    assert first.measurement.junction == "separated"
    assert first.stoma.surgery_date is not None
    assert (first.visit.happened_at.date() - first.stoma.surgery_date).days < 21
    assert len(last.measurement.separation_hours or []) < len(first.measurement.separation_hours)


@pytest.mark.parametrize("family", families("yeast"))
def test_yeast_follows_antibiotics_and_clears(loaded: Loaded, family: str) -> None:
    spotted = [one for one in seen(family) if "satellites" in kinds(one)]
    assert [one.recent_antibiotics for one in spotted] == [True]
    assert kinds(seen(family)[-1]) == set()


@pytest.mark.parametrize("family", families("pressure_mark"))
def test_a_pressure_mark_goes_after_stepping_down(loaded: Loaded, family: str) -> None:
    marked = next(one for one in seen(family) if "pressure_mark" in kinds(one))
    last = seen(family)[-1]
    assert marked.system.compressibility == "less"
    assert last.system.compressibility == "more"
    assert kinds(last) == set()


@pytest.mark.parametrize("family", families("uncomplicated"))
def test_what_fits_is_left_alone(loaded: Loaded, family: str) -> None:
    assert all(kinds(one) == set() and one.system.leak_hours == [] for one in seen(family))
    assert seen(family)[-1].plan.plan["leave_alone"] is True


def test_a_dusky_stoma_is_an_emergency(loaded: Loaded) -> None:
    first, second = seen("Ottoman")
    assert first.plan.plan["urgency"] == Urgency.EMERGENCY
    referral = first.referrals.get(flag_key="dusky")
    assert referral.urgency == Urgency.EMERGENCY
    assert referral.answered_at is not None
    assert second.measurement.colour == "pink_red"


def test_two_stomas_are_planned_apart(loaded: Loaded) -> None:
    assert len(seen("Hoarfrost", "colostomy")) == 2
    assert len(seen("Hoarfrost", "urostomy")) == 3


@pytest.mark.parametrize("family", families("closed"))
def test_a_closed_stoma_has_nothing_due(loaded: Loaded, family: str) -> None:
    closed = Stoma.objects.get(patient__family_name=family, closed_on__isnull=False)
    assert not FollowUp.objects.open().filter(stoma=closed).exists()


def test_hands_and_eyes_differ(loaded: Loaded) -> None:
    assert Patient.objects.filter(large_print=True).count() >= 2
    assert Patient.objects.filter(hand_dexterity="one hand").exists()
    assert Patient.objects.filter(eyesight="limited").exists()
    assert Patient.objects.filter(pouch_changed_by="carer").exists()


@pytest.mark.parametrize("family", families("creases"))
def test_a_filled_crease_no_longer_leaks(loaded: Loaded, family: str) -> None:
    first, *_, last = seen(family)
    creased = {hour for crease in first.crease_rows.all() for hour in crease.hours}
    assert set(first.system.leak_hours) == creased
    assert last.crease_rows.exists()
    assert last.system.leak_hours == []


@pytest.mark.parametrize("family", families("removal"))
def test_harm_from_removal_stops_with_a_remover(loaded: Loaded, family: str) -> None:
    first, last = seen(family)
    assert kinds(first) <= {"stripping", "hair_pustules"}
    assert "adhesive_remover" in last.system.accessories
    assert kinds(last) == set()


@pytest.mark.parametrize("family", families("rare"))
def test_what_is_rare_is_referred(loaded: Loaded, family: str) -> None:
    assert Referral.objects.filter(assessment__visit__patient__family_name=family).exists()


def test_today_holds_an_unfinished_visit_and_a_newcomer(loaded: Loaded) -> None:
    draft = Visit.objects.drafts().get()
    assert timezone.localdate(draft.happened_at) == timezone.localdate()
    assessment = draft.assessments.get()
    assert assessment.measurement.length_mm is not None
    assert not hasattr(assessment, "abdomen")
    assert not Visit.objects.filter(patient__family_name="Lectern").exists()


@pytest.mark.parametrize("family", families("child"))
def test_a_child_gets_no_supplies_and_her_team_is_asked(loaded: Loaded, family: str) -> None:
    for one in seen(family):
        plan = one.plan.plan
        assert plan["made_for"] == "child"
        assert plan["supplies"] == []
        assert "paediatric stoma team" in plan["headline"]
    assert Referral.objects.filter(assessment__visit__patient__family_name=family).exists()


EMERGENCIES = [
    ("Rowboat", "blocked_ileostomy"),
    ("Haystack", "blocked_colostomy"),
    ("Teapot", "necrosis"),
    ("Lanternfly", "spurting"),
    ("Driftwood", "dehydration"),
    ("Pinecone", "urine_infection"),
    ("Milkchurn", "no_urine"),
    ("Gooseberry", "hernia_trapped"),
    ("Cartwheel", "prolapse_trapped"),
    ("Dovecote", "separation_deep"),
    ("Kettledrum", "infection"),
    ("Windmill", "anaphylaxis"),
    ("Dustpan", "bowel_outside"),
    ("Bellows", "sepsis"),
]


@pytest.mark.parametrize(("family", "flag"), EMERGENCIES)
def test_each_emergency_is_found_and_referred(loaded: Loaded, family: str, flag: str) -> None:
    before, now = seen(family)
    assert before.plan.plan["urgency"] == Urgency.ROUTINE
    assert now.plan.plan["urgency"] == Urgency.EMERGENCY
    assert now.plan.plan["fit"]["answer"] == "not_now"
    assert now.referrals.get(flag_key=flag).urgency == Urgency.EMERGENCY


def test_every_family_of_the_emergencies_is_tried() -> None:
    assert [family for family, _ in EMERGENCIES] == families("emergencies")


@pytest.mark.parametrize("family", families("known"))
def test_what_is_long_standing_and_agreed_stays_as_known(loaded: Loaded, family: str) -> None:
    for one in seen(family):
        assert one.plan.plan["urgency"] == Urgency.ROUTINE
        (said,) = (n["text"] for n in one.plan.plan["notices"] if "agreed (" in n["text"])
        assert said.endswith("as known.")


def test_a_narrow_opening_is_seen_by_a_surgeon_within_days(loaded: Loaded) -> None:
    (family,) = families("narrow")
    wide, narrow, widened = seen(family)
    assert [one.plan.plan["urgency"] for one in (wide, widened)] == [Urgency.ROUTINE] * 2
    assert narrow.plan.plan["urgency"] == Urgency.DAYS
    assert "narrow" in {flag["key"] for flag in narrow.plan.plan["red_flags"]}


def test_a_possible_blockage_beside_a_good_fit_is_seen_today(loaded: Loaded) -> None:
    plan = seen("Plumtree")[-1].plan.plan
    assert plan["urgency"] == Urgency.SAME_DAY
    assert plan["red_flags"][0]["key"] == "blocked_ileostomy"
    assert plan["fit"]["answer"] == "fits"


def test_a_second_opening_is_referred(loaded: Loaded) -> None:
    assert seen("Inkwell")[-1].referrals.get(flag_key="fistula").urgency == Urgency.DAYS


def test_a_jejunostomy_that_is_as_ever_is_only_telephoned_about(loaded: Loaded) -> None:
    last = seen("Sideboard")[-1]
    assert last.plan.plan["urgency"] == Urgency.TELEPHONE
    assert last.plan.plan["fit"]["answer"] == "fits"
    assert last.plan.plan["fit"]["changes"] == 0


def test_most_plans_change_nothing_and_none_more_than_two_things(loaded: Loaded) -> None:
    found = counted()
    assert sum(found.values()) == PlanSnapshot.objects.count()
    assert max(many for many, _ in found) <= 2
    assert found[0, False] > sum(found.values()) / 2
    told = dict(enumerate(list(table(found))[1:-1]))
    assert told[1].split() == ["1", str(found[1, False] + found[1, True]), str(found[1, True])]
