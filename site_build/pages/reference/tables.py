"""Tables of the reference pages, from the tables of facts."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from calc.data import fibres, figure, ropes
from calc.data.fibre_table import PROPERTIES
from calc.data.reference import CLASS_TITLES, KIND_WORDS
from calc.mechanics.fibre import rope_ratio

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.data import Fact
    from site_build.pages.reference.citations import Citing


def table(heads: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """Return a table as HTML, the first cell of each row its head; cells are HTML."""
    head = "".join(f'<th scope="col">{each}</th>' for each in heads)
    body = "".join(
        "<tr>"
        + "".join(f'<th scope="row">{cell}</th>' if not at else f"<td>{cell}</td>" for at, cell in enumerate(row))
        + "</tr>"
        for row in rows
    )
    return f'<table class="pt-facts"><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>'


def fibre_numbers(citing: Citing) -> str:
    """Return one table for each number of a fibre, under its heading."""
    parts = []
    for name, words in PROPERTIES.items():
        known = [(each.words, fact) for each in fibres() for key, fact in each.facts if key == name]
        rows = [(escape(fibre), escape(figure(fact)), _from(fact, citing)) for fibre, fact in known]
        parts.append(f"### {words}\n\n{table(('Fibre', 'Typical (low–high)', 'From'), rows)}")
    return "\n\n".join(parts)


def _from(fact: Fact, citing: Citing) -> str:
    said = [fact.place, fact.note]
    words = "; ".join(escape(each) for each in said if each)
    return f"{citing.number(fact.source)} {KIND_WORDS[fact.kind]}" + (f": {words}" if words else "")


def fibre_classes(citing: Citing) -> str:
    """Return how fibres creep and stand sunlight, in words."""
    parts = []
    for name, title in CLASS_TITLES.items():
        rows = []
        for each in fibres():
            verdict = dict(each.verdicts)[name]
            told = f"{citing.number(verdict.source)} {KIND_WORDS[verdict.kind]}: {escape(verdict.place)}"
            rows.append((escape(each.words), verdict.word, told))
        parts.append(f"### {title}, in a word\n\n{table(('Fibre', 'Class', 'From'), rows)}")
    return "\n\n".join(parts)


def rope_strengths(citing: Citing) -> str:
    """Return the rope table, and polypropylene against polyester by thickness and by weight."""
    rows = [
        (
            f"{each.fibre}, {1000 * each.size_m:.0f} mm",
            f"{each.strength_n / 1000:.2f} kN",
            f"{1000 * each.linear_density_kg_m:.1f} g/m",
            f"{each.strength_n / each.linear_density_kg_m / 1e6:.3f} N/tex",
        )
        for each in ropes()
    ]
    sizes = sorted({each.size_m for each in ropes()})
    pairs = [
        (
            f"{1000 * size:.0f} mm",
            *(f"{rope_ratio('polypropylene', 'polyester', size, basis):.2f}" for basis in ("thickness", "weight")),
        )
        for size in sizes
    ]
    return (
        f"{table(('Rope', 'Least strength', 'Weight', 'For its weight'), rows)}\n\n"
        f"Polypropylene over polyester, same tables {citing.number('ci1301')}:\n\n"
        f"{table(('Size', 'At one thickness', 'At one weight'), pairs)}"
    )
