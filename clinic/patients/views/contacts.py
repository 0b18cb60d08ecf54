"""Change how a person is reached: telephones, language, carer, family doctor, address."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.once.sending import once
from clinic.patients.actions import save_contacts
from clinic.patients.contacts_form import ContactsForm, TelephoneRows
from clinic.patients.models import Contacts, Patient
from clinic.requests import posted

#: Empty rows below the telephones on record.
BLANK_ROWS = 2


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.EDIT_IDENTITY)
@once
def contacts(request: HttpRequest, patient: UUID) -> HttpResponse:
    """All of it on one page; the earlier words stay in the history."""
    person = get_object_or_404(Patient, uuid=patient)
    kept = Contacts.objects.filter(patient=person).first() or Contacts(patient=person)
    clinical = may(request.user, Right.SEE_CLINICAL)
    form = ContactsForm(posted(request), instance=kept, clinical=clinical)
    telephones = TelephoneRows(posted(request), person.telephones.all(), blank=BLANK_ROWS)
    # Both say what is wrong, not only the first.
    valid = [form.is_valid(), telephones.is_valid()]
    if request.method == "POST" and all(valid):
        save_contacts(patient=person, by=request, values=form.values(), numbers=telephones.numbers)
        messages.success(request, "Contacts saved.")
        return redirect("patients:record", person.uuid)
    record(request_or_actor=request, action="opened to change", subject=person)
    page = {
        "form": form,
        "telephones": telephones,
        "forms": [*telephones, form],
        "patient": Patient.objects.get(pk=person.pk),
        "cancel": reverse("patients:record", args=[person.uuid]),
    }
    return render(request, "patients/contacts.html", page)
