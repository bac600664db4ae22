"""The number on a label, against ISO/IEC 7064's example and python-stdnum's own MOD 97-10."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_97_10

from labels import number
from labels.number import LARGEST_RUNNING, LabelNumber, Thing

things = st.sampled_from(Thing)
runnings = st.one_of(st.integers(1, 99_999), st.integers(1, LARGEST_RUNNING))
numbers = st.builds(number.make, things, runnings)

# Every digit counts somewhere: few numbers, all their errors.
SAMPLES = [
    number.make(thing, running)
    for thing in Thing
    for running in (1, 9, 123, 4_096, 54_321, 99_999, 100_000, 7_654_321, LARGEST_RUNNING)
]


def test_published_example() -> None:
    """The standard's example: 794 is followed by 44.

    Source: ISO/IEC 7064, simplified procedure for MOD 97-10, as quoted at usersite.datalab.eu,
    "Calculation of Check Digits According to MODULUS 97-10", from the Bank of Slovenia.
    """
    assert number.check_digits("794") == "44"


@pytest.mark.parametrize(
    ("payload", "digits"),
    [("0600001234567", "58"), ("0600001234586", "98")],
    ids=["remainder 40", "remainder 0 gives 98"],
)
def test_published_account_numbers(payload: str, digits: str) -> None:
    """Two account numbers worked on the same page, one at the edge where the remainder is 0."""
    assert number.check_digits(payload) == digits


@given(payload=st.from_regex(r"[0-9]{1,12}", fullmatch=True))
def test_check_digits_agree_with_stdnum(payload: str) -> None:
    """python-stdnum, which computes them another way, finds the same digits and accepts them."""
    digits = number.check_digits(payload)

    assert digits == f"{int(mod_97_10.calc_check_digits(payload)):02d}"
    assert mod_97_10.is_valid(payload + digits)


@given(thing=things, running=runnings)
def test_round_trip(thing: Thing, running: int) -> None:
    """What a number is made of comes back from it, however it is grouped."""
    made = number.make(thing, running)

    assert len(made) == (8 if running <= 99_999 else 10)
    assert number.validate(made) == made
    assert number.validate(number.grouped(made)) == made
    assert number.thing_of(made) is thing
    assert number.running_of(made) == running


@given(first=numbers, second=numbers)
def test_one_number_for_one_thing(first: LabelNumber, second: LabelNumber) -> None:
    """Two equal numbers name the same thing: no two things share a number."""
    same = (number.thing_of(first), number.running_of(first)) == (
        number.thing_of(second),
        number.running_of(second),
    )

    assert (first == second) is same


@pytest.mark.parametrize("good", SAMPLES)
def test_every_wrong_digit_is_found(good: LabelNumber) -> None:
    """One digit replaced by any other is refused, wherever it stands."""
    wrong = [
        good[:at] + digit + good[at + 1 :]
        for at in range(len(good))
        for digit in "0123456789"
        if digit != good[at]
    ]

    assert len(wrong) == 9 * len(good)
    assert [text for text in wrong if number.is_valid(text)] == []


@pytest.mark.parametrize("good", SAMPLES)
def test_every_swap_of_neighbours_is_found(good: LabelNumber) -> None:
    """Two neighbours that change places are refused, unless they are the same digit."""
    swapped = [
        good[:at] + good[at + 1] + good[at] + good[at + 2 :]
        for at in range(len(good) - 1)
        if good[at] != good[at + 1]
    ]

    assert swapped
    assert [text for text in swapped if number.is_valid(text)] == []


@given(good=numbers, data=st.data())
def test_any_one_slip_is_found(good: LabelNumber, data: st.DataObject) -> None:
    """The same for numbers nobody chose: a wrong digit or a swap of unequal neighbours."""
    at = data.draw(st.integers(0, len(good) - 2))
    digit = data.draw(st.sampled_from("0123456789").filter(lambda digit: digit != good[at]))
    swapped = good[:at] + good[at + 1] + good[at] + good[at + 2 :]

    assert not number.is_valid(good[:at] + digit + good[at + 1 :])
    assert swapped == good or not number.is_valid(swapped)


@pytest.mark.parametrize(
    "typed",
    [
        "20012362",
        "2001 2362",
        "2 00123 62",
        "2001-2362",
        "2001\N{EN DASH}2362",
        "2001\N{NON-BREAKING HYPHEN}2362",
        "2001\N{MINUS SIGN}2362",
        "2001\N{NO-BREAK SPACE}2362",
        "2001\N{THIN SPACE}2362",
        "2001\N{ZERO WIDTH SPACE}2362",
        "2001\N{SOFT HYPHEN}2362",
        "\t2001 2362\n",
        "\N{FULLWIDTH DIGIT TWO}0012362",
        "\N{ARABIC-INDIC DIGIT TWO}0012362",
    ],
    ids=ascii,
)
def test_any_grouping_is_accepted(typed: str) -> None:
    """Spaces, dashes and digits of any kind, as keyboards, scanners and copying bring them."""
    assert number.validate(typed) == "20012362"


@pytest.mark.parametrize(
    ("typed", "fault", "sentence"),
    [
        (
            "2001x2362",
            number.InvalidFormat,
            (
                "'2001x2362' has 'x' in it, but a label number is digits only: "
                "type the digits under the bars."
            ),
        ),
        (
            "2001236\N{SUPERSCRIPT TWO}",
            number.InvalidFormat,
            (
                "'2001236²' has '²' in it, but a label number is digits only: "
                "type the digits under the bars."
            ),
        ),
        (
            "2001",
            number.InvalidLength,
            (
                "'2001' has 4 digits, but a label number has 8, or 10 past running number 99999: "
                "type all digits under the bars."
            ),
        ),
        (
            "",
            number.InvalidLength,
            (
                "'' has 0 digits, but a label number has 8, or 10 past running number 99999: "
                "type all digits under the bars."
            ),
        ),
        (
            "9001 2362",
            number.InvalidThing,
            (
                "'9001 2362' does not start with a digit that a label can start with "
                "(1 bin, 2 part, 3 bike, 4 lot): look at the first digit again."
            ),
        ),
        (
            "2001 2326",
            number.InvalidCheckDigits,
            (
                "'2001 2326' has a digit that is wrong or out of place "
                "(the check digits do not agree): type it again from the label."
            ),
        ),
    ],
    ids=["letter", "superscript", "short", "empty", "first digit", "check digits"],
)
def test_refusals(typed: str, fault: type[number.NumberError], sentence: str) -> None:
    """Each fault has its own error, a ValueError, in one sentence that says what to do."""
    with pytest.raises(fault) as refusal:
        number.validate(typed)

    assert str(refusal.value) == sentence
    assert isinstance(refusal.value, ValueError)
    assert not number.is_valid(typed)


def test_a_long_number_for_a_short_one_is_refused() -> None:
    """Running number 123 has one number: the form with leading zeros and right check digits fails.

    Its check digits are python-stdnum's.
    """
    padded = "20000123" + mod_97_10.calc_check_digits("20000123")

    with pytest.raises(number.InvalidLength):
        number.validate(padded)


def test_running_number_nought_is_refused() -> None:
    """No label has the running number 0, not even with right check digits."""
    with pytest.raises(number.InvalidRunning):
        number.validate("200000" + mod_97_10.calc_check_digits("200000"))


@pytest.mark.parametrize("running", [-1, 0, LARGEST_RUNNING + 1])
def test_running_numbers_that_do_not_go(running: int) -> None:
    """Numbers are given from 1 to 9 999 999."""
    with pytest.raises(number.InvalidRunning) as refusal:
        number.make(Thing.PART, running)

    assert str(refusal.value) == (
        f"Running number {running} does not go on a label: give one from 1 to 9999999."
    )
