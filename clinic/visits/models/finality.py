"""A signed visit is final: the database itself refuses to change it or anything in it."""

import pgtrigger


def final_once_signed(name: str, find_visit: str) -> pgtrigger.Trigger:
    """Refuse insert, update and delete of a row whose visit is signed, before or after.

    ``find_visit``: SQL giving the visit's id for the row ``touched``. The visit's row is locked
    while it is asked, so that nothing slips in beside a signature under way.
    """
    # Only our own two constants below are ever put in.
    ask = f"""
            SELECT v.state INTO visit_state FROM visits_visit v
                WHERE v.id = ({find_visit}) FOR SHARE;
            IF visit_state <> 'draft' THEN
                RAISE EXCEPTION 'This visit is signed and cannot be changed.'
                    USING ERRCODE = 'check_violation';
            END IF;"""  # noqa: S608
    return pgtrigger.Trigger(
        name=name,
        level=pgtrigger.Row,
        when=pgtrigger.Before,
        operation=pgtrigger.Insert | pgtrigger.Update | pgtrigger.Delete,
        declare=[("touched", "RECORD"), ("visit_state", "TEXT")],
        func=f"""
            IF TG_OP <> 'INSERT' THEN
                touched := OLD;{ask}
            END IF;
            IF TG_OP <> 'DELETE' THEN
                touched := NEW;{ask}
            END IF;
            IF TG_OP = 'DELETE' THEN RETURN OLD; END IF;
            RETURN NEW;
        """,
    )


def never_emptied(name: str) -> pgtrigger.Trigger:
    """Refuse TRUNCATE, which no row trigger sees. No switch lets anyone past."""
    return pgtrigger.Trigger(
        name=name,
        level=pgtrigger.Statement,
        when=pgtrigger.Before,
        operation=pgtrigger.Truncate,
        func="RAISE EXCEPTION 'Records are never emptied.' USING ERRCODE = 'check_violation';",
    )


OF_ASSESSMENT = "SELECT a.visit_id FROM visits_assessment a WHERE a.id = touched.assessment_id"
OF_VISIT = "touched.visit_id"
