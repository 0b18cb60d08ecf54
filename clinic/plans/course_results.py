"""A stoma's course for the pages that draw it: its types and channels, without any rule."""

from dataclasses import replace

from planning.course.channels import ANSWERED, CHANNELS, PANELS, Channel, ChannelPanel
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


def without_answers(series: Series) -> Series:
    """For a colleague: what was found, without what the person answered to questions that are no
    questionnaire anybody knows."""
    said = {channel.key for channel in ANSWERED}
    return replace(series, points=tuple(one for one in series.points if one[0] not in said))


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
    "without_answers",
]
