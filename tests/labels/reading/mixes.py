"""Random views for the benchmarks: everything at once, in levels fixed beforehand."""

from dataclasses import replace

import numpy as np

from tests.labels.reading.camera_simulator import HEIGHT, WIDTH, Camera, View


def _sometimes(rng: np.random.Generator, share: float, low: float, high: float) -> float:
    """Return a level between `low` and `high` in `share` of the calls, else 0."""
    return float(rng.uniform(low, high)) if rng.random() < share else 0.0


def hard_view(
    rng: np.random.Generator, half_width: float, sizes: tuple[float, float] = (1.2, 3.0)
) -> View:
    """Return a label held badly, printed badly or damaged; `half_width` in X keeps it in view."""
    size = float(rng.uniform(*sizes))
    reach = min(half_width * size, HEIGHT / 2 - 10)
    turned = rng.normal(0, 15) if rng.random() < 0.6 else rng.uniform(-180, 180)
    return View(
        pixels_per_module=size,
        turn=float(turned),
        tilt_x=float(rng.normal(0, 12)),
        tilt_y=float(rng.normal(0, 12)),
        centre=(
            float(rng.uniform(reach, WIDTH - reach)),
            float(rng.uniform(reach, HEIGHT - reach)),
        ),
        defocus=float(rng.uniform(0.3, 1.3)),
        motion=_sometimes(rng, 0.3, 0.5, 3.0),
        motion_angle=float(rng.uniform(0, 180)),
        contrast=float(rng.uniform(0.4, 0.95)),
        scratches=int(rng.integers(1, 4)) if rng.random() < 0.3 else 0,
        smudge=_sometimes(rng, 0.25, 0.1, 0.5),
        covered=_sometimes(rng, 0.1, 0.02, 0.25),
        glare=_sometimes(rng, 0.1, 0.1, 0.6),
        tube=_sometimes(rng, 0.1, 100, 250),
    )


def hard_camera(rng: np.random.Generator) -> Camera:
    """Return a camera in bad light."""
    return Camera(
        noise=float(rng.uniform(2, 9)),
        light_fall=float(rng.uniform(0, 0.8)),
        light_angle=float(rng.uniform(0, 360)),
        exposure=float(rng.uniform(0.3, 1.3)),
        jpeg=int(rng.integers(30, 95)),
    )


def next_view(view: View, rng: np.random.Generator) -> View:
    """Return the same label a frame later in an unsteady hand; the damage stays its own."""
    x, y = view.centre
    return replace(
        view,
        turn=view.turn + float(rng.normal(0, 1.5)),
        tilt_x=view.tilt_x + float(rng.normal(0, 2)),
        tilt_y=view.tilt_y + float(rng.normal(0, 2)),
        pixels_per_module=view.pixels_per_module * float(rng.uniform(0.97, 1.03)),
        centre=(x + float(rng.normal(0, 3)), y + float(rng.normal(0, 3))),
        defocus=abs(view.defocus + float(rng.normal(0, 0.15))),
        motion=_sometimes(rng, 0.4, 0.5, 3.0) if view.motion else 0.0,
        motion_angle=float(rng.uniform(0, 180)),
    )
