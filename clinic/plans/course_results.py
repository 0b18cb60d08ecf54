"""A stoma's course for the pages that draw it: its types and channels, without any rule."""

from planning.course.channels import CHANNELS, PANELS, Channel, ChannelPanel
from planning.course.results import (
    Bar,
    CourseFlag,
    CourseReport,
    Face,
    Finding,
    Judged,
    Line,
    Moved,
    PlanOutcome,
    Point,
    Series,
    Sighting,
    Spot,
    Zone,
)

__all__ = [
    "CHANNELS",
    "PANELS",
    "Bar",
    "Channel",
    "ChannelPanel",
    "CourseFlag",
    "CourseReport",
    "Face",
    "Finding",
    "Judged",
    "Line",
    "Moved",
    "PlanOutcome",
    "Point",
    "Series",
    "Sighting",
    "Spot",
    "Zone",
]
