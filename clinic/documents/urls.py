"""What is printed."""

from django.urls import path

from clinic.documents.care_sheet import preview_views
from clinic.documents.care_sheet import views as care_sheet_views
from clinic.documents.cutting_template import views as cutting_template_views
from clinic.documents.day_batch import views as day_batch_views
from clinic.documents.letter import views as letter_views
from clinic.documents.printed import views as printed_views
from clinic.documents.supply_list import views as supply_list_views
from clinic.documents.wear_diary import views as wear_diary_views

app_name = "documents"
urlpatterns = [
    path("care-sheet/<uuid:assessment>/", care_sheet_views.care_sheet, name="care_sheet"),
    path("care-sheet/<uuid:assessment>/preview/", preview_views.preview, name="preview"),
    path("care-sheet/<uuid:assessment>/edit/", preview_views.edit, name="edit_sheet"),
    path("printed/<uuid:document>/", printed_views.printed, name="printed"),
    path(
        "cutting-template/<uuid:assessment>/",
        cutting_template_views.cutting_template,
        name="cutting_template",
    ),
    path("supplies/<uuid:assessment>/", supply_list_views.supplies, name="supplies"),
    path("supplies/<uuid:assessment>/codes/", supply_list_views.codes, name="codes"),
    path("supply-list/<uuid:assessment>/", supply_list_views.supply_list, name="supply_list"),
    path(
        "supply-list/<uuid:assessment>/csv/",
        supply_list_views.supply_list_csv,
        name="supply_list_csv",
    ),
    path("diary/<uuid:stoma>/", wear_diary_views.diary, name="diary"),
    path("letter/<uuid:referral>/", letter_views.letter, name="letter"),
    path("letter/about/<uuid:assessment>/", letter_views.letter_of_visit, name="visit_letter"),
    path("day-sheets/", day_batch_views.day_sheets, name="day_sheets"),
    path("day-sheets/one/", day_batch_views.day_sheet_ready, name="day_sheet_ready"),
]
