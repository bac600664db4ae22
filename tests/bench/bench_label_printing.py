"""Prints 10,000 labels into one PDF: speed, size, memory, and a bare canvas beside it.

Run by hand: `python tests/bench/bench_label_printing.py`. Each job runs in a process of its own;
seconds are those of the processor, so that a busy machine changes little.
The bare canvas writes the very same strings to pages of the same size, compressed and reproducible
too; "plain" is the same without ReportLab's habit of spelling compressed pages out in ASCII.
"""

import json
import random
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from labels import sheet
from labels.drawing import Pen
from labels.label import Label
from labels.number import Thing, make
from labels.printer import Printer
from labels.stock import LabelStock, load

COUNT = 10_000
STOCKS = ("a4-3x8-70x37", "a4-4x10-46x25", "a4-5x13-38x21", "letter-3x10-67x25")
KINDS = ("Rear derailleur", "Seatpost", "Fork", "Brake lever", "Crankset", "Hub, front", "Stem")
LINES = (
    ("8 speed", "long cage", "39 teeth"),
    ("27.2 mm", "350 mm"),
    ("28.6 mm", "axle 100 mm", "disc"),
    ("22.2 mm", "long pull", "left"),
)
GRADES = ("new", "good", "fair", "poor")
TARGET_RATE, TARGET_RATIO, TARGET_BYTES, TARGET_MIB = 12_000, 1.3, 150, 100


def stock_of_labels() -> list[Label]:
    """Return 10,000 labels as a workshop has them: many numbers, few kinds, 60 bins."""
    chance = random.Random(7)
    return [
        Label(
            number=make(Thing.PART, running),
            title=chance.choice(KINDS),
            lines=chance.choice(LINES),
            grade=chance.choice(GRADES),
            bin_name=f"{chance.choice('ABCDEF')}-{chance.randrange(1, 11)}",
            caution=chance.random() < 0.1,
        )
        for running in chance.sample(range(1, 100_000), COUNT)
    ]


def strings(labels: list[Label], stock: LabelStock, printer: Printer, path: Path) -> list[str]:
    """Return the content strings of the job, as `write_pdf` makes them."""
    with sheet.document(stock, printer, path) as canvas:
        drawings = sheet.Drawings(Pen(canvas), stock, printer)
        made = [drawings.at(at % stock.count + 1, label) for at, label in enumerate(labels)]
        canvas.showPage()
    return made


def bare(made: list[str], stock: LabelStock, printer: Printer, path: Path, spelled: int) -> float:
    """Return the seconds that a canvas takes to write the strings and nothing else."""
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = spelled
    began = time.process_time()
    width, height = sheet.page_dots(stock, printer)
    dot = 72 / float(printer.dots_per_inch)
    canvas = Canvas(str(path), pagesize=(width * dot, height * dot), pageCompression=1, invariant=1)
    Pen(canvas)
    for at in range(0, len(made), stock.count):
        sheet.open_page(canvas, printer)
        for content in made[at : at + stock.count]:
            canvas.addLiteral(content)
        canvas.showPage()
    canvas.save()
    return time.process_time() - began


def measure(way: str, name: str) -> dict[str, float]:
    """Return seconds, bytes and peak MiB of one job in this process."""
    labels, stock, printer = stock_of_labels(), load(name), Printer(dpi="203.2")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "labels.pdf")
        if way in {"bare", "plain"}:
            made = strings(labels, stock, printer, path)
            seconds = bare(made, stock, printer, path, int(way == "bare"))
        else:
            # Imports and fonts are loaded before the clock starts, as they are for the bare canvas.
            sheet.write_pdf(labels[:1], stock, printer, path)
            began = time.process_time()
            sheet.write_pdf(labels, stock, printer, path)
            seconds = time.process_time() - began
        size = path.stat().st_size
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return {"seconds": seconds, "bytes": size, "mib": peak}


def job(way: str, name: str) -> dict[str, float]:
    """Return the fastest of three processes."""
    command = [sys.executable, __file__, way, name]
    runs = [
        json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)
        for _ in range(3)
    ]
    fastest: dict[str, float] = min(runs, key=lambda run: run["seconds"])
    return fastest


def main() -> None:
    """Print a row for each stock, with the targets over it."""
    print(
        f"{COUNT} labels, fastest of 3; targets: {TARGET_RATE} labels/s, "
        f"{TARGET_RATIO} times bare, {TARGET_BYTES} bytes a label, {TARGET_MIB} MiB"
    )
    print(
        f"{'stock':<22}{'labels/s':>10}{'bare/s':>10}{'plain/s':>10}{'ratio':>8}{'to plain':>10}"
        f"{'bytes':>8}{'MiB':>8}"
    )
    for name in STOCKS:
        ours, other, plain = (job(way, name) for way in ("ours", "bare", "plain"))
        rates = "".join(f"{COUNT / way['seconds']:>10.0f}" for way in (ours, other, plain))
        ratios = (
            f"{ours['seconds'] / other['seconds']:>8.2f}{ours['seconds'] / plain['seconds']:>10.2f}"
        )
        print(f"{name:<22}{rates}{ratios}{ours['bytes'] / COUNT:>8.0f}{ours['mib']:>8.0f}")


if __name__ == "__main__":
    if len(sys.argv) == 3:
        print(json.dumps(measure(sys.argv[1], sys.argv[2])))
    else:
        main()
