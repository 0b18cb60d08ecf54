from django.urls import path

from clinic.accounts import views

app_name = "accounts"
urlpatterns = [
    path("security/", views.security, name="security"),
    path("first-steps/", views.first, name="first_steps"),
    path("sessions/<int:session>/end/", views.session_end, name="session_end"),
    path("sessions/end-others/", views.sessions_end_others, name="sessions_end_others"),
    path("users/", views.users, name="users"),
    path("users/add/", views.user_add, name="user_add"),
    path("users/<uuid:user>/", views.user_change, name="user_change"),
    path("users/<uuid:user>/password/", views.user_password, name="user_password"),
    path("users/<uuid:user>/again/", views.let_try_again, name="user_try_again"),
]
