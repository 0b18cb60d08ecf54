from django.urls import path

app_name = "visits"
urlpatterns: list = []
