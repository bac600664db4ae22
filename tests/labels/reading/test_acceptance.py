"""When a number that was read may be acted on."""

from collections.abc import Callable

import pytest

from labels.number import LabelNumber, Thing, make
from labels.reading.acceptance import Acceptance, Act, Ask, Unknown, known, number_in
from labels.reading.look import Decoder, Look, Reading, Symbol, merged

ONE, TWO = make(Thing.PART, 1), make(Thing.PART, 2)
SQUARE = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))


def seen(number: LabelNumber, *kinds: tuple[Symbol, Decoder], times: int = 1) -> Reading:
    """Return a reading with one look for each kind; one of bars by zxing if none is given."""
    kinds = kinds or ((Symbol.CODE_128, Decoder.ZXING),) * times
    looks = tuple(Look(number, SQUARE, symbol, decoder, "test") for symbol, decoder in kinds)
    return Reading(number, SQUARE, looks)


@pytest.fixture
def acceptance() -> Acceptance:
    """Return an acceptance for a workshop that has the numbers ONE and TWO."""
    return Acceptance(exists=lambda number: number in {ONE, TWO})


def test_one_look_is_not_acted_on(acceptance: Acceptance) -> None:
    """A single look at a number, however often it is asked, does nothing."""
    assert [acceptance.frame(found) for found in ([seen(ONE)], [], [])] == [None, None, None]


def test_two_looks_by_one_decoder_in_one_frame_are_one(acceptance: Acceptance) -> None:
    """The same decoder reading the same symbol twice in a frame is no second witness."""
    assert acceptance.frame([seen(ONE, times=2)]) is None


@pytest.mark.parametrize(
    "kinds",
    [
        ((Symbol.CODE_128, Decoder.ZXING), (Symbol.QR, Decoder.ZXING)),
        ((Symbol.CODE_128, Decoder.ZXING), (Symbol.CODE_128, Decoder.ZBAR)),
    ],
    ids=["both symbols", "both decoders"],
)
def test_one_frame_is_enough_with_two_witnesses(
    acceptance: Acceptance, kinds: tuple[tuple[Symbol, Decoder], ...]
) -> None:
    """Both symbols, or both decoders, agree within one frame."""
    assert acceptance.frame([seen(ONE, *kinds)]) == Act(ONE)


def test_two_frames_agree_across_a_gap(acceptance: Acceptance) -> None:
    """A second look some frames later confirms the first."""
    acceptance.frame([seen(ONE)])
    for _ in range(5):
        assert acceptance.frame([]) is None

    assert acceptance.frame([seen(ONE)]) == Act(ONE)


def test_a_look_too_old_confirms_nothing(acceptance: Acceptance) -> None:
    """Two looks further apart than the memory are two first looks."""
    acceptance.frame([seen(ONE)])
    for _ in range(acceptance.memory):
        acceptance.frame([])

    assert acceptance.frame([seen(ONE)]) is None


def test_a_number_is_acted_on_once_while_in_view(acceptance: Acceptance) -> None:
    """A label left in front of the camera, even read only now and then, is acted on once."""
    decisions = [
        acceptance.frame([seen(ONE)] if frame % 20 in {0, 1} else []) for frame in range(200)
    ]

    assert [decision for decision in decisions if decision] == [Act(ONE)]


def test_a_number_that_left_the_view_is_acted_on_again(acceptance: Acceptance) -> None:
    """After the absence the same label counts anew."""
    acceptance.frame([seen(ONE)])
    assert acceptance.frame([seen(ONE)]) == Act(ONE)
    for _ in range(acceptance.absence):
        acceptance.frame([])
    acceptance.frame([seen(ONE)])

    assert acceptance.frame([seen(ONE)]) == Act(ONE)


def test_two_numbers_in_view_are_asked_about_once(acceptance: Acceptance) -> None:
    """Two labels side by side: the user is asked, and only once, and nothing is acted on."""
    decisions = [acceptance.frame([seen(ONE), seen(TWO)]) for _ in range(10)]

    assert [decision for decision in decisions if decision] == [Ask((ONE, TWO))]
    assert acceptance.in_view == (ONE, TWO)


def test_the_chosen_number_is_acted_on_and_the_other_stays_quiet(acceptance: Acceptance) -> None:
    """The answer to the question is the act; the rest in view does nothing by itself."""
    for _ in range(3):
        acceptance.frame([seen(ONE), seen(TWO)])

    assert acceptance.choose(TWO) == Act(TWO)
    assert [acceptance.frame([seen(ONE), seen(TWO)]) for _ in range(5)] == [None] * 5


def test_a_half_seen_rival_holds_the_act_back(acceptance: Acceptance) -> None:
    """While another existing number was glimpsed a moment ago, nothing is acted on."""
    acceptance.frame([seen(ONE), seen(TWO)])

    assert acceptance.frame([seen(ONE)]) is None


def test_the_act_comes_when_the_rival_is_gone(acceptance: Acceptance) -> None:
    """A rival glimpsed once and never again delays the act, it does not forbid it."""
    acceptance.frame([seen(TWO)])
    decisions = [acceptance.frame([seen(ONE)]) for _ in range(acceptance.settle + 2)]

    assert [decision for decision in decisions if decision] == [Act(ONE)]


def test_a_label_put_in_the_place_of_another_needs_no_question(acceptance: Acceptance) -> None:
    """The next label follows the last one: act, act, no question."""
    decisions = [acceptance.frame([seen(ONE)]) for _ in range(5)]
    decisions += [acceptance.frame([seen(TWO)]) for _ in range(15)]

    assert [decision for decision in decisions if decision] == [Act(ONE), Act(TWO)]


def test_a_second_label_beside_the_first_is_asked_about(acceptance: Acceptance) -> None:
    """One was acted on and still lies there when two comes: which is meant is unclear."""
    decisions = [acceptance.frame([seen(ONE)]) for _ in range(5)]
    decisions += [acceptance.frame([seen(ONE), seen(TWO)]) for _ in range(5)]

    assert [decision for decision in decisions if decision] == [Act(ONE), Ask((ONE, TWO))]


def test_an_unknown_number_is_said_once_and_never_acted_on(acceptance: Acceptance) -> None:
    """A good label that nothing has is reported, not acted on, and no rival to a known one."""
    stranger = make(Thing.PART, 77)
    decisions = [acceptance.frame([seen(stranger), seen(ONE)]) for _ in range(6)]

    assert [decision for decision in decisions if decision] == [Unknown(stranger), Act(ONE)]


def test_existence_is_asked_once_while_in_view() -> None:
    """A database behind `exists` is not asked for every frame."""
    asked: list[LabelNumber] = []

    def exists(number: LabelNumber) -> bool:
        asked.append(number)
        return True

    acceptance = Acceptance(exists=exists)
    for _ in range(10):
        acceptance.frame([seen(ONE)])

    assert asked == [ONE]


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: text[:-1],
        lambda text: text + "0",
        lambda text: text[:-1] + str((int(text[-1]) + 1) % 10),
        lambda text: text[:4] + " " + text[4:],
        lambda text: "9" + text[1:],
        lambda _: "",
        lambda _: "²0012362",
        lambda text: text + "\n",
    ],
    ids=[
        "short",
        "long",
        "check digits",
        "grouped",
        "first digit",
        "empty",
        "odd digit",
        "newline",
    ],
)
def test_a_decoded_text_must_be_a_number_to_the_digit(spoil: Callable[[str], str]) -> None:
    """What a symbol holds is taken as it is or not at all."""
    assert number_in(ONE) == ONE
    assert number_in(spoil(ONE)) is None


def test_looks_of_one_number_are_one_reading() -> None:
    """Bars and QR of one label, and every pass that read them, make one reading."""
    looks = [*seen(TWO, times=2).looks, *seen(ONE).looks, *seen(TWO).looks]

    assert [(reading.number, len(reading.looks)) for reading in merged(looks)] == [
        (TWO, 3),
        (ONE, 1),
    ]


def test_a_look_up_shows_what_exists_after_one_look() -> None:
    """A picture looked up needs no second look, but only existing numbers count."""
    found = [seen(ONE), seen(make(Thing.BIKE, 5))]

    assert [reading.number for reading in known(found, lambda number: number == ONE)] == [ONE]
