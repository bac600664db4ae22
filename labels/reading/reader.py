"""The one reader: a picture or a live frame in, the label numbers in it out, with their places."""

from __future__ import annotations

from typing import TYPE_CHECKING, Self

from labels.reading import passes
from labels.reading.look import Look, Reading, merged
from labels.reading.search import Places, halved, inside, levels, search
from labels.reading.zbar import ZbarWorker

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from os import PathLike

    import numpy as np
    from numpy.typing import NDArray

    from labels.reading.patches import Patch
    from labels.reading.sources import Frame

#: Places looked at in a still picture, for each kind and size.
STILL_PLACES = 80
#: Places that nothing was read in are tried again in the slow ways, the strongest of them.
STUBBORN_PLACES = 12
#: Pixels of a picture that is worth enlarging as a whole.
LARGEST_DOUBLED = 4_200_000
#: Places looked at in each live frame: the strongest, and of the next ones a few in turn.
LIVE_PLACES = 10
LIVE_BARS, LIVE_SQUARES, LIVE_IN_TURN = 5, 3, 1
#: Places looked at in the half-size copy of a live frame.
COARSE_PLACES = 3
#: What a live frame gets besides its places, in turn.
TURNS = ("squares", "coarse", "again", "squares", "rows", "threshold")


class Reader:
    """Reads labels; holds the zbar worker, so use it as a context manager or call `close`.

    `still` takes the time it needs, `live` spreads the passes over successive frames.
    """

    def __init__(self) -> None:
        self._zbar = ZbarWorker()
        self._frames = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """End the zbar worker, if it was started."""
        self._zbar.close()

    def read(self, frame: Frame) -> list[Reading]:
        """Return the labels of a frame: a still by all passes, a live one by its share of them."""
        return self.live(frame.grey) if frame.live else self.still(frame.grey)

    def still(self, grey: NDArray[np.uint8]) -> list[Reading]:
        """Return every label found in a picture by all passes."""
        sizes = levels(grey)
        looks: list[Look] = list(passes.whole_once(grey)) if grey.size > LARGEST_DOUBLED else []
        whole = next(size for size in sizes if size.size <= LARGEST_DOUBLED or size is sizes[-1])
        factor = grey.shape[0] / whole.shape[0]
        looks += passes.whole_twice(whole, factor)
        looks += passes.whole_threshold(whole, self._zbar, factor)
        bars: list[Patch] = []
        squares: list[Patch] = []
        for size in sizes:
            places = search(size, STILL_PLACES, grey.shape[0] / size.shape[0])
            for patch in _unread(places.squares, looks):
                looks += passes.square(grey, patch)
            for patch in _unread(places.bars, looks):
                looks += passes.bars_lines(grey, patch, self._zbar)
            bars += places.bars
            squares += places.squares
        for patch in _strongest(bars, looks):
            looks += passes.bars_rows(grey, patch, self._zbar)
            looks += passes.bars_softly(grey, patch, self._zbar)
        for patch in _strongest(squares, looks):
            looks += passes.square_again(grey, patch, self._zbar)
        return merged(looks)

    def live(self, grey: NDArray[np.uint8]) -> list[Reading]:
        """Return the labels that this frame's share of the passes finds."""
        places = search(grey, LIVE_PLACES)
        looks: list[Look] = []
        for patch in self._share(places.bars, LIVE_BARS):
            looks += passes.bars_lines(grey, patch, self._zbar)
        looks += passes.whole_squares(grey)
        looks += self._turn(TURNS[self._frames % len(TURNS)], grey, places)
        self._frames += 1
        return merged(looks)

    def _share(self, patches: list[Patch], strongest: int) -> list[Patch]:
        """Return the strongest patches and, of the rest, those whose turn it is."""
        rest = patches[strongest:]
        if len(rest) <= LIVE_IN_TURN:
            return patches
        first = self._frames * LIVE_IN_TURN % len(rest)
        return patches[:strongest] + rest[first : first + LIVE_IN_TURN]

    def _turn(self, turn: str, grey: NDArray[np.uint8], places: Places) -> Iterator[Look]:
        """Yield what the pass of this turn finds."""
        if turn == "squares":
            for patch in self._share(places.squares, LIVE_SQUARES):
                yield from passes.square(grey, patch)
        elif turn == "threshold":
            yield from passes.whole_threshold(grey, self._zbar)
        elif turn == "rows":
            for patch in places.bars[:1]:
                yield from passes.bars_rows(grey, patch, self._zbar)
                yield from passes.bars_softly(grey, patch, self._zbar)
        elif turn == "again":
            for patch in places.squares[:1]:
                yield from passes.square_again(grey, patch, self._zbar)
        else:
            coarse = search(halved(grey), COARSE_PLACES, 2)
            for patch in coarse.squares:
                yield from passes.square(grey, patch)
            for patch in coarse.bars:
                yield from passes.bars_lines(grey, patch, self._zbar)


def _unread(patches: Sequence[Patch], looks: Sequence[Look]) -> list[Patch]:
    """Return the patches that no symbol was read in yet."""
    return [patch for patch in patches if not any(inside(patch, look.corners) for look in looks)]


def _strongest(patches: Sequence[Patch], looks: Sequence[Look]) -> list[Patch]:
    """Return the strongest of the patches that no symbol was read in."""
    return sorted(_unread(patches, looks), key=lambda patch: -patch.weight)[:STUBBORN_PLACES]


def read_picture(picture: str | PathLike[str] | NDArray[np.uint8]) -> list[Reading]:
    """Return every label in a picture file or array (grey, or blue-green-red as OpenCV has it).

    Raises `PictureError` for a file that cannot be opened as a picture, `DecoderMissingError`
    without zbar. For many pictures keep one `Reader` and call its `still`.
    """
    from labels.reading.pictures import grey_of

    with Reader() as reader:
        return reader.still(grey_of(picture))
