"""Photos painted pixel by pixel: a card with round corners and a stoma on skin, with grain, shadow
and blur. What is true of them is known to a part of a pixel."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from planning.geometry.photo_plane import homography
from tests.factories.scene import CARD_MM, SIZE, Array

Picture = npt.NDArray[np.uint8]
#: ISO/IEC 7810, format ID-1.
ROUND_MM = 3.18


@dataclass(frozen=True)
class Look:
    """How it was taken. Colours are red, green, blue; ``shadow`` in mm beside the card, 0 none."""

    card: tuple[int, int, int] = (60, 90, 150)
    skin: tuple[int, int, int] = (222, 184, 160)
    stoma: tuple[int, int, int] = (178, 48, 52)
    grain: float = 4.0
    blur: float = 0.8
    shadow: float = 2.0
    stripe: bool = True
    shine: bool = True
    rounding: float = ROUND_MM
    size_mm: tuple[float, float] = CARD_MM


def rendered(
    look: Look, card_px: Array | None, edge_px: Array | None, dice: np.random.Generator
) -> Picture:
    """``card_px``: where the card's straight edges meet, in turn, a long side first. The picture is
    blue first, as it is unpacked."""
    wide, high = SIZE
    y, x = np.mgrid[0:high, 0:wide].astype(np.float32) + np.float32(0.5)
    light = 1 + 0.12 * (x / wide - 0.5) + 0.08 * (y / high - 0.5)
    pores = cv2.GaussianBlur(dice.normal(0, 40, (high, wide)).astype(np.float32), (0, 0), 6)
    picture = np.array(look.skin, np.float32) * light[..., None] + pores[..., None]
    if edge_px is not None:
        _stoma(picture, edge_px, look)
    if card_px is not None:
        _card(picture, card_px, look, x, y)
    picture = np.asarray(cv2.GaussianBlur(picture, (0, 0), look.blur), np.float32)
    picture += dice.normal(0, look.grain, picture.shape).astype(np.float32)
    return np.ascontiguousarray(np.clip(picture, 0, 255).astype(np.uint8)[..., ::-1])


def as_jpeg(picture: Picture) -> bytes:
    """As it is stored."""
    _, data = cv2.imencode(".jpg", picture, [cv2.IMWRITE_JPEG_QUALITY, 88])
    return data.tobytes()


def _stoma(picture: npt.NDArray[np.float32], edge: Array, look: Look) -> None:
    high, wide = picture.shape[:2]
    fine = np.zeros((2 * high, 2 * wide), np.uint8)
    # Sixteenths of a pixel; the painter counts from a pixel's middle.
    corners = np.round((edge * 2 - 0.5) * 16).astype(np.int32)
    cv2.fillPoly(fine, [corners], 255, cv2.LINE_AA, 4)
    cover = cv2.resize(fine, (wide, high), interpolation=cv2.INTER_AREA)[..., None] / 255
    picture += cover * (np.array(look.stoma, np.float32) - picture)
    if look.shine:
        across = np.ptp(edge, axis=0)
        middle = edge.mean(axis=0) - 0.2 * across
        size = max(3, int(0.07 * across.min()))
        at = (int(middle[0]), int(middle[1]))
        cv2.circle(picture, at, size, (250, 235, 230), -1, cv2.LINE_AA)


def _card(
    picture: npt.NDArray[np.float32],
    corners: Array,
    look: Look,
    x: npt.NDArray[np.float32],
    y: npt.NDArray[np.float32],
) -> None:
    w, h = look.size_mm[0] / 2, look.size_mm[1] / 2
    target = np.array([(-w, h), (w, h), (w, -h), (-w, -h)])
    m = homography(corners, target).astype(np.float32)
    below = m[2, 0] * x + m[2, 1] * y + m[2, 2]
    u = (m[0, 0] * x + m[0, 1] * y + m[0, 2]) / below
    v = (m[1, 0] * x + m[1, 1] * y + m[1, 2]) / below
    ahead = below * np.sign(below[int(corners[:, 1].mean()), int(corners[:, 0].mean())]) > 0
    mm_px = 2 * w / float(np.linalg.norm(corners[1] - corners[0]))

    def cover(du: float, dv: float, soft: float) -> npt.NDArray[np.float32]:
        qx = np.abs(u - du) - (w - look.rounding)
        qy = np.abs(v - dv) - (h - look.rounding)
        far = np.hypot(np.maximum(qx, 0), np.maximum(qy, 0)) + np.minimum(np.maximum(qx, qy), 0)
        share = np.clip(0.5 - (far - look.rounding) / soft, 0, 1) * ahead
        return share[..., None].astype(np.float32)

    if look.shadow:
        picture *= 1 - 0.45 * cover(look.shadow, -look.shadow, 1.2 * look.shadow)
    face = np.empty_like(picture)
    face[:] = look.card
    if look.stripe:
        face[(v > h - 16) & (v < h - 5)] = (35, 32, 30)
    share = cover(0, 0, mm_px)
    picture += share * (face - picture)
