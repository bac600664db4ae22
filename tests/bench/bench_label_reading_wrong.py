"""How often a wrong number is read, and whether one is ever accepted for an act.

Run by hand: `python tests/bench/bench_label_reading_wrong.py [FRAMES] [SEED]` (100,000 takes over
an hour). Half of the frames are damaged far beyond use. The workshop is taken to have every valid
number, so the check that a number exists, which in use refuses nearly every misread, helps nothing
here. One label in eight is seen in a frame of 1280x720, the others in 640x480, which hold as much
of a label and less ground round it.
"""

import sys
from collections import Counter
from dataclasses import replace

import cv2
import numpy as np

from labels.reading.acceptance import Acceptance, Act, Ask
from labels.reading.reader import Reader
from tests.bench.bench_label_reading import number_of
from tests.labels.reading.camera_simulator import View, shoot
from tests.labels.reading.label_faces import draw
from tests.labels.reading.mixes import hard_camera, hard_view, next_view

#: Frames of one label before the next comes.
BURST = 4
#: One label in so many is seen in a whole frame, the others in a small one.
WHOLE_EVERY = 8
SMALL = (640, 480)


def damaged(view: View, rng: np.random.Generator) -> View:
    """Return the label with scratches, dirt and cover that mostly kill it."""
    return replace(
        view,
        pixels_per_module=float(rng.uniform(1.0, 2.2)),
        scratches=int(rng.integers(2, 14)),
        smudge=float(rng.uniform(0, 0.9)),
        covered=float(rng.uniform(0, 0.3)),
        motion=float(rng.uniform(0, 4)),
        glare=float(rng.uniform(0, 1)),
    )


def near(view: View, rng: np.random.Generator) -> View:
    """Return the label about the middle of a small frame."""
    wide, high = SMALL
    return replace(view, centre=tuple(rng.uniform(0.4, 0.6, 2) * (wide, high)))


def main() -> None:
    """Print the counts."""
    frames = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    cv2.setNumThreads(1)
    rng = np.random.default_rng(seed)
    counts: Counter[str] = Counter()
    with Reader() as reader:
        for label in range(frames // BURST):
            whole = label // 2 % WHOLE_EVERY == 0
            one_label(reader, rng, counts, hurt=bool(label % 2), whole=whole)
            if label % 250 == 249:
                print(dict(counts), flush=True)
    print(dict(counts))


def one_label(
    reader: Reader, rng: np.random.Generator, counts: Counter[str], *, hurt: bool, whole: bool
) -> None:
    """Hold one label before the camera for a few frames and count what comes of it."""
    number = number_of(rng)
    face = draw(number, str(rng.choice(["both", "bars", "qr"])))
    view, camera = hard_view(rng, face.reflectance.shape[1] / 16), hard_camera(rng)
    if hurt:
        view = damaged(view, rng)
    if not whole:
        view, camera = near(view, rng), replace(camera, size=SMALL)
    acceptance = Acceptance(exists=lambda _: True)
    for _ in range(BURST):
        readings = reader.live(shoot([(face, view)], camera, rng).frame)
        decision = acceptance.frame(readings)
        counts["frames"] += 1
        counts["frames damaged"] += hurt
        counts["frames read"] += any(reading.number == number for reading in readings)
        for reading in readings:
            if reading.number != number:
                counts["wrong readings"] += 1
                print("wrong:", number, reading, flush=True)
        counts["acts"] += isinstance(decision, Act)
        counts["WRONG ACTS"] += isinstance(decision, Act) and decision.number != number
        counts["questions"] += isinstance(decision, Ask)
        view = next_view(view, rng)


if __name__ == "__main__":
    main()
