from django.urls import path

app_name = "plans"
urlpatterns: list = []
