"""Tasks."""

from django.apps import AppConfig


class TasksConfig(AppConfig):
    name = "clinic.tasks"
    label = "tasks"
    verbose_name = "tasks"
