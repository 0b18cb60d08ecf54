app_name = "visits"
urlpatterns: list = []
