"""What is recorded comes back as it was: laws that hold for every kind."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from partsbin.kinds import KINDS
from partsbin.kinds.forms.codes import CodeForm
from partsbin.kinds.forms.form import Form
from partsbin.kinds.forms.lengths import LengthForm, micrometres
from partsbin.kinds.forms.numbers import CountForm, CountsForm, NumberForm
from partsbin.kinds.forms.words import WordForm, WordsForm
from partsbin.kinds.spec import Spec
from partsbin.standards.length import mm

TEXTS = st.text(st.characters(codec="utf-8"), min_size=1, max_size=60).filter(
    lambda text: bool(text.split()) and text.isprintable()
)


def held_values(form: Form) -> st.SearchStrategy[object]:
    """Return what a file may hold for an attribute of that form."""
    held: st.SearchStrategy[object]
    match form:
        case LengthForm():
            lengths = st.integers(form.low, form.high).map(lambda length: length / 1000)
            held = st.one_of(lengths, st.floats(form.low / 1000, form.high / 1000))
        case CountForm():
            held = st.integers(form.low, form.high)
        case CountsForm():
            held = st.lists(st.integers(form.low, form.high), min_size=1, max_size=14)
        case NumberForm():
            held = st.floats(float(form.low), float(form.high))
        case WordsForm():
            held = st.lists(st.sampled_from(form.words))
        case WordForm():
            sizes = [size / 1000 for size in form.measured]
            held = st.sampled_from([*form.words, *form.also, *sizes])
        case CodeForm():
            held = st.sampled_from([*form.usual, *map(str.lower, form.usual)])
        case _:
            held = TEXTS
    return held


@st.composite
def raw_parts(draw: st.DrawFn) -> tuple[str, dict[str, object]]:
    """Draw a kind and some of its attributes as a file holds them."""
    kind = draw(st.sampled_from(list(KINDS.values())))
    names = draw(st.sets(st.sampled_from(list(kind.attributes)))) if kind.attributes else set()
    held = {name: draw(held_values(kind.attributes[name].form)) for name in sorted(names)}
    if kind.free and "colour" not in held:
        held["colour"] = draw(TEXTS)
    return kind.word, held


@given(raw_parts())
def test_plain_is_read_again(raw: tuple[str, dict[str, object]]) -> None:
    """What a spec writes for a file, a file gives back as the same spec, also through its text."""
    kind, held = raw
    spec = Spec.check(kind, held)

    assert Spec.check(kind, spec.plain()) == spec
    assert Spec.from_text(spec.text) == spec


@given(raw_parts())
def test_every_value_stands_for_something(raw: tuple[str, dict[str, object]]) -> None:
    """A recorded value is known on its piece or open between several, and can be shown."""
    spec = Spec.check(*raw)
    piece = spec.piece

    for name, _ in spec.values:
        assert piece.known(name) != (len(piece.open_values.get(name, ())) > 1)
    assert spec.kind.replace("_", " ") in str(spec)


@given(
    st.one_of(
        st.floats(-1e6, 1e6, allow_nan=False),
        st.integers(-(10**6), 10**6),
        st.decimals(-(10**6), 10**6, places=4).map(float),
    )
)
def test_short_way_to_micrometres_is_exact(raw: float) -> None:
    """Lengths come out the same as by decimal arithmetic, for every number of a file."""
    assert micrometres(raw, LengthForm(mm(0), mm(1))) == mm(raw)


@given(st.integers(20_000, 36_000))
def test_typed_and_filed_lengths_agree(length: int) -> None:
    """A length means the same typed by a person, with comma or point, and held by a file."""
    shown = str(Decimal(length) / 1000)
    filed = Spec.check("seatpost", {"diameter_mm": length / 1000})

    assert Spec.read("seatpost", {"diameter_mm": f"{shown} mm"}) == filed
    assert Spec.read("seatpost", {"diameter_mm": shown.replace(".", ",")}) == filed
