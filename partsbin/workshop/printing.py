"""Printing labels: which labels go on which stock into which file, and writing the files."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from labels.label import Label, Shape
from labels.layout import DoesNotFit
from labels.printer import PrinterError
from labels.sheet import Printed, PrintError, preview_png, write_pdf
from labels.stock import LabelStock, StockError, load, names
from partsbin.errors import UsageError
from partsbin.kinds.forms.form import nearest

if TYPE_CHECKING:
    from labels.printer import Printer

T = TypeVar("T")
WHOLE_JOB = ""
"""The key of a setting that was given without the name of a stock."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """Labels that go onto one stock and into one file."""

    labels: Sequence[Label]
    stock: LabelStock
    asked: str
    """The stock as it was asked for: a name or a file."""
    path: Path
    preview: Path | None
    start: int
    skip: tuple[int, ...]
    copies: int


@contextmanager
def refusing() -> Iterator[None]:
    """Turn what the labels refuse into a refusal of the command."""
    try:
        yield
    except (StockError, PrinterError, PrintError, DoesNotFit) as fault:
        raise UsageError(str(fault)) from fault


def stock_folder() -> Path:
    """Return the folder of the user's own label stocks, which need not exist."""
    from platformdirs import user_config_path

    return user_config_path("partsbin", appauthor=False) / "stocks"


def stock_named(name: str) -> LabelStock:
    """Return the user's own or the program's stock of that name, or that of a TOML file.

    Raises `UsageError` with the nearest name, and `StockError` with every fault and its line.
    """
    if not name.endswith(".toml") and name not in (known := names(stock_folder())):
        hint = nearest(name, known) or "; `partsbin label stocks` lists them"
        raise UsageError(f"there is no label stock {name!r}{hint}")
    return load(name, stock_folder())


def order(
    labels: Iterable[Label],
    stocks: Mapping[Shape, str],
    output: Path,
    preview: Path | None = None,
    *,
    starts: Mapping[str, int] | None = None,
    skips: Mapping[str, tuple[int, ...]] | None = None,
    copies: int = 1,
) -> list[Order]:
    """Return an order for each stock that the labels need, by the shape of each label.

    `starts` and `skips` are by the name of a stock; one that is given for the `WHOLE_JOB` is taken
    if there is only one stock. With several stocks each file's name gets that of its stock.
    Raises `UsageError` for files that are not named as what they are.
    """
    for path, ending, what in ((output, ".pdf", "labels"), (preview, ".png", "the preview")):
        if path is not None and path.suffix.lower() != ending:
            raise UsageError(f"{path} cannot take {what}; give it a name that ends in {ending}")
    piles: dict[str, list[Label]] = {}
    for label in labels:
        piles.setdefault(stocks[label.shape], []).append(label)
    starts, skips = starts or {}, skips or {}
    for setting, option in ((starts, "start"), (skips, "skip")):
        _prove_meant(setting, list(piles), option)
    several = len(piles) > 1
    orders = []
    for asked, pile in piles.items():
        stock = stock_named(asked)
        orders.append(
            Order(
                labels=pile,
                stock=stock,
                asked=_kept(asked),
                path=_beside_others(output, stock) if several else output,
                preview=_beside_others(preview, stock) if preview and several else preview,
                start=_meant(starts, asked, 1),
                skip=_meant(skips, asked, ()),
                copies=copies,
            )
        )
    return orders


def _prove_meant(setting: Mapping[str, T], stocks: Sequence[str], option: str) -> None:
    """Raise `UsageError` for a setting of a stock that is not printed on, or of who knows which."""
    if WHOLE_JOB in setting and len(stocks) > 1:
        raise UsageError(
            f"these labels go on {' and '.join(stocks)}; say which sheet is meant, "
            f"like --{option} {stocks[0]}=7"
        )
    for name in setting:
        if name != WHOLE_JOB and name not in stocks:
            hint = nearest(name, list(stocks)) or f"; it is {' and '.join(stocks)}"
            raise UsageError(f"no label of these goes on {name!r}{hint}")


def _meant(setting: Mapping[str, T], stock: str, default: T) -> T:
    return setting.get(stock, setting.get(WHOLE_JOB, default))


def _kept(asked: str) -> str:
    """Return a stock as a job keeps it: a file by its whole path."""
    return str(Path(asked).resolve()) if asked.endswith(".toml") else asked


def _beside_others(path: Path, stock: LabelStock) -> Path:
    return path.with_name(f"{path.stem}-{stock.name}{path.suffix}")


def write(orders: Sequence[Order], printer: Printer) -> list[Printed]:
    """Write the file and the preview of every order, or none of them; return what was written.

    Raises `UsageError` where a file cannot be made, and what `write_pdf` raises.
    """
    files = [one.path for one in orders] + [one.preview for one in orders if one.preview]
    written = []
    with _together(files) as unfinished:
        for one in orders:
            pdf = unfinished[one.path]
            written.append(
                write_pdf(
                    one.labels,
                    one.stock,
                    printer,
                    pdf,
                    start=one.start,
                    skip=one.skip,
                    copies=one.copies,
                )
            )
            if one.preview is not None:
                preview_png(pdf, unfinished[one.preview])
    return written


@contextmanager
def _together(files: Sequence[Path]) -> Iterator[Mapping[Path, Path]]:
    """Give a place beside each file; what is written there takes its place if all went well."""
    with ExitStack() as rooms:
        unfinished = {}
        for file in files:
            try:
                room = tempfile.TemporaryDirectory(dir=file.parent, prefix=f".{file.name}.")
            except OSError as refused:
                raise UsageError(
                    f"{file} cannot be written ({refused.strerror}); name a file in a folder of"
                    " yours"
                ) from refused
            unfinished[file] = Path(rooms.enter_context(room)) / file.name
        yield unfinished
        for file, made in unfinished.items():
            made.replace(file)
