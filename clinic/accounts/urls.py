app_name = "accounts"
urlpatterns: list = []
