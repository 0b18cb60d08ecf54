from django.urls import path

from clinic.accounts import views

app_name = "accounts"
urlpatterns = [
    path("security/", views.security, name="security"),
    path("users/", views.users, name="users"),
    path("users/add/", views.user_add, name="user_add"),
    path("users/<uuid:user>/", views.user_change, name="user_change"),
    path("users/<uuid:user>/password/", views.user_password, name="user_password"),
]
