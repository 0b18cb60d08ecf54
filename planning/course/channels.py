"""Every value of the trend, declared once: how it is read, what it is called, where it is drawn.

The series, the drawing on screen and paper, the marks' words and the tables all read these rows.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from planning.course.largest import bulge_height_mm, prolapse_mm
from planning.course.skin import burden_of
from planning.inputs import quantities as q
from planning.inputs.findings import Findings, Measurement

Read = Callable[[Findings], float | None]


def _none(_: Findings) -> None:
    return None


@dataclass(frozen=True, slots=True)
class Channel:
    """One value a visit. ``read`` gives it in ``unit``, None where it was not recorded.

    ``title`` is shown over its column and, in lower case, before each value; sentences say
    ``in_words`` where that is another. ``error``: its own where it is not the usual one of
    measuring, either way (about 95 %). ``once_found``: what most never have, and where it was
    never found there is nothing to draw. ``answered``: what the person answered to the clinic's
    own question, where ``read`` finds none; nothing is drawn where none of them was ever asked.
    """

    key: str
    title: str
    unit: str
    read: Read
    error: Read = _none
    in_words: str = ""
    once_found: bool = False
    answered: bool = False

    @property
    def said(self) -> str:
        """What a sentence calls it."""
        return self.in_words or self.title.lower()


@dataclass(frozen=True, slots=True)
class ChannelPanel:
    """One or two channels on one axis. ``heading`` is shown over it; ``name`` is what the figure
    says was not recorded.

    The axis begins at zero, or near the values where ``from_zero`` is False. It shows at least
    ``least`` (in the unit) and ``least_share`` of the highest value, so that a small difference
    does not look large.
    """

    key: str
    name: str
    heading: str
    channels: tuple[Channel, ...]
    from_zero: bool = True
    least: float = 1.0
    least_share: float = 0.0


def length_of(measurement: Measurement) -> float | None:
    """Along 12-6 (mm) as charted, else the two radii there."""
    if measurement.length_mm is None and measurement.radii_mm is not None:
        return measurement.radii_mm[11] + measurement.radii_mm[5]
    return measurement.length_mm


def width_of(measurement: Measurement) -> float | None:
    """Along 9-3 (mm) as charted, else the two radii there."""
    if measurement.width_mm is None and measurement.radii_mm is not None:
        return measurement.radii_mm[8] + measurement.radii_mm[2]
    return measurement.width_mm


PROTRUSION: Final = Channel(
    "protrusion", q.PROTRUSION.label, q.PROTRUSION.unit, lambda f: f.measurement.protrusion_mm
)
LENGTH: Final = Channel(
    "length",
    q.LENGTH.label,
    q.LENGTH.unit,
    lambda f: length_of(f.measurement),
    lambda f: f.measurement.length_error_mm,
)
WIDTH: Final = Channel(
    "width",
    q.WIDTH.label,
    q.WIDTH.unit,
    lambda f: width_of(f.measurement),
    lambda f: f.measurement.width_error_mm,
)
BURDEN: Final = Channel("burden", "Skin burden", "mm²", burden_of, in_words="damaged skin")
WEIGHT: Final = Channel("weight", q.WEIGHT.label, q.WEIGHT.unit, lambda f: f.person.weight_kg)
OUTPUT: Final = Channel("output", "Output", q.VOLUME.unit, lambda f: f.output.volume_ml_24h)
PROLAPSE: Final = Channel("prolapse", "Prolapse", "mm", prolapse_mm, once_found=True)
BULGE: Final = Channel(
    "bulge_height", "Height of the bulge", "mm", bulge_height_mm, once_found=True
)


def _answered(key: str, title: str, read: Read = _none) -> Channel:
    return Channel(key, title, "of 10", read, answered=True)


def _said(channel: Channel) -> ChannelPanel:
    """On the whole of its scale."""
    heading = f"{channel.title}, 0 to 10"
    return ChannelPanel(channel.key, channel.said, heading, (channel,), least=10.0)


#: Pain is charted at the visit itself where it was asked there: it is not asked twice.
PAIN: Final = _answered("pain", "Pain at the stoma", lambda f: f.output.pain_0_10)
ITCHING: Final = _answered("itching", "Itching or burning")
WORRY: Final = _answered("worry", "Worry about leaks")
KEPT_FROM: Final = _answered("kept_from", "Kept from things")
SURE: Final = _answered("sure", "Sure at changing")

#: In the order they are read.
PANELS: Final = (
    ChannelPanel("protrusion", "protrusion", "Protrusion, mm above the skin", (PROTRUSION,)),
    ChannelPanel(
        "size",
        "length and width",
        "Size at the base, mm",
        (LENGTH, WIDTH),
        from_zero=False,
        least=12.0,
    ),
    ChannelPanel(
        "prolapse",
        "prolapse",
        "Prolapse, mm beyond the usual length",
        (PROLAPSE,),
        least=20.0,
    ),
    ChannelPanel(
        "bulge_height",
        "height of the bulge",
        "Height of the bulge beside the stoma, mm",
        (BULGE,),
        least=20.0,
    ),
    ChannelPanel("skin", "skin", "Skin burden, mm² of damaged skin", (BURDEN,), least=100.0),
    ChannelPanel("output", "output", "Output, mL/24 h", (OUTPUT,)),
    # A share of the weight, so that a baby's few grams and an adult's kilogram are both seen.
    ChannelPanel(
        "weight", "weight", "Weight, kg", (WEIGHT,), from_zero=False, least=0.0, least_share=0.05
    ),
    *(_said(channel) for channel in (PAIN, ITCHING, WORRY, KEPT_FROM, SURE)),
)
CHANNELS: Final = tuple(channel for panel in PANELS for channel in panel.channels)
#: What the person answers; no rule reads them.
ANSWERED: Final = tuple(channel for channel in CHANNELS if channel.answered)
