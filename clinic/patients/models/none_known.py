"""Asked and none known: an answer that excludes a recorded sensitivity.

Both triggers are needed, as either row may come second. ``FOR SHARE`` waits for anyone who is
answering at the same moment, so that two people cannot both be right.
"""

import pgtrigger

BESIDE_ROWS = "A sensitivity is on record. Remove it first, saying why."

NONE_KNOWN_STANDS_ALONE = pgtrigger.Trigger(
    name="none_known_stands_alone",
    when=pgtrigger.Before,
    operation=pgtrigger.Insert | pgtrigger.Update,
    condition=pgtrigger.Q(new__no_known_sensitivities=True),
    func="""
        IF EXISTS (SELECT 1 FROM patients_sensitivity WHERE patient_id = NEW.id) THEN
            RAISE EXCEPTION 'no known sensitivities, beside a recorded one'
                USING ERRCODE = 'check_violation';
        END IF;
        RETURN NEW;
    """,
)

NOT_BESIDE_NONE_KNOWN = pgtrigger.Trigger(
    name="not_beside_none_known",
    when=pgtrigger.Before,
    operation=pgtrigger.Insert | pgtrigger.Update,
    func="""
        PERFORM 1 FROM patients_patient WHERE id = NEW.patient_id FOR SHARE;
        IF EXISTS (
            SELECT 1 FROM patients_patient WHERE id = NEW.patient_id AND no_known_sensitivities
        ) THEN
            RAISE EXCEPTION 'a sensitivity, beside no known sensitivities'
                USING ERRCODE = 'check_violation';
        END IF;
        RETURN NEW;
    """,
)


def stays_with_patient() -> pgtrigger.Trigger:
    """Refuse to move a row to another person: what was charted on it would go along."""
    return pgtrigger.ReadOnly(name="stays_with_patient", fields=["patient"])
