"""What is printed."""

from django.urls import path

from clinic.documents import (
    views,
    views_batch,
    views_diary,
    views_letter,
    views_preview,
    views_printed,
    views_supplies,
    views_template,
)

app_name = "documents"
urlpatterns = [
    path("care-sheet/<uuid:assessment>/", views.care_sheet, name="care_sheet"),
    path("care-sheet/<uuid:assessment>/preview/", views_preview.preview, name="preview"),
    path("care-sheet/<uuid:assessment>/edit/", views_preview.edit, name="edit_sheet"),
    path("printed/<uuid:document>/", views_printed.printed, name="printed"),
    path(
        "cutting-template/<uuid:assessment>/",
        views_template.cutting_template,
        name="cutting_template",
    ),
    path("supplies/<uuid:assessment>/", views_supplies.supplies, name="supplies"),
    path("supplies/<uuid:assessment>/codes/", views_supplies.codes, name="codes"),
    path("supply-list/<uuid:assessment>/", views_supplies.supply_list, name="supply_list"),
    path(
        "supply-list/<uuid:assessment>/csv/", views_supplies.supply_list_csv, name="supply_list_csv"
    ),
    path("diary/<uuid:stoma>/", views_diary.diary, name="diary"),
    path("letter/<uuid:referral>/", views_letter.letter, name="letter"),
    path("letter/about/<uuid:assessment>/", views_letter.letter_of_visit, name="visit_letter"),
    path("day-sheets/", views_batch.day_sheets, name="day_sheets"),
    path("day-sheets/one/", views_batch.day_sheet_ready, name="day_sheet_ready"),
]
