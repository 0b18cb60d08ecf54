"""A signed visit is final: the database itself refuses to change it or anything in it."""

import pgtrigger


def final_once_signed(name: str, find_visit: str) -> pgtrigger.Trigger:
    """Refuse insert, update and delete of a row whose visit is signed.

    ``find_visit``: SQL giving the visit's id for ``touched`` (NEW, or OLD on delete).
    """
    return pgtrigger.Trigger(
        name=name,
        level=pgtrigger.Row,
        when=pgtrigger.Before,
        operation=pgtrigger.Insert | pgtrigger.Update | pgtrigger.Delete,
        declare=[("touched", "RECORD")],
        # Only our own two constants below are ever put in.
        func=f"""
            IF TG_OP = 'DELETE' THEN touched := OLD; ELSE touched := NEW; END IF;
            IF EXISTS (
                SELECT 1 FROM visits_visit v WHERE v.id = ({find_visit}) AND v.state <> 'draft'
            ) THEN
                RAISE EXCEPTION 'This visit is signed and cannot be changed.'
                    USING ERRCODE = 'check_violation';
            END IF;
            IF TG_OP = 'DELETE' THEN RETURN OLD; END IF;
            RETURN NEW;
        """,  # noqa: S608
    )


OF_ASSESSMENT = "SELECT a.visit_id FROM visits_assessment a WHERE a.id = touched.assessment_id"
OF_VISIT = "touched.visit_id"
