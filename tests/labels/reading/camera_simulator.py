"""A simulated webcam: labels on clutter, seen through a pin-hole lens with all its faults.

The levels are chosen, not measured: results compare readers, they are no promise for a real camera.
"""

from dataclasses import dataclass, field
from functools import lru_cache

import cv2
import numpy as np
from numpy.typing import NDArray

from tests.labels.reading.label_faces import DOTS, Face, Grey

Frame = NDArray[np.uint8]

WIDTH, HEIGHT = 1280, 720
#: Focal length in pixels of a lens that sees 65 degrees across 1280 pixels.
FOCAL = 1005.0
#: Samples a pixel and direction when the label is drawn.
FINE = 3


@dataclass(frozen=True)
class View:
    """How one label is held and what happened to it; angles in degrees, lengths in pixels or X."""

    pixels_per_module: float = 2.0
    turn: float = 0.0
    tilt_x: float = 0.0
    tilt_y: float = 0.0
    centre: tuple[float, float] = (WIDTH / 2, HEIGHT / 2)
    defocus: float = 0.5
    motion: float = 0.0
    motion_angle: float = 0.0
    contrast: float = 0.93
    scratches: int = 0
    smudge: float = 0.0
    covered: float = 0.0
    glare: float = 0.0
    tube: float = 0.0
    """Diameter in X of the tube that the label goes round; 0 is flat."""


@dataclass(frozen=True)
class Camera:
    """What the camera and the lamp add to every pixel."""

    noise: float = 3.0
    light_fall: float = 0.15
    light_angle: float = 0.0
    exposure: float = 1.0
    sharpen: float = 0.5
    jpeg: int = 85
    size: tuple[int, int] = (WIDTH, HEIGHT)


@dataclass(frozen=True)
class Shot:
    """A frame and, by number, the corners of the label's face in it."""

    frame: Frame
    places: dict[str, NDArray[np.float64]] = field(default_factory=dict)


def _damaged(face: Face, view: View, rng: np.random.Generator) -> Grey:
    """Return the face's reflectance with contrast, scratches, a smudge, glare and cover."""
    picture = 0.9 - view.contrast * 0.9 * (1 - face.reflectance)
    high, wide = picture.shape
    for _ in range(view.scratches):
        ends = rng.uniform(0, 1, (2, 2)) * (wide, high)
        shade = float(rng.choice([0.15, 0.95]))
        width = int(rng.integers(DOTS // 2, 2 * DOTS))
        start, end = (tuple(int(value) for value in point) for point in ends)
        cv2.line(picture, start, end, shade, width)
    if view.smudge:
        rows, columns = np.mgrid[0:high, 0:wide].astype(np.float32)
        x, y = rng.uniform(0.2, 0.8, 2) * (wide, high)
        size = rng.uniform(0.1, 0.3) * wide
        blob = np.exp(-((columns - x) ** 2 + (rows - y) ** 2) / (2 * size**2))
        picture *= 1 - np.float32(view.smudge) * blob
    if view.glare:
        columns = np.linspace(0, 1, wide, dtype=np.float32)[None, :]
        stripe = np.exp(-(((columns - rng.uniform(0.2, 0.8)) / 0.12) ** 2))
        picture = picture + np.float32(view.glare) * stripe
    if view.covered:
        _cover(picture, view.covered, rng)
    return _bent(picture, view.tube) if view.tube else picture


def _cover(picture: Grey, share: float, rng: np.random.Generator) -> None:
    """Lay something over one side of the label: a thumb's shade with a soft texture."""
    high, wide = picture.shape
    side = int(rng.integers(0, 4))
    across = round(share * (wide if side < 2 else high))
    cut = (
        np.s_[:, :across],
        np.s_[:, wide - across :],
        np.s_[:across, :],
        np.s_[high - across :, :],
    )[side]
    picture[cut] = rng.uniform(0.1, 0.6)


def _bent(picture: Grey, diameter: float) -> Grey:
    """Return the face as seen when it goes round a tube `diameter` X thick."""
    high, wide = picture.shape
    radius = diameter * DOTS / 2
    seen = min(radius * 0.98, radius * np.sin(min(wide / 2 / radius, np.pi / 2)))
    columns = np.linspace(-seen, seen, round(2 * seen))
    arc = (np.arcsin(columns / radius) * radius + wide / 2).astype(np.float32)
    shade = np.sqrt(1 - (columns / radius) ** 2).astype(np.float32)
    rows = np.arange(high, dtype=np.float32)
    grid = np.repeat(arc[None, :], high, 0), np.repeat(rows[:, None], len(arc), 1)
    bent = cv2.remap(picture, *grid, cv2.INTER_LINEAR, borderValue=0.2)
    return np.asarray(bent * (0.4 + 0.6 * shade[None, :]), np.float32)


def _homography(shape: tuple[int, ...], view: View) -> NDArray[np.float64]:
    """Return the map from dots of the face to pixels of the frame."""
    turn, tilt_x, tilt_y = np.deg2rad([view.turn, view.tilt_x, view.tilt_y])
    rotate = (
        cv2.Rodrigues(np.array([0.0, tilt_y, 0.0]))[0]
        @ cv2.Rodrigues(np.array([tilt_x, 0.0, 0.0]))[0]
    )
    # The turn is about the line of sight, the tilts are about the label's own axes.
    rotate = cv2.Rodrigues(np.array([0.0, 0.0, turn]))[0] @ rotate
    distance = FOCAL / view.pixels_per_module
    high, wide = shape[:2]
    to_plane = np.array(
        [[1 / DOTS, 0, -wide / 2 / DOTS], [0, 1 / DOTS, -high / 2 / DOTS], [0, 0, 1]]
    )
    x, y = view.centre
    outer = np.column_stack((rotate[:, 0], rotate[:, 1], [0.0, 0.0, distance]))
    lens = np.array([[FOCAL, 0, x], [0, FOCAL, y], [0, 0, 1.0]])
    return np.asarray(lens @ outer @ to_plane, dtype=np.float64)


def _blur_kernel(view: View) -> Grey:
    """Return the blur of defocus and motion together, at `FINE` samples a pixel."""
    radius = max(view.defocus * FINE, 0.5)
    reach = int(np.ceil(radius + view.motion * FINE / 2)) + 1
    rows, columns = np.mgrid[-reach : reach + 1, -reach : reach + 1]
    disk = np.clip(radius + 0.5 - np.hypot(rows, columns), 0, 1).astype(np.float32)
    if view.motion:
        line = np.zeros_like(disk)
        angle = np.deg2rad(view.motion_angle)
        step = np.array([np.cos(angle), np.sin(angle)]) * view.motion * FINE / 2
        for share in np.linspace(-1, 1, 4 * reach):
            x, y = np.round(step * share).astype(int) + reach
            line[y, x] += 1
        disk = cv2.filter2D(disk, -1, line, borderType=cv2.BORDER_CONSTANT)
    return np.asarray(disk / disk.sum(), dtype=np.float32)


def _place(scene: Grey, face: Face, view: View, rng: np.random.Generator) -> NDArray[np.float64]:
    """Draw the label into the linear-light scene; return the corners of its face."""
    picture = _damaged(face, view, rng)
    homography = _homography(picture.shape, view)
    high, wide = picture.shape
    face_corners = np.array([[[0, 0], [wide, 0], [wide, high], [0, high]]], np.float64)
    corners = np.asarray(cv2.perspectiveTransform(face_corners, homography)[0], np.float64)
    scene_high, scene_wide = scene.shape
    left, top = np.floor(np.clip(corners.min(0) - 8, 0, (scene_wide, scene_high))).astype(int)
    right, bottom = np.ceil(np.clip(corners.max(0) + 8, 0, (scene_wide, scene_high))).astype(int)
    if right - left < 2 or bottom - top < 2:
        return corners
    # Pixel centres: fine sample i stands at (i + 0.5) / FINE - 0.5 pixels.
    shift = 0.5 * FINE - 0.5
    fine = np.array([[FINE, 0, shift - left * FINE], [0, FINE, shift - top * FINE], [0, 0, 1.0]])
    size = (int(right - left) * FINE, int(bottom - top) * FINE)
    soft = max(DOTS / (FINE * view.pixels_per_module) / 2.5, 0.3)
    smooth = cv2.GaussianBlur(picture, (0, 0), soft)
    ground = cv2.resize(scene[top:bottom, left:right], size, interpolation=cv2.INTER_LINEAR)
    drawn = cv2.warpPerspective(
        smooth, fine @ homography, size, dst=ground, borderMode=cv2.BORDER_TRANSPARENT
    )
    blurred = cv2.filter2D(drawn, -1, _blur_kernel(view), borderType=cv2.BORDER_REPLICATE)
    scene[top:bottom, left:right] = cv2.resize(
        blurred, (int(right - left), int(bottom - top)), interpolation=cv2.INTER_AREA
    )
    return corners


@lru_cache(maxsize=24)
def clutter(kind: int, size: tuple[int, int] = (WIDTH, HEIGHT)) -> Grey:
    """Return a workbench in linear light: shades, wires, slats, discs and lines of writing."""
    rng = np.random.default_rng(7_000 + kind)
    wide, high = size
    coarse = rng.uniform(0.08, 0.5, (9, 16)).astype(np.float32)
    ground = cv2.resize(coarse, size, interpolation=cv2.INTER_CUBIC)
    canvas = (np.clip(ground, 0, 1) * 255).astype(np.uint8)
    for _ in range(int(rng.integers(2, 12))):
        points = (rng.uniform(0, 1, (5, 2)) * size).astype(np.int32)
        shade, width = int(rng.integers(5, 250)), int(rng.integers(1, 9))
        cv2.polylines(canvas, [points], isClosed=False, color=shade, thickness=width)
    for _ in range(int(rng.integers(0, 4))):
        x, y = int(rng.integers(0, wide)), int(rng.integers(0, high))
        pitch, shade = int(rng.integers(4, 30)), int(rng.integers(5, 250))
        for slat in range(int(rng.integers(4, 30))):
            cv2.rectangle(
                canvas, (x + slat * pitch, y), (x + slat * pitch + pitch // 2, y + 120), shade, -1
            )
    for _ in range(int(rng.integers(1, 8))):
        place = (int(rng.integers(0, wide)), int(rng.integers(0, high)))
        cv2.circle(
            canvas,
            place,
            int(rng.integers(5, 90)),
            int(rng.integers(5, 250)),
            int(rng.integers(-1, 5)) or 1,
        )
        text = "".join(rng.choice(list("ABCDEHKMNRSTUX0123456789 "), 18))
        place = (int(rng.integers(-100, wide)), int(rng.integers(0, high)))
        cv2.putText(
            canvas,
            text,
            place,
            cv2.FONT_HERSHEY_SIMPLEX,
            float(rng.uniform(0.4, 1.6)),
            int(rng.integers(0, 256)),
            2,
        )
    grain = rng.normal(0, 4, canvas.shape)
    return np.clip((canvas + grain) / 255, 0.01, 1).astype(np.float32) ** np.float32(2.2)


@lru_cache(maxsize=4)
def _grain(size: tuple[int, int]) -> Grey:
    """Return unit noise a little larger than the frame, from which windows are cut."""
    rng = np.random.default_rng(99)
    return rng.standard_normal((size[1] + 256, size[0] + 256)).astype(np.float32)


def _developed(scene: Grey, camera: Camera, rng: np.random.Generator) -> Frame:
    """Return the 8 bit frame: light, gamma, noise, sharpening and JPEG."""
    high, wide = scene.shape
    angle = np.deg2rad(camera.light_angle)
    ramp = np.linspace(-0.5, 0.5, wide, dtype=np.float32)[None, :] * np.float32(
        np.cos(angle)
    ) + np.linspace(-0.5, 0.5, high, dtype=np.float32)[:, None] * np.float32(np.sin(angle))
    light = np.clip(1 - np.float32(camera.light_fall) * (ramp + np.float32(0.5)), 0.02, 1)
    shade = np.clip(scene * light * np.float32(camera.exposure), 0, 1)
    picture = cv2.pow(shade, 1 / 2.2) * 255
    x, y = (int(value) for value in rng.integers(0, 256, 2))
    picture = picture + _grain((wide, high))[y : y + high, x : x + wide] * np.float32(camera.noise)
    if camera.sharpen:
        soft = cv2.GaussianBlur(picture, (0, 0), 1.0)
        picture = picture + np.float32(camera.sharpen) * (picture - soft)
    frame: Frame = np.clip(picture, 0, 255).astype(np.uint8)
    if camera.jpeg >= 100:
        return frame
    done, packed = cv2.imencode(".jpg", frame, [cv2.IMWRITE_JPEG_QUALITY, camera.jpeg])
    assert done
    return np.asarray(cv2.imdecode(packed, cv2.IMREAD_GRAYSCALE), dtype=np.uint8)


def shoot(labels: list[tuple[Face, View]], camera: Camera, rng: np.random.Generator) -> Shot:
    """Return one grey frame of the labels on clutter, with where each stands."""
    scene = clutter(int(rng.integers(0, 24)), camera.size).copy()
    if rng.integers(0, 2):
        scene = np.ascontiguousarray(scene[:, ::-1])
    places = {face.number: _place(scene, face, view, rng) for face, view in labels}
    return Shot(_developed(scene, camera, rng), places)
