"""A photograph of an open drawer: many labels in all directions, none over another."""

import numpy as np

from labels.number import Thing, make
from tests.labels.reading.camera_simulator import Camera, Shot, View, shoot
from tests.labels.reading.label_faces import draw


def drawer(count: int, size: tuple[int, int], rng: np.random.Generator) -> Shot:
    """Return a picture of `count` labels, each in its own compartment, `size` pixels."""
    columns = int(np.ceil(np.sqrt(count * size[0] / size[1])))
    rows = int(np.ceil(count / columns))
    pitch = np.array([size[0] / columns, size[1] / rows])
    labels = []
    for at in range(count):
        face = draw(make(Thing.PART, 1000 + at), str(rng.choice(["both", "bars", "qr"])))
        diagonal = float(np.hypot(*face.reflectance.shape)) / 8
        place = (np.array([at % columns, at // columns]) + 0.5) * pitch
        x, y = place + rng.uniform(-0.02, 0.02, 2) * pitch
        view = View(
            pixels_per_module=min(0.95 * float(pitch.min()) / diagonal, 6.0),
            turn=float(rng.uniform(-180, 180)),
            tilt_x=float(rng.normal(0, 4)),
            tilt_y=float(rng.normal(0, 4)),
            centre=(float(x), float(y)),
            defocus=0.7,
        )
        labels.append((face, view))
    return shoot(labels, Camera(size=size, noise=3, light_fall=0.4), rng)
