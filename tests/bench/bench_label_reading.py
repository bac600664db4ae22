"""How much the reader reads, and how fast, beside single decoders on the same frames.

Run by hand from the project's folder: `python tests/bench/bench_label_reading.py [FRAMES]`.
Times are processor time of the reader and its zbar worker together, so "one core" is meant whatever
else the machine does; OpenCV is held to one thread. The frames are simulated: compare columns.
"""

import sys
import time
from collections.abc import Callable
from pathlib import Path

import cv2
import numpy as np
from numpy.typing import NDArray

from labels.number import LabelNumber, Thing, make
from labels.reading import zxing
from labels.reading.look import RawLook, Reading
from labels.reading.reader import Reader
from labels.reading.zbar import ZbarWorker
from tests.labels.reading.camera_simulator import Camera, View, shoot
from tests.labels.reading.drawers import drawer
from tests.labels.reading.label_faces import draw
from tests.labels.reading.mixes import hard_camera, hard_view, next_view

Grey = NDArray[np.uint8]
#: Frames of a held label, counted from the first.
BURST = 5
#: The seed of the frames to quote, chosen after the passes were.
SEED = 20_260


def number_of(rng: np.random.Generator) -> LabelNumber:
    """Return a random number of 8 digits."""
    return make(list(Thing)[rng.integers(0, 4)], int(rng.integers(1, 100_000)))


def core_time(reader: Reader) -> float:
    """Return the processor seconds that this process and the reader's worker have used."""
    process = reader._zbar._process
    worker = 0.0
    if process is not None:
        worker = int(Path(f"/proc/{process.pid}/schedstat").read_text().split()[0]) / 1e9
    return time.process_time() + worker


def threshold(grey: Grey) -> Grey:
    """Return the picture after the local threshold that single zbar does best with."""
    mean, kind = cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY
    return np.asarray(cv2.adaptiveThreshold(grey, 255, mean, kind, 31, 5), np.uint8)


def twice(grey: Grey) -> Grey:
    """Return the picture at twice its size."""
    return np.asarray(cv2.resize(grey, None, fx=2, fy=2), np.uint8)


def single_decoders(zbar: ZbarWorker) -> dict[str, Callable[[Grey], list[RawLook]]]:
    """Return the single decoders that the reader is compared with."""
    return {
        "zbar": zbar.read,
        "zxing": zxing.read,
        "zxing 2x": lambda grey: zxing.read(twice(grey)),
        "threshold + zbar": lambda grey: zbar.read(threshold(grey)),
    }


def has(readings: list[Reading], number: LabelNumber) -> bool:
    """Return whether the number is among the readings."""
    return any(reading.number == number for reading in readings)


def hard_mix(frames: int, symbols: str, qr_module: float = 1.33) -> None:
    """Print the rates on the hard mix, 1.2 to 3 pixels a module, everything at once."""
    rng = np.random.default_rng(SEED)
    rates: dict[str, list[bool]] = {}
    wrong = 0
    with Reader() as still, Reader() as live, ZbarWorker() as zbar:
        singles = single_decoders(zbar)
        for _ in range(frames):
            number = number_of(rng)
            face = draw(number, symbols, qr_module)
            view = hard_view(rng, face.reflectance.shape[1] / 16)
            camera = hard_camera(rng)
            grey = shoot([(face, view)], camera, rng).frame
            for name, decode in singles.items():
                hit = any(look.text == number for look in decode(grey))
                rates.setdefault(name, []).append(hit)
            readings = still.still(grey)
            rates.setdefault("ALL PASSES, 1 frame", []).append(has(readings, number))
            wrong += any(reading.number != number for reading in readings)
            hits = [has(live.live(grey), number)]
            for _ in range(BURST - 1):
                view = next_view(view, rng)
                taken = shoot([(face, view)], camera, rng).frame
                readings = live.live(taken)
                hits.append(has(readings, number))
                wrong += any(reading.number != number for reading in readings)
            rates.setdefault("live, first frame", []).append(hits[0])
            rates.setdefault(f"LIVE, {BURST} frames", []).append(any(hits))
    cells = "  ".join(f"{name} {100 * np.mean(hits):.1f}" for name, hits in rates.items())
    print(f"hard mix, {symbols}, QR module {qr_module} X: {cells}; wrong {wrong}")


def every_turn(symbols: str, step: int = 3) -> None:
    """Print the rates at 2 pixels a module, otherwise clean, over all turns."""
    rng = np.random.default_rng(SEED)
    rates: dict[str, list[bool]] = {}
    with Reader() as reader, ZbarWorker() as zbar:
        singles = single_decoders(zbar)
        for turn in range(0, 360, step):
            number = number_of(rng)
            view = View(turn=turn + float(rng.uniform(0, step)))
            grey = shoot([(draw(number, symbols), view)], Camera(), rng).frame
            for name, decode in singles.items():
                hit = any(look.text == number for look in decode(grey))
                rates.setdefault(name, []).append(hit)
            rates.setdefault("ALL PASSES", []).append(has(reader.still(grey), number))
            rates.setdefault("live, 1 frame", []).append(has(reader.live(grey), number))
    cells = "  ".join(f"{name} {100 * np.mean(hits):.1f}" for name, hits in rates.items())
    print(f"every turn, {symbols}, 2 pixels a module: {cells}")


def frame_times(name: str, frames: list[Grey]) -> None:
    """Print how long live frames and stills take on one core."""
    live, still = [], []
    with Reader() as reader:
        reader.live(frames[0])
        for grey in frames:
            before = core_time(reader)
            reader.live(grey)
            live.append(core_time(reader) - before)
        for grey in frames[:12]:
            before = core_time(reader)
            reader.still(grey)
            still.append(core_time(reader) - before)
    median, ninth = 1000 * np.percentile(live, [50, 90])
    print(
        f"time, {name}: live median {median:.1f} ms, 90 % under {ninth:.1f} ms;"
        f" still median {1000 * np.median(still):.0f} ms"
    )


def all_times(frames: int) -> None:
    """Print the times of hard frames, clean frames, empty frames and plain ground."""
    rng = np.random.default_rng(SEED)
    hard, clean, empty = [], [], []
    for _ in range(frames):
        face = draw(number_of(rng))
        view = hard_view(rng, face.reflectance.shape[1] / 16)
        hard.append(shoot([(face, view)], hard_camera(rng), rng).frame)
        clean.append(shoot([(face, View(turn=view.turn))], Camera(), rng).frame)
        empty.append(shoot([], hard_camera(rng), rng).frame)
    noise = rng.normal(120, 5, (720, 1280)).clip(0, 255).astype(np.uint8)
    frame_times("hard mix", hard)
    frame_times("clean label", clean)
    frame_times("clutter, no label", empty)
    frame_times("plain ground", [noise] * 30)


def drawers(size: tuple[int, int]) -> None:
    """Print how many of 30 labels in a drawer's photograph are read, and how long it takes."""
    taken = drawer(30, size, np.random.default_rng(SEED))
    with Reader() as reader:
        reader.still(taken.frame[:200, :200])
        before, start = core_time(reader), time.perf_counter()
        found = {reading.number for reading in reader.still(taken.frame)}
        core, wall = core_time(reader) - before, time.perf_counter() - start
    print(
        f"drawer {size[0]}x{size[1]}: {len(found & set(taken.places))} of 30, wrong"
        f" {len(found - set(taken.places))}, {core:.2f} s of one core, {wall:.2f} s on the clock"
    )


def main() -> None:
    """Run everything."""
    frames = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    cv2.setNumThreads(1)
    all_times(min(frames, 60))
    for size in ((1280, 720), (2048, 1536), (4000, 3000), (8000, 6000)):
        drawers(size)
    for symbols in ("bars", "qr", "both"):
        every_turn(symbols)
    for symbols, module in (("both", 1.33), ("both", 1.0), ("bars", 1.0), ("qr", 1.0)):
        hard_mix(frames, symbols, module)


if __name__ == "__main__":
    main()
