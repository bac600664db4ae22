"""zbar in its worker process: started late, replaced when it dies or hangs, never left behind."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from labels.number import Thing, make
from labels.reading import zbar
from labels.reading.errors import DecoderMissingError
from labels.reading.look import Symbol
from labels.reading.zbar import ZbarWorker
from tests.labels.reading.label_faces import draw

NUMBER = make(Thing.PART, 4711)


@pytest.fixture(scope="module")
def label() -> NDArray[np.uint8]:
    """Return a clean label with both symbols as a grey picture."""
    face = draw(NUMBER).reflectance
    return (np.pad(face, 40, constant_values=1) * 255).astype(np.uint8)[::2, ::2]


def pid_of(worker: ZbarWorker) -> int:
    """Return the process number of the worker's running process."""
    assert worker._process is not None
    return worker._process.pid


def test_both_symbols_are_read(label: NDArray[np.uint8]) -> None:
    """Zbar reads bars and QR, each with four corners inside the picture."""
    with ZbarWorker() as worker:
        looks = worker.read(label)

    assert {(look.text, look.symbol) for look in looks} == {
        (NUMBER, Symbol.CODE_128),
        (NUMBER, Symbol.QR),
    }
    high, wide = label.shape
    assert all(0 <= x <= wide and 0 <= y <= high for look in looks for x, y in look.corners)


def test_nothing_starts_before_the_first_picture() -> None:
    """Making a worker starts no process, and closing one that never ran is harmless."""
    worker = ZbarWorker()
    assert worker._process is None
    worker.close()


def test_importing_the_reader_starts_no_process_and_loads_no_decoder() -> None:
    """The package can be imported by a program that never reads a label."""
    code = (
        "import sys, labels.reading.reader, labels.reading.sources;"
        "print(sorted({'cv2', 'numpy', 'PIL', 'pyzbar', 'zxingcpp'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout == "[]\n"


def test_a_killed_worker_is_replaced(label: NDArray[np.uint8]) -> None:
    """A crash of zbar costs the picture that caused it, not the reader."""
    with ZbarWorker() as worker:
        worker.read(label)
        os.kill(pid_of(worker), signal.SIGKILL)

        assert worker.read(label) == []
        assert len(worker.read(label)) == 2
        assert worker.deaths == 1


def test_a_hanging_worker_is_replaced(label: NDArray[np.uint8]) -> None:
    """A worker that does not answer in time is stopped and replaced."""
    with ZbarWorker(seconds=0.3) as worker:
        worker.read(label)
        os.kill(pid_of(worker), signal.SIGSTOP)

        assert worker.read(label) == []
        worker._seconds = 10
        assert len(worker.read(label)) == 2


def test_a_closed_worker_leaves_no_process(label: NDArray[np.uint8]) -> None:
    """After closing, the process is gone and collected."""
    with ZbarWorker() as worker:
        worker.read(label)
        pid = pid_of(worker)

    with pytest.raises(ChildProcessError):
        os.waitpid(pid, os.WNOHANG)


def test_a_forgotten_worker_is_ended_with_its_owner(label: NDArray[np.uint8]) -> None:
    """A worker that nobody closed ends when it is no longer referred to."""
    worker = ZbarWorker()
    worker.read(label)
    pid = pid_of(worker)
    del worker

    with pytest.raises(ProcessLookupError):
        os.kill(pid, 0)


def test_missing_zbar_is_one_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, label: NDArray[np.uint8]
) -> None:
    """Without the system library the user is told which package to install."""
    program = tmp_path / "worker.py"
    program.write_text(
        "import ctypes.util, runpy\n"
        "ctypes.util.find_library = lambda name: None\n"
        f"runpy.run_path({str(zbar._PROGRAM)!r}, run_name='__main__')\n"
    )
    monkeypatch.setattr(zbar, "_PROGRAM", program)

    with ZbarWorker() as worker, pytest.raises(DecoderMissingError, match="apt install libzbar0"):
        worker.read(label)


@pytest.mark.parametrize("shape", [(0, 0), (1, 1), (1, 500), (500, 1)])
def test_odd_pictures_are_empty(shape: tuple[int, int]) -> None:
    """Pictures without room for a symbol, or without pixels, give nothing and hurt nothing."""
    with ZbarWorker() as worker:
        assert worker.read(np.zeros(shape, np.uint8)) == []
        assert worker.deaths == 0


def test_a_fault_that_pyzbar_raises_is_an_empty_answer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, label: NDArray[np.uint8]
) -> None:
    """Pyzbar raises ValueError on some QR pictures; the worker survives it."""
    program = tmp_path / "worker.py"
    program.write_text(
        "import runpy\n"
        "from pyzbar import pyzbar\n"
        "def broken(*_, **__): raise ValueError('4294967295 is not a valid ZBarOrientation')\n"
        "pyzbar.decode = broken\n"
        f"runpy.run_path({str(zbar._PROGRAM)!r}, run_name='__main__')\n"
    )
    monkeypatch.setattr(zbar, "_PROGRAM", program)

    with ZbarWorker() as worker:
        assert worker.read(label) == []
        assert worker.read(label) == []
        assert worker.deaths == 0
