app_name = "plans"
urlpatterns: list = []
