"""The form templates: labels, groups, units, last values and errors, tied together."""

from typing import Any

import pytest
from crispy_forms.helper import FormHelper
from crispy_forms.layout import Fieldset, Layout, Submit
from crispy_forms.utils import render_crispy_form
from django import forms
from django.template import Context, Template
from tinyhtml5 import parse

from clinic.field_drawing import input_tag


class Measured(forms.Form):
    length = forms.IntegerField(label="Length", help_text="At the base", min_value=1)
    shape = forms.ChoiceField(choices=[("r", "Round"), ("o", "Oval")], widget=forms.RadioSelect)
    signs = forms.MultipleChoiceField(
        choices=[("i", "Itch"), ("b", "Burning")], widget=forms.CheckboxSelectMultiple
    )
    agreed = forms.BooleanField(label="Agreed")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["length"].unit = "mm"  # type: ignore[attr-defined]
        self.helper = FormHelper()


NS = "{http://www.w3.org/1999/xhtml}"


def tree(html: str) -> Any:
    return parse(html)


def find_all(root: Any, tag: str) -> list[Any]:
    return list(root.iter(f"{NS}{tag}"))


def by_id(root: Any, name: str) -> Any:
    return next(node for node in root.iter() if node.get("id") == name)


def words(node: Any) -> str:
    return " ".join("".join(node.itertext()).split())


def test_a_single_control_has_label_unit_and_help() -> None:
    root = tree(render_crispy_form(Measured()))
    box = by_id(root, "id_length")
    label = next(one for one in find_all(root, "label") if one.get("for") == "id_length")
    assert words(label) == "Length (mm)"
    assert box.get("aria-describedby") == "id_length_helptext"
    assert words(by_id(root, "id_length_helptext")) == "At the base"
    assert [words(one) for one in find_all(root, "span") if one.get("class") == "unit"] == ["mm"]
    assert box.get("aria-invalid") is None


@pytest.mark.parametrize("data", [None, {"shape": "o", "signs": ["b"]}])
def test_a_choice_is_drawn_as_its_widget_draws_it(data: dict[str, Any] | None) -> None:
    form = Measured(data)
    for name in ("shape", "signs"):
        for choice in form[name]:
            ours, theirs = (
                find_all(tree("".join((t,))), "input")[0] for t in (input_tag(choice), choice.tag())
            )
            assert dict(ours.items()) == dict(theirs.items())


def test_groups_are_fieldsets_whose_every_choice_has_its_label() -> None:
    root = tree(render_crispy_form(Measured()))
    groups = find_all(root, "fieldset")
    assert [words(find_all(group, "legend")[0]) for group in groups] == ["Shape", "Signs"]
    assert groups[0].get("role") == "radiogroup"
    for group in groups:
        inputs = {one.get("id") for one in find_all(group, "input")}
        assert {one.get("for") for one in find_all(group, "label")} == inputs


def test_errors_are_beside_their_field_and_in_the_summary() -> None:
    root = tree(render_crispy_form(Measured({"length": "0"})))
    box = by_id(root, "id_length")
    assert box.get("aria-invalid") == "true"
    assert box.get("value") == "0"
    assert box.get("aria-describedby") == "id_length_helptext id_length_error"
    assert "greater than or equal to 1" in words(by_id(root, "id_length_error"))
    summary = next(one for one in root.iter() if one.get("role") == "alert")
    links = [one.get("href") for one in find_all(summary, "a")]
    assert links == ["#id_length", "#id_shape_0", "#id_signs_0", "#id_agreed"]
    for link in links:
        assert by_id(root, link[1:]).tag == f"{NS}input"


def test_every_id_occurs_once_and_every_description_exists() -> None:
    root = tree(render_crispy_form(Measured({})))
    ids = [one.get("id") for one in root.iter() if one.get("id")]
    assert len(ids) == len(set(ids))
    for one in root.iter():
        assert set((one.get("aria-describedby") or "").split()) <= set(ids)


def test_the_last_value_is_beside_the_field_and_not_in_it() -> None:
    form = Measured()
    form["length"].last_value = "25 mm"  # type: ignore[attr-defined]
    form["shape"].last_value = "Round"  # type: ignore[attr-defined]
    root = tree(render_crispy_form(form))
    assert words(by_id(root, "id_length_last")) == "Last visit: 25 mm"
    assert by_id(root, "id_length").get("value") is None
    assert "id_length_last" in by_id(root, "id_length").get("aria-describedby")
    assert "id_shape_last" in by_id(root, "div_id_shape").get("aria-describedby")
    assert not [one for one in find_all(root, "input") if "checked" in one.attrib]


def test_a_field_by_itself_renders_the_same() -> None:
    page = Template("{% load crispy_forms_tags %}{{ form.length|as_crispy_field }}")
    assert 'aria-invalid="true"' in page.render(Context({"form": Measured({"length": "x"})}))


def test_layouts_and_buttons() -> None:
    form = Measured()
    form.helper.layout = Layout(Fieldset("Size", "length"), Submit("save", "Save"))
    root = tree(render_crispy_form(form))
    assert words(find_all(root, "legend")[0]) == "Size"
    button = find_all(root, "button")[0]
    assert (button.get("type"), button.get("name"), words(button)) == ("submit", "save", "Save")


@pytest.mark.parametrize("template", ["clinic/whole_uni_formset.html", None])
def test_formsets_number_their_rows_and_errors(template: str | None) -> None:
    made = forms.formset_factory(Measured, extra=0)
    data = {"form-TOTAL_FORMS": "2", "form-INITIAL_FORMS": "2"}
    page = Template("{% load crispy_forms_tags %}{% crispy formset helper %}")
    helper = FormHelper()
    helper.template = template
    html = page.render(Context({"formset": made(data), "helper": helper, "csrf_token": "x"}))
    root = tree(html)
    rows = [one for one in find_all(root, "fieldset") if one.get("class") == "formset-row"]
    assert len(rows) == 2
    summary = next(one for one in root.iter() if one.get("role") == "alert")
    assert "Row 2, Length" in words(summary)
    assert by_id(root, "id_form-0-length").get("aria-invalid") == "true"


def test_no_inline_script_or_style() -> None:
    html = render_crispy_form(Measured({}))
    root = tree(html)
    assert not find_all(root, "script")
    for one in root.iter():
        assert not [name for name in one.attrib if name == "style" or name.startswith("on")]
