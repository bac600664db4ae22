"""The program inside the zbar worker process: greyscale pictures in, texts out.

zbar can end its process on odd pictures (assertions in its QR text reader, a reported double free),
so it never runs inside the program that writes the records. The worker is started as a file of its
own and imports nothing of this project.

Requests on standard input: width and height as two little-endian 32 bit numbers, then the pixels.
Answers on standard output: a length as one such number, then that many bytes of JSON: a list of
`[type, text, [[x, y], ...]]`, or a string that names a fault. The first answer, sent before any
request, is an empty list when zbar could be loaded.
"""

from __future__ import annotations

import json
import signal
import struct
import sys
from typing import Any, BinaryIO

REQUEST = struct.Struct("<II")
ANSWER = struct.Struct("<I")


def _answer(out: BinaryIO, value: Any) -> None:
    body = json.dumps(value).encode()
    out.write(ANSWER.pack(len(body)) + body)
    out.flush()


def _decoded(pyzbar: Any, pixels: bytes, width: int, height: int) -> Any:
    """Return what zbar found, or the fault it raised as text."""
    wanted = [pyzbar.ZBarSymbol.CODE128, pyzbar.ZBarSymbol.QRCODE]
    try:
        found = pyzbar.decode((pixels, width, height), symbols=wanted)
    except Exception as fault:  # noqa: BLE001  pyzbar raises ValueError and others on odd symbols
        return repr(fault)
    return [
        [item.type, item.data.decode("latin-1"), [[point.x, point.y] for point in item.polygon]]
        for item in found
    ]


def serve(requests: BinaryIO, answers: BinaryIO) -> None:
    """Answer requests until the other side closes the pipe."""
    try:
        from pyzbar import pyzbar
    except ImportError as fault:
        _answer(answers, str(fault))
        return
    _answer(answers, [])
    while len(head := requests.read(REQUEST.size)) == REQUEST.size:
        width, height = REQUEST.unpack(head)
        pixels = requests.read(width * height)
        if len(pixels) == width * height:
            _answer(answers, _decoded(pyzbar, pixels, width, height))


if __name__ == "__main__":
    # Ctrl-C at the terminal reaches the worker too; only the reader decides when it ends.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    serve(sys.stdin.buffer, sys.stdout.buffer)
