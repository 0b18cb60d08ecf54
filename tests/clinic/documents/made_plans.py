"""Plans built by hand: what a sheet makes of a plan must not wait for any rule."""

from dataclasses import replace

from planning.results.message import Length, Message, Words, to_patient
from planning.results.plan import (
    CallWhen,
    CauseRanking,
    Change,
    Dimensions,
    FollowUp,
    ItemKind,
    Plan,
    Reason,
    Recommendation,
    RedFlag,
    Step,
    Urgency,
)

WHY = (Reason(text="found at this visit", sources=("CP",)),)


def item(
    key: str,
    kind: ItemKind,
    patient_text: Words | None,
    change: Change = Change.START,
    text: str = "",
) -> Recommendation:
    return Recommendation(
        key=key,
        kind=kind,
        change=change,
        text=text or f"For the clinician: {key}",
        because=WHY,
        patient_text=to_patient(patient_text),
    )


def step(key: str, patient_text: Words | None, *belongs_to: str) -> Step:
    return Step(key, f"For the clinician: {key}", to_patient(patient_text), ("CP",), belongs_to)


def call(urgency: Urgency, patient_text: Words) -> CallWhen:
    return CallWhen(urgency, to_patient(patient_text), ("CP",))


def flag(urgency: Urgency, patient_text: Words | None, key: str = "dark") -> RedFlag:
    told = to_patient(patient_text)
    return RedFlag(key, urgency, f"For the clinician: {key}", "Surgeon", "", WHY, told)


CALLS = (
    call(Urgency.EMERGENCY, "Your stoma turns black, purple or very pale."),
    call(Urgency.EMERGENCY, "Blood does not stop after you press for 10 minutes."),
    call(Urgency.EMERGENCY, "Nothing comes out for 4 hours and you have bad cramps or throw up."),
    call(Urgency.SAME_DAY, "You see blood each time you empty the pouch."),
    call(Urgency.SAME_DAY, "What comes out is like water for more than 6 hours."),
    call(Urgency.DAYS, "The pouch leaks, or the skin is sore or wet."),
)

BARE = Plan(
    rule_set="test",
    urgency=Urgency.ROUTINE,
    headline="For the clinician",
    leave_alone=False,
    red_flags=(),
    causes=CauseRanking(),
    needs=(),
    recommendations=(),
    runner_up=None,
    dimensions=Dimensions(),
    steps=(),
    quantities=(),
    follow_up=FollowUp(in_days=14, text="See again in 14 days.", because=WHY),
    call_when=CALLS,
    notices=(),
    missing=(),
    supplies=(),
)

LEAK = replace(
    BARE,
    dimensions=Dimensions(
        opening_length_mm=34.0,
        opening_width_mm=30.0,
        convex_depth_mm=3.4,
        convex_depth_class="shallow",
    ),
    recommendations=(
        item(
            "soft_convex_shallow",
            ItemKind.BARRIER,
            "A soft barrier with a low dome.",
            Change.CHANGE,
        ),
        item("opening", ItemKind.OPENING, "Cut the hole along the line of your template."),
        item(
            "ring", ItemKind.RING, "A soft ring round the stoma. Stretch it until it just touches."
        ),
        item("powder", ItemKind.SKIN_CARE, "Powder, on wet skin only. Stop when the skin is dry."),
        item("pouch", ItemKind.POUCH, "A pouch you can empty.", Change.KEEP),
        item(
            "wear", ItemKind.WEAR, "Change it every 3 days. Change at once if it leaks or itches."
        ),
        item("paste", ItemKind.FILLER, "Do not use paste any more.", Change.STOP),
        item("refer", ItemKind.REFER, None),
    ),
    steps=(
        step("time", "Pick a quiet time, before you eat or drink."),
        step("hands", "Wash your hands. Lay out what you need. Cut the hole first.", "opening"),
        step("off", "Empty the pouch. Push the skin away from the barrier. Do not pull."),
        step("look", "Look at the back of the old barrier. See where it has melted."),
        step("clean", "Clean the skin with warm water. Pat it dry."),
        step("powder", "Dust powder on the wet skin. Brush off the rest.", "powder"),
        step("ring", "Stretch the ring. Lay it round the stoma, starting at the feet.", "ring"),
        step("lie", "Lie back, so that your belly is flat.", "soft_convex_shallow"),
        step("on", "Put the barrier on from the bottom up. Press it for 2 minutes."),
        step("mark", "Press all round with a finger.", "soft_convex_shallow", "ring"),
        step("hidden", None),
        step("date", "Write down the date."),
    ),
)

LEAVE_ALONE = replace(
    BARE,
    leave_alone=True,
    recommendations=(
        item("keep", ItemKind.BARRIER, "The flat barrier you have now.", Change.KEEP),
        item(
            "opening",
            ItemKind.OPENING,
            Message.of("Keep the hole at {size}.", size=Length(30)),
            Change.KEEP,
        ),
        item("wear", ItemKind.WEAR, "Change it every 4 days, as you do now.", Change.KEEP),
    ),
    steps=LEAK.steps[:1] + LEAK.steps[2:5] + LEAK.steps[-1:],
)

CONTACT = replace(
    BARE,
    recommendations=(
        item(
            "barrier",
            ItemKind.BARRIER,
            "A barrier with a glue of another kind. Your skin did not like the old one.",
            Change.CHANGE,
        ),
        item(
            "opening",
            ItemKind.OPENING,
            Message.of("Keep the hole at {size}.", size=Length(28)),
            Change.KEEP,
        ),
        item("wipes", ItemKind.SKIN_CARE, "Do not use skin wipes any more.", Change.STOP),
        item("wear", ItemKind.WEAR, "Change it every 2 days for now."),
        item("water", ItemKind.TEACH, "Use warm water only. No soap, cream or oil."),
    ),
    steps=LEAK.steps[:1] + LEAK.steps[2:5] + LEAK.steps[-1:],
)

PROLAPSE = replace(
    BARE,
    urgency=Urgency.DAYS,
    red_flags=(
        flag(Urgency.DAYS, "Your stoma is longer than it was. A surgeon will look at it.", "long"),
    ),
    recommendations=(
        item("barrier", ItemKind.BARRIER, "A flat, soft barrier that bends with you."),
        item(
            "opening",
            ItemKind.OPENING,
            Message.of("Cut the hole {size} wide, for when the stoma swells.", size=Length(48)),
        ),
        item("pouch", ItemKind.POUCH, "A large pouch, so that nothing rubs.", Change.CHANGE),
        item("belt", ItemKind.SUPPORT, "No tight belt over the stoma.", Change.STOP),
    ),
    steps=(step("lie", "Lie flat and rest for a few minutes."), *LEAK.steps[2:5]),
    call_when=(
        call(Urgency.EMERGENCY, "The stoma turns dark, gets hard or hurts."),
        *CALLS[1:],
    ),
)

EMERGENCY = replace(
    BARE,
    urgency=Urgency.EMERGENCY,
    red_flags=(
        flag(
            Urgency.EMERGENCY,
            "Your stoma is very dark. A surgeon must look at it now. Do not eat or drink.",
        ),
    ),
    recommendations=(
        item("pouch", ItemKind.POUCH, "Keep a clear pouch on. Wear nothing that presses on it."),
    ),
    call_when=(),
)

ALL = {
    "leak": LEAK,
    "leave_alone": LEAVE_ALONE,
    "contact": CONTACT,
    "prolapse": PROLAPSE,
    "emergency": EMERGENCY,
}
