"""What is printed: an address for each page of each paper, and those of all papers together."""

from django.urls import path
from django.utils.module_loading import import_string

from clinic.documents.day_batch import views as day_batch_views
from clinic.documents.kinds import pages
from clinic.documents.printed import views as printed_views
from clinic.documents.site_marking.views import site_marking

app_name = "documents"
urlpatterns = [
    *(
        path(page.address, import_string(f"clinic.documents.{page.view}"), name=page.name)
        for page in pages()
    ),
    path("printed/<uuid:document>/", printed_views.printed, name="printed"),
    path("site-marking/<uuid:marking>/", site_marking, name="site_marking"),
    path("day-sheets/", day_batch_views.day_sheets, name="day_sheets"),
    path("day-sheets/one/", day_batch_views.day_sheet_ready, name="day_sheet_ready"),
]
