"""What to do besides supplies: how long to wear, what to teach, what to leave off."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.evidence.thresholds import OUTPUT_CALL, SHRINKS_DAYS
from planning.facts.change_day import SOURCES, Says
from planning.facts.change_interval import ChangeInterval
from planning.facts.derive import fistula_at_barrier, still_shrinks
from planning.inputs.findings import Condition, StomaKind, UrineSign
from planning.ranked_facts import RankedFacts
from planning.recommendations.blockage import first_aid, food_and_drink, slow_bowel
from planning.recommendations.bulge_support import support_advice
from planning.recommendations.change_time import keeps_own_day, melts_early
from planning.recommendations.refer import open_needs
from planning.recommendations.situations import situation_advice
from planning.recommendations.situations.last_weeks import spared
from planning.recommendations.step_advice import step_advice
from planning.recommendations.suspected_product import contact_advice
from planning.results.message import Day, Message, Words, to_patient
from planning.results.plan import Change, ItemKind, Reason, Recommendation
from planning.supplies.system_choice import SystemChoice

_AT_ONCE: Final = "Change at once if it itches, burns or leaks."
_BY_ADHESIVE: Final = "injury of the skin by adhesive"


def advice(chosen: SystemChoice) -> Iterator[Recommendation]:
    """All advice that these findings call for."""
    left_out = spared(chosen)
    return (told for told in _all(chosen) if told.key not in left_out)


def _all(chosen: SystemChoice) -> Iterator[Recommendation]:
    yield from first_aid(chosen.situation)
    yield from food_and_drink(chosen.situation)
    yield from slow_bowel(chosen.situation)
    yield from _wear(chosen)
    yield from contact_advice(chosen.situation)
    yield from _skin(chosen)
    yield from _second_opening(chosen.situation)
    yield from support_advice(chosen)
    yield from step_advice(chosen)
    yield from _hands(chosen)
    yield from _output(chosen.situation)
    yield from _measure_again(chosen.situation)
    yield from situation_advice(chosen)
    yield from open_needs(chosen)


def _tip(
    key: str,
    text: str,
    patient_text: Words | None,
    because: tuple[Reason, ...],
    kind: ItemKind = ItemKind.TEACH,
    change: Change = Change.START,
) -> Recommendation:
    return Recommendation(key, kind, change, text, because, (), to_patient(patient_text))


def _seems(situation: RankedFacts, key: str, what: str, *sources: str) -> Reason:
    """A cause as a reason: likely, or only possible while it is level with another."""
    return Reason(f"{situation.possible(key)}: {what}.", sources, "skin")


def _wear(chosen: SystemChoice) -> Iterator[Recommendation]:
    interval, log = chosen.wear, chosen.wear.log
    if interval.limit is not None and not {"one_piece", "closed"} <= chosen.supplies:
        yield _change_by(int(interval.limit), interval)
    elif log is not None and keeps_own_day(chosen):
        yield _tip(
            "wear_as_now",
            "Keep the person's own change day; change at once when it itches, burns or leaks",
            to_patient("Change it on the day you do now.", _AT_ONCE),
            (Reason(log.text, SOURCES, "wear"),),
            ItemKind.WEAR,
            Change.KEEP,
        )
    if log is not None and log.says is Says.NO_DAY:
        yield _tip(
            "early_leak_cause",
            "Leaks come too early for any change day: first remove a cause (residue left on, a "
            "load across the barrier, technique, overfilling) and start a new count; if none is "
            "found, refit",
            to_patient("Write down each change, so that we can find the cause.", _AT_ONCE),
            (Reason(log.text, SOURCES, "wear"),),
        )


def _change_by(day: int, interval: ChangeInterval) -> Recommendation:
    """At the latest, never at least: a barrier that holds is left on."""
    keep = "Keep: change" if interval.as_now else "Change"
    return _tip(
        "wear_interval",
        f"{keep} on day {day} at the latest, and at once when it itches, burns or leaks",
        to_patient(Message.of("Change on {day} at the latest.", day=Day(day)), _AT_ONCE),
        interval.because,
        ItemKind.WEAR,
        Change.KEEP if interval.as_now else Change.CHANGE,
    )


def _skin(chosen: SystemChoice) -> Iterator[Recommendation]:
    situation = chosen.situation
    if situation.facts.skin_clear is False:
        yield _tip(
            "no_creams",
            "No creams, oils or ointments under the barrier",
            "Put no cream or oil under the barrier.",
            (Reason("A barrier comes off greasy skin.", ("lyon2000steroid/greasy",)),),
        )
    if situation.likely("folliculitis"):
        yield _tip(
            "trim_hair",
            "Trim hair with scissors or an electric trimmer; no dry shaving, not at every change",
            "Trim the hair short. Do not shave it dry.",
            (
                _seems(
                    situation, "folliculitis", "inflamed hair roots", "folliculitis/trim", PRACTICE
                ),
            ),
        )
    if situation.likely("stripping"):
        torn = _seems(situation, "stripping", _BY_ADHESIVE, "leblanc2019/look", PRACTICE)
        yield _tip(
            "gentle_peel",
            "Peel low and slowly, skin held down",
            "Peel the barrier off slowly. Hold the skin down with your other hand.",
            (torn,),
        )
        said = chosen.wear.limit is not None or melts_early(chosen) or keeps_own_day(chosen)
        if not said:
            # Never beside a day that is set, which may ask for the opposite.
            yield _tip(
                "wear_longer",
                "Change less often if the seal allows",
                "Leave it on longer if it holds well.",
                (torn,),
                ItemKind.WEAR,
            )
    if situation.likely("dermatosis"):
        yield _tip(
            "ask_dermatology",
            "Dermatology, within weeks: a prescriber may order a steroid lotion, never a cream "
            "under the barrier",
            None,
            (
                _seems(
                    situation,
                    "dermatosis",
                    "a separate skin disease",
                    "lyon2000steroid/lotion",
                    PRACTICE,
                ),
            ),
            ItemKind.REFER,
        )
    yield from _wet_collar(situation)


def _wet_collar(situation: RankedFacts) -> Iterator[Recommendation]:
    signs = situation.facts.findings.output.urine_signs or frozenset()
    urine = situation.facts.kind is StomaKind.UROSTOMY
    if urine and (situation.likely("warty") or UrineSign.CRYSTALS in signs):
        # Nothing but water touches skin that is being irradiated.
        water = situation.facts.has(Condition.RADIOTHERAPY_NOW) is True
        ask = "Ask the prescriber about the acidity of the urine"
        yield _tip(
            "urine_acid",
            ask
            if water
            else f"{ask}; a compress of equal parts white vinegar and water for a few minutes "
            "removes crystals",
            None
            if water
            else "At each change, lay on a cloth wet with half white vinegar, half water, for a "
            "few minutes.",
            (
                Reason(
                    "Crystals come from alkaline urine; warty skin is treated with acid urine.",
                    ("urostomy2014/crystals", "brogna2021/treated"),
                    "output.urine_signs",
                ),
            ),
        )
    if situation.likely("granuloma"):
        yield _tip(
            "granuloma_review",
            "Correct what rubs; if it persists for 4 to 6 weeks, refer for a biopsy",
            None,
            (_seems(situation, "granuloma", "a granuloma at the junction", MEMORY),),
            ItemKind.REFER,
        )


def _second_opening(situation: RankedFacts) -> Iterator[Recommendation]:
    if fistula_at_barrier(situation.facts):
        yield _tip(
            "cut_for_both",
            "Measure stoma and second opening together and cut one opening that takes in both, the "
            "skin between covered; no size or template is given here, and nothing is cut for the "
            "stoma alone",
            "Let us cut the hole for you. It must take in both openings.",
            (
                Reason(
                    "A barrier cut for the stoma alone would seal the second opening.",
                    (DESIGN,),
                    "skin",
                ),
            ),
            ItemKind.OPENING,
            Change.CHANGE,
        )


def _hands(chosen: SystemChoice) -> Iterator[Recommendation]:
    need = next((n for n in chosen.unmet if n.key == "no_cutting"), None)
    if need is None:
        return
    if "mouldable" in chosen.supplies:
        text = "Agree who rolls the opening to size at each change: a carer or a nurse"
        plain = "Agree who will roll the hole for you."
    elif still_shrinks(chosen.situation.facts):
        text = "Agree who measures and cuts at each change while the stoma shrinks"
        plain = "Agree who will measure and cut for you at each change."
    else:
        text = (
            "Have a supply of openings cut ahead from the template by a carer, a nurse or the "
            "supplier, and say who"
        )
        plain = "Let someone cut the holes for you ahead of time."
    yield _tip("cut_ahead", text, plain, need.because)


def _output(situation: RankedFacts) -> Iterator[Recommendation]:
    volume = situation.facts.findings.output.volume_ml_24h
    if volume is None or volume < OUTPUT_CALL.value or not situation.facts.small_bowel:
        return
    yield _tip(
        "fluids",
        "Oral rehydration plan from the team: sipped glucose-salt solution, no plain water to "
        "catch up; medicines by the prescriber only",
        "Sip the salt and sugar drink the team gives you. Plain water makes it worse.",
        (
            Reason(
                f"Output is {volume:g} mL in 24 hours.",
                ("nightingale2006/drinks", "gateshead/not_water"),
                "output.volume_ml_24h",
            ),
        ),
    )


def _measure_again(situation: RankedFacts) -> Iterator[Recommendation]:
    days = situation.facts.findings.stoma.days_since_surgery
    if days is None or days >= SHRINKS_DAYS.value:
        return
    yield _tip(
        "measure_weekly",
        "Measure again every week, or at every change, until 8 weeks after surgery",
        "Your stoma is still shrinking. Measure it each week.",
        (
            Reason(
                "A stoma shrinks for 6 to 8 weeks after surgery.",
                ("mskcc/shrinks", "weekly/measured", DESIGN),
                "stoma.days_since_surgery",
            ),
        ),
    )
