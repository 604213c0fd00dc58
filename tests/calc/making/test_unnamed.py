"""A strand nobody can name, and what a label leaves of any strand, by hand."""

from __future__ import annotations

from math import pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import fibre, fibres, practice
from calc.errors import DomainError
from calc.making.strands import unnamed
from calc.mechanics.estimate import CordEstimate
from calc.mechanics.fibre import labelled
from calc.numerics import Spread

pytestmark = pytest.mark.exact
LAWS = settings(derandomize=True, deadline=None, max_examples=80)
FORCES = st.floats(1.0, 5000.0)


def thickness_m(key: str, kg_m: float, share: float) -> float:
    return sqrt(4.0 * kg_m / (pi * fibre(key).density_kg_m3.value * share))


def test_the_weakest_that_fits_is_counted_on() -> None:
    """Fewer fit a cord whose thickness is known; of yarn, which lies flat, all do, and cotton is the weakest."""
    every = unnamed(laid=True, yarn_kg_m=2e-3)
    assert {each.id for each in every.fits} == {each.id for each in fibres()} - {"sinew"}
    assert every.fibre.id == unnamed(laid=False, yarn_kg_m=2e-4).fibre.id == "cotton"
    solid = unnamed(laid=True, yarn_kg_m=2e-3, thickness_m=thickness_m("polyester", 2e-3, 0.78))
    assert {each.id for each in solid.fits} < {each.id for each in every.fits}
    assert "polypropylene" not in {each.id for each in solid.fits}


def test_strength_runs_from_the_weakest_to_the_strongest() -> None:
    found = unnamed(laid=False, yarn_kg_m=2e-4).found()["strength"]
    each = [
        CordEstimate(fibre=one, laid=False, yarn_kg_m=2e-4).found()["strength"] for one in fibres() if one.id != "sinew"
    ]
    assert found.value == pytest.approx(min(one.value for one in each))
    assert found.low == pytest.approx(min(one.low for one in each))
    assert found.high == pytest.approx(max(one.high for one in each))


@LAWS
@given(label=FORCES, rating=st.sampled_from(["breaking", "working", "unknown"]), tex=st.floats(200.0, 8000.0))
def test_no_label_raises_what_a_strand_nobody_can_name_holds(label: float, rating: str, tex: float) -> None:
    bare = unnamed(laid=True, yarn_kg_m=tex * 1e-6).found()["strength"]
    said = unnamed(laid=True, yarn_kg_m=tex * 1e-6, rated_n=label, rating=rating).found()["strength"]  # type: ignore[arg-type]
    assert said.low <= bare.low
    assert said.value <= bare.value
    assert said.high <= bare.high


@LAWS
@given(label=FORCES, kind=st.sampled_from([each.id for each in fibres()]), laid=st.booleans())
def test_of_a_known_fibre_a_breaking_strength_is_believed_up_to_what_it_can_hold(
    label: float, kind: str, *, laid: bool
) -> None:
    strand = CordEstimate(fibre=fibre(kind), laid=laid, yarn_kg_m=1e-3, rated_n=label, rating="breaking")
    most = strand.by_fibre().high
    assert strand.found()["strength"].value == pytest.approx(min(label, most))
    assert strand.promises_too_much == (label > most)


def test_a_label_by_hand() -> None:
    cord = Spread(100.0, 240.0, 500.0)
    low, high = practice("rated_break").spread.low, practice("rated_break").spread.high
    assert labelled(cord, 200.0, "breaking", known=True) == Spread(200.0 * low, 200.0, 200.0 * high)
    assert labelled(cord, 200.0, "breaking", known=False) == Spread(100.0, 200.0, 200.0 * high)
    assert labelled(cord, 20.0, "working", known=True) == Spread(100.0, 160.0, 240.0)
    assert labelled(cord, 900.0, "breaking", known=True) == Spread(500.0, 500.0, 500.0)


def test_a_cord_of_nothing_known_is_refused() -> None:
    with pytest.raises(DomainError) as caught:
        unnamed(laid=True, yarn_kg_m=2e-3, thickness_m=0.0005)
    assert caught.value.problem.reason == "nothing_fits"
