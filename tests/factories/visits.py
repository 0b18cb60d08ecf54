"""Visits and their parts. A trait of ``AssessmentFactory`` charts one whole situation."""

import io
from datetime import UTC, date, datetime
from typing import Any

import factory
from PIL import Image

from clinic.visits.choices import (
    Accessory,
    Bleeding,
    Colour,
    Consistency,
    Contour,
    Firmness,
    Flexibility,
    Junction,
    LumenPosition,
    Oedema,
    OpeningKind,
    Pieces,
    PouchKind,
    Presence,
    Profile,
    RemovalReason,
    Shape,
    SkinKind,
    SkinState,
    Turgor,
)
from clinic.visits.models import (
    AbdomenAssessment,
    Assessment,
    Crease,
    OutputAssessment,
    Photo,
    PouchingSystem,
    SkinAssessment,
    SkinFinding,
    StomaMeasurement,
    Visit,
    WearEpisode,
)
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, StomaFactory

HAPPENED_AT = datetime(2025, 5, 6, 10, 15, tzinfo=UTC)
ALL_ROUND = list(range(1, 13))


class VisitFactory(factory.django.DjangoModelFactory[Visit]):
    """A draft; ``happened_at`` is a year and more after ``StomaFactory``'s surgery."""

    class Meta:
        model = Visit

    patient = factory.SubFactory(PatientFactory)
    clinician = factory.SubFactory(UserFactory)
    happened_at = HAPPENED_AT
    saved_by = factory.SelfAttribute("clinician")


class SystemFactory(factory.django.DjangoModelFactory[PouchingSystem]):
    """Flat, cut to fit the stoma of ``MeasurementFactory``; the used barrier was intact."""

    class Meta:
        model = PouchingSystem

    pieces = Pieces.ONE
    profile = Profile.FLAT
    flexibility = Flexibility.FLEXIBLE
    opening_kind = OpeningKind.CUT_TO_FIT
    opening_length_mm = 34
    opening_width_mm = 32
    pouch = PouchKind.DRAINABLE
    accessories: list[str] = []
    erosion_hours: list[int] = []
    leak_hours: list[int] = []


class MeasurementFactory(factory.django.DjangoModelFactory[StomaMeasurement]):
    """30 by 28 mm, 24 mm high, sound."""

    class Meta:
        model = StomaMeasurement

    shape = Shape.OVAL
    length_mm = 30
    width_mm = 28
    protrusion_mm = 24
    lumen = LumenPosition.CENTRE
    colour = Colour.PINK_RED
    turgor = Turgor.MOIST_SOFT
    oedema = Oedema.NONE
    junction = Junction.INTACT
    prolapse = Presence.NONE
    bleeding = Bleeding.NONE
    deep_cut = False


class SkinAssessmentFactory(factory.django.DjangoModelFactory[SkinAssessment]):
    class Meta:
        model = SkinAssessment

    state = SkinState.INTACT


class SkinFindingFactory(factory.django.DjangoModelFactory[SkinFinding]):
    class Meta:
        model = SkinFinding

    kind = SkinKind.ERYTHEMA
    hours = [5, 6, 7]
    inner_mm = 0
    outer_mm = 10


class AbdomenFactory(factory.django.DjangoModelFactory[AbdomenAssessment]):
    class Meta:
        model = AbdomenAssessment

    contour = Contour.ROUNDED
    firmness = Firmness.SOFT
    creases = Presence.NONE
    bulge = Presence.NONE


class CreaseFactory(factory.django.DjangoModelFactory[Crease]):
    """Give the assessment an ``AbdomenFactory(creases=Presence.PRESENT)`` too."""

    class Meta:
        model = Crease

    hours = [3, 9]
    depth_mm = 4
    postures = ["sitting"]


class OutputFactory(factory.django.DjangoModelFactory[OutputAssessment]):
    """An adapted ileostomy's output; every symptom was asked about and is absent."""

    class Meta:
        model = OutputAssessment

    volume_ml_24h = 700
    consistency = Consistency.PASTE
    symptoms: list[str] = []
    pain_0_10 = 0


class WearEpisodeFactory(factory.django.DjangoModelFactory[WearEpisode]):
    class Meta:
        model = WearEpisode

    on = date(2025, 5, 2)
    off = date(2025, 5, 6)
    reason = RemovalReason.PLANNED


def _part(part: type[factory.Factory[Any]], **values: Any) -> Any:
    return factory.RelatedFactory(part, factory_related_name="assessment", **values)


#: Looked at and sound, in a system that fits.
_SOUND = {
    "system": _part(SystemFactory),
    "measurement": _part(MeasurementFactory),
    "skin": _part(SkinAssessmentFactory),
    "abdomen": _part(AbdomenFactory),
    "output": _part(OutputFactory),
    "worn": _part(WearEpisodeFactory),
}
_SKIN_FOUND = _part(SkinAssessmentFactory, state=SkinState.FINDINGS)


class AssessmentFactory(factory.django.DjangoModelFactory[Assessment]):
    """Nothing charted yet, or one trait's situation.

    A part is adjusted by its name: ``AssessmentFactory(leaking=True, measurement__length_mm=25)``.
    The parts are ``system``, ``measurement``, ``skin``, ``finding``, ``abdomen``, ``output``,
    ``worn``.
    """

    class Meta:
        model = Assessment
        skip_postgeneration_save = True

    stoma = factory.SubFactory(StomaFactory)
    visit = factory.SubFactory(VisitFactory, patient=factory.SelfAttribute("..stoma.patient"))

    class Params:
        well_fitting = factory.Trait(**_SOUND)
        leaking = factory.Trait(
            **{
                **_SOUND,
                "system": _part(
                    SystemFactory,
                    opening_length_mm=40,
                    opening_width_mm=38,
                    erosion_hours=[5, 6, 7],
                    leak_hours=[5, 6, 7],
                ),
                "skin": _SKIN_FOUND,
                "finding": _part(
                    SkinFindingFactory,
                    kind=SkinKind.EROSION,
                    outer_mm=14,
                    burning=True,
                    moist=True,
                ),
                "output": _part(OutputFactory, consistency=Consistency.LIQUID),
                "worn": _part(WearEpisodeFactory, on=date(2025, 5, 4), reason=RemovalReason.LEAK),
            }
        )
        contact_reaction = factory.Trait(
            **{
                **_SOUND,
                "system": _part(SystemFactory, accessories=[Accessory.PROTECTANT]),
                "skin": _SKIN_FOUND,
                "finding": _part(
                    SkinFindingFactory,
                    hours=ALL_ROUND,
                    inner_mm=2,
                    outer_mm=40,
                    itch=True,
                    burning=False,
                    product_outline=True,
                ),
                "worn": _part(WearEpisodeFactory, reason=RemovalReason.ITCH_OR_PAIN),
            }
        )
        retracted = factory.Trait(
            **{
                **_SOUND,
                "measurement": _part(
                    MeasurementFactory,
                    protrusion_mm=-6,
                    lumen=LumenPosition.SKIN_LEVEL,
                    lumen_hour=6,
                ),
                "system": _part(SystemFactory, erosion_hours=[5, 6, 7], leak_hours=[5, 6, 7]),
                "worn": _part(WearEpisodeFactory, on=date(2025, 5, 4), reason=RemovalReason.LEAK),
            }
        )
        prolapse = factory.Trait(
            **{
                **_SOUND,
                "measurement": _part(
                    MeasurementFactory,
                    shape=Shape.MUSHROOM,
                    widest_mm=38,
                    protrusion_mm=60,
                    prolapse=Presence.PRESENT,
                    prolapse_extra_mm=36,
                    prolapse_reducible=True,
                    prolapse_painful=False,
                ),
            }
        )
        hernia = factory.Trait(
            **{
                **_SOUND,
                "abdomen": _part(
                    AbdomenFactory,
                    bulge=Presence.PRESENT,
                    bulge_hours=[1, 2, 3, 4],
                    bulge_height_mm=22,
                    bulge_width_mm=70,
                    bulge_reducible=True,
                    bulge_painful=False,
                ),
            }
        )


def _pixel() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (1, 1), "grey").save(out, "JPEG")
    return out.getvalue()


PIXEL = _pixel()


class PhotoFactory(factory.django.DjangoModelFactory[Photo]):
    """One grey pixel would do: no one looks at it."""

    class Meta:
        model = Photo

    assessment = factory.SubFactory(AssessmentFactory)
    image = PIXEL
    thumbnail = PIXEL
    width = 1
    height = 1
    taken_by = factory.SelfAttribute("assessment.visit.clinician")


def ended(assessment: Assessment, state: str = "signed") -> Assessment:
    """``assessment`` with its draft signed without a plan, or discarded: a stoma has one draft."""
    visit = assessment.visit
    visit.state = state
    if state == "signed":
        visit.signed_at, visit.signed_by = visit.happened_at, visit.clinician
    visit.save()
    return assessment
