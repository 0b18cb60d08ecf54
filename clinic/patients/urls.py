app_name = "patients"
urlpatterns: list = []
