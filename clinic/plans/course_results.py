"""The types of a stoma's course, for the pages that draw it: answers without any rule."""

from planning.course.results import (
    Bar,
    CourseFlag,
    Face,
    Finding,
    Judged,
    Line,
    PlanOutcome,
    Point,
    Series,
    Sighting,
    Spot,
    Zone,
)

__all__ = [
    "Bar",
    "CourseFlag",
    "Face",
    "Finding",
    "Judged",
    "Line",
    "PlanOutcome",
    "Point",
    "Series",
    "Sighting",
    "Spot",
    "Zone",
]
