"""The fibre table: what every fibre must have, and what must hold between its numbers."""

from __future__ import annotations

from itertools import pairwise

import pytest
from scipy import constants

from calc.data import CREEP_K, CREEP_SHARE, Fibre, fibre, fibres
from calc.data.fibre_table import PROPERTIES

pytestmark = pytest.mark.exact

ALL = {each.id: each for each in fibres()}
OPTIONAL = {"knee", "melting", "thread"}


def test_the_generic_fibres_are_all_there_and_sorted() -> None:
    needed = {"polyester", "polypropylene", "nylon", "hmpe", "lcp", "aramid", "linen", "hemp", "cotton", "silk"}
    assert needed <= set(ALL)
    assert list(ALL) == sorted(ALL)


@pytest.mark.parametrize("key", ALL)
def test_a_fibre_has_every_property(key: str) -> None:
    names = [name for name, _ in ALL[key].facts]
    assert set(PROPERTIES) - OPTIONAL <= set(names)
    assert names == [name for name in PROPERTIES if name in names]


@pytest.mark.parametrize("key", ALL)
def test_attributes_give_the_facts_in_si(key: str) -> None:
    each = ALL[key]
    facts = dict(each.facts)
    spreads = {
        "density": each.density_kg_m3,
        "tenacity": each.tenacity_n_per_kg_m,
        "thread": each.thread_n_per_kg_m if "thread" in facts else None,
        "modulus": each.modulus_n_per_kg_m,
        "break_strain": each.break_strain,
        "knee": each.knee_n_per_kg_m,
        "softening": each.softening_k,
        "melting": each.melting_k,
        "creep_decade": each.creep_decade,
        "creep_power": each.creep_power,
        "creep_warmth": each.creep_warmth,
        "wet_ratio": each.wet_ratio,
        "knot_ratio": each.knot_ratio,
        "friction": each.friction,
        "packing": each.packing,
    }
    assert set(spreads) == set(PROPERTIES)
    for name, spread in spreads.items():
        assert spread is (facts[name].spread if name in facts else None)
    assert (each.creep, each.uv) == tuple(verdict.word for _, verdict in each.verdicts)


def test_si_values_of_one_fibre_worked_by_hand() -> None:
    hmpe = fibre("hmpe")
    assert hmpe.density_kg_m3.value == pytest.approx(970.0, rel=1e-12)
    assert hmpe.tenacity_n_per_kg_m.value == pytest.approx(2.9e6, rel=1e-12)
    assert hmpe.break_strain.value == pytest.approx(0.035, rel=1e-12)
    assert hmpe.softening_k.low == pytest.approx(343.15, rel=1e-12)
    assert hmpe.melting_k is not None
    assert hmpe.melting_k.high == pytest.approx(425.15, rel=1e-12)


@pytest.mark.parametrize("key", ALL)
def test_what_is_spun_holds_less_than_its_fibres(key: str) -> None:
    """Fibres that end every few centimetres hold each other by friction; filaments run through."""
    each = ALL[key]
    spun = {"cotton", "hemp", "linen", "ramie", "silk", "sinew"}
    assert (each.thread_n_per_kg_m == each.tenacity_n_per_kg_m) == (key not in spun)
    if key in spun:
        assert each.thread_n_per_kg_m.value < 0.65 * each.tenacity_n_per_kg_m.value
        assert each.thread_n_per_kg_m.high < each.tenacity_n_per_kg_m.high


@pytest.mark.parametrize("key", ALL)
def test_shares_are_shares(key: str) -> None:
    each = ALL[key]
    for share in (each.packing, each.knot_ratio, each.friction):
        assert share.low > 0.0
        assert share.high <= 1.0
    assert each.creep_warmth.low >= 1.0
    assert each.creep_power.low >= 1.0


@pytest.mark.parametrize("key", ALL)
def test_it_softens_no_later_than_it_melts(key: str) -> None:
    each = ALL[key]
    if each.melting_k is not None:
        assert each.softening_k.value < each.melting_k.value


@pytest.mark.parametrize("key", ALL)
def test_first_stiffness_and_breaking_point_are_of_one_curve(key: str) -> None:
    """Mean slope to break within a factor 2 of the first slope, 5 where a knee parts them."""
    each = ALL[key]
    mean = each.tenacity_n_per_kg_m.value / each.break_strain.value
    limit = 2.0 if each.knee_n_per_kg_m is None else 5.0
    assert 1.0 / limit < each.modulus_n_per_kg_m.value / mean < limit


def test_creep_classes_are_in_the_order_of_creep() -> None:
    """Typical creep of a tenfold time rises from class to class, both at the same share of strength."""
    mean = {
        word: sum(group) / len(group)
        for word in ("low", "medium", "high")
        if (group := [each.creep_decade.value for each in ALL.values() if each.creep == word])
    }
    assert all(a < b for a, b in pairwise(mean[word] for word in ("low", "medium", "high")))
    assert 0.0 < CREEP_SHARE < 1.0
    assert constants.convert_temperature(20.0, "C", "K") == pytest.approx(CREEP_K)


@pytest.mark.parametrize("key", ALL)
def test_floating_is_clear_of_water(key: str) -> None:
    """No fibre's density band straddles that of water, so floating parts them."""
    each: Fibre = ALL[key]
    assert each.density_kg_m3.high < 990.0 or each.density_kg_m3.low > 1010.0


def test_an_unknown_fibre_is_not_found() -> None:
    with pytest.raises(StopIteration):
        fibre("moonlight")
