"""The reader on simulated frames: turns, sizes, damage, many labels, places and live acceptance."""

from collections.abc import Iterator
from dataclasses import replace

import cv2
import numpy as np
import pytest

from labels.number import LabelNumber, Thing, make
from labels.reading.acceptance import Acceptance, Act
from labels.reading.look import Reading
from labels.reading.reader import Reader, read_picture
from tests.labels.reading.camera_simulator import Camera, Shot, View, clutter, shoot
from tests.labels.reading.drawers import drawer
from tests.labels.reading.label_faces import draw
from tests.labels.reading.mixes import hard_camera, hard_view, next_view

NUMBER = make(Thing.PART, 20_417)


@pytest.fixture(scope="module")
def reader() -> Iterator[Reader]:
    """Return one reader for the module, closed at its end."""
    with Reader() as opened:
        yield opened


def shot(view: View, symbols: str = "both", camera: Camera | None = None, seed: int = 1) -> Shot:
    """Return a frame with the label NUMBER held as `view` says."""
    rng = np.random.default_rng(seed)
    return shoot([(draw(NUMBER, symbols), view)], camera or Camera(), rng)


def numbers(readings: list[Reading]) -> set[LabelNumber]:
    """Return the numbers read."""
    return {reading.number for reading in readings}


@pytest.mark.parametrize("turn", range(0, 360, 24))
@pytest.mark.parametrize("symbols", ["bars", "qr"])
def test_a_clean_label_is_read_at_every_turn(reader: Reader, symbols: str, turn: int) -> None:
    """At 2 pixels a module no decoder alone reads bars turned by more than about 20 degrees."""
    assert numbers(reader.still(shot(View(turn=turn + 7), symbols).frame)) == {NUMBER}


@pytest.mark.parametrize("pixels", [1.4, 3, 6, 9])
@pytest.mark.parametrize("turn", [5, 40])
def test_small_and_large_labels_are_read(reader: Reader, pixels: float, turn: int) -> None:
    """From the floor of the decoders up to a label that fills the frame."""
    frame = shot(View(pixels_per_module=pixels, turn=turn), "bars").frame

    assert numbers(reader.still(frame)) == {NUMBER}


@pytest.mark.parametrize(
    "change",
    [
        {"contrast": 0.3},
        {"glare": 0.6},
        {"scratches": 3},
        {"smudge": 0.5},
        {"tube": 130.0},
        {"defocus": 1.2},
        {"motion": 2.0},
        {"tilt_x": 35.0},
        {"tilt_y": 35.0},
    ],
    ids=lambda change: next(iter(change)),
)
def test_one_fault_at_a_time_is_borne(reader: Reader, change: dict[str, float]) -> None:
    """Faint, shiny, scratched, dirty, bent, blurred or tilted: one of these is no obstacle."""
    view = replace(View(turn=33), **change)  # type: ignore[arg-type]  # scratches are a whole number

    assert numbers(reader.still(shot(view).frame)) == {NUMBER}


@pytest.mark.parametrize(
    "camera",
    [Camera(noise=12), Camera(light_fall=0.9), Camera(exposure=0.08), Camera(jpeg=20)],
    ids=["noise", "uneven light", "dark", "packed hard"],
)
def test_bad_light_is_borne(reader: Reader, camera: Camera) -> None:
    """One fault of the camera or the lamp is no obstacle."""
    assert numbers(reader.still(shot(View(turn=33), camera=camera).frame)) == {NUMBER}


@pytest.mark.parametrize("turn", [0, 50, 180, 290])
def test_the_place_is_that_of_the_label(reader: Reader, turn: int) -> None:
    """Every look stands within the label's own outline, by whichever pass it came."""
    taken = shot(View(turn=turn, centre=(800, 300)))
    (reading,) = reader.still(taken.frame)
    outline = taken.places[NUMBER].astype(np.float32)

    assert len(reading.symbols) == 2
    assert len(reading.decoders) == 2
    for look in reading.looks:
        assert cv2.pointPolygonTest(outline, look.centre, measureDist=True) > 0, look
        for corner in look.corners:
            assert cv2.pointPolygonTest(outline, corner, measureDist=True) > -12, look


def test_a_drawer_of_thirty_labels_in_all_directions(reader: Reader) -> None:
    """One photograph of an open drawer gives every label in it and nothing else."""
    taken = drawer(30, size=(2400, 1800), rng=np.random.default_rng(5))

    assert numbers(reader.still(taken.frame)) == set(taken.places)


def test_a_label_far_off_in_a_phone_picture_is_read(reader: Reader) -> None:
    """In 12 megapixels a label at 2 pixels a module is one thirtieth of the width."""
    camera = Camera(size=(4032, 3024), noise=2)
    taken = shot(View(turn=62, centre=(3100, 700)), camera=camera)

    assert numbers(reader.still(taken.frame)) == {NUMBER}


@pytest.mark.parametrize("kind", range(6))
def test_clutter_without_a_label_gives_nothing(reader: Reader, kind: int) -> None:
    """Wires, slats and writing are no labels."""
    empty = shoot([], Camera(), np.random.default_rng(kind)).frame

    assert reader.still(empty) == []
    assert [reader.live(empty) for _ in range(6)] == [[]] * 6


@pytest.mark.parametrize("shape", [(1, 1), (1, 900), (900, 1), (7, 7), (40, 3000)])
def test_odd_shapes_are_empty(reader: Reader, shape: tuple[int, int]) -> None:
    """A picture too small for any label gives nothing and raises nothing."""
    grey = np.full(shape, 200, np.uint8)

    assert reader.still(grey) == []
    assert [reader.live(grey) for _ in range(6)] == [[]] * 6


def test_other_codes_are_no_labels(reader: Reader) -> None:
    """A parcel's Code 128 with good bars but no label number is not returned."""
    stranger = draw("12345678", "both")
    rng = np.random.default_rng(2)

    assert reader.still(shoot([(stranger, View(turn=20))], Camera(), rng).frame) == []


def test_a_held_label_is_accepted_within_a_few_live_frames(reader: Reader) -> None:
    """Bars turned by 40 degrees in an unsteady hand: one act within five frames, and only one."""
    rng = np.random.default_rng(4)
    view = View(turn=40, pixels_per_module=1.8, motion=0.5)
    acceptance = Acceptance(exists=lambda number: number == NUMBER)
    decisions = []
    for _ in range(12):
        view = next_view(view, rng)
        taken = shoot([(draw(NUMBER, "bars"), view)], Camera(), rng)
        decisions.append(acceptance.frame(reader.live(taken.frame)))

    assert Act(NUMBER) in decisions[:5]
    assert [decision for decision in decisions if decision] == [Act(NUMBER)]


def test_the_hard_mix_is_mostly_read_and_never_wrongly(reader: Reader) -> None:
    """Everything at once, in one frame: the bench has the rates, this the floor and no misread."""
    rng = np.random.default_rng(77)
    right = 0
    for running in range(1, 13):
        number = make(Thing.PART, running)
        face = draw(number)
        view = hard_view(rng, face.reflectance.shape[1] / 16)
        found = numbers(reader.still(shoot([(face, view)], hard_camera(rng), rng).frame))
        assert found <= {number}
        right += found == {number}

    assert right >= 9


def test_an_array_is_read_without_a_reader() -> None:
    """The short way: one call for one picture, here in colour."""
    colour = np.repeat(shot(View()).frame[:, :, None], 3, axis=2)

    assert [item.number for item in read_picture(colour)] == [NUMBER]


def test_clutter_is_the_same_each_time() -> None:
    """The simulator's frames do not change from run to run."""
    assert clutter(3).mean() == pytest.approx(clutter.__wrapped__(3).mean())
    assert np.array_equal(shot(View(), seed=9).frame, shot(View(), seed=9).frame)
