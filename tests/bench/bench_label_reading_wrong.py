"""How often a wrong number is read, and whether one is ever accepted for an act.

Run by hand: `python tests/bench/bench_label_reading_wrong.py [FRAMES]` (100,000 takes hours). Half
of the frames are damaged far beyond use. The workshop is taken to have every valid number, so the
check that a number exists, which in use refuses nearly every misread, helps nothing here.
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


def main() -> None:
    """Print the counts."""
    frames = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    cv2.setNumThreads(1)
    rng = np.random.default_rng(seed)
    counts: Counter[str] = Counter()
    with Reader() as reader:
        for label in range(frames // BURST):
            one_label(reader, rng, counts, hurt=bool(label % 2))
            if label % 250 == 249:
                print(dict(counts), flush=True)
    print(dict(counts))


def one_label(
    reader: Reader, rng: np.random.Generator, counts: Counter[str], *, hurt: bool
) -> None:
    """Hold one label before the camera for a few frames and count what comes of it."""
    number = number_of(rng)
    face = draw(number, str(rng.choice(["both", "bars", "qr"])))
    view, camera = hard_view(rng, face.reflectance.shape[1] / 16), hard_camera(rng)
    if hurt:
        view = damaged(view, rng)
    acceptance = Acceptance(exists=lambda _: True)
    for _ in range(BURST):
        readings = reader.live(shoot([(face, view)], camera, rng).frame)
        decision = acceptance.frame(readings)
        counts["frames"] += 1
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
