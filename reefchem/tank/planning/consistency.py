"""Whether the uptakes agree: calcium with alkalinity, magnesium with calcium."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.tank.consistency import calcium_with_alkalinity, magnesium_with_calcium
from reefchem.tank.dissolved import dissolved_error_of_dosed, error_of_dosed
from reefchem.tank.holding import alkalinity_uptake
from reefchem.tank.mass_balance import days_between
from reefchem.tank.planning.figures import Figure, Given
from reefchem.tank.planning.text import Line, say
from reefchem.tank.readings import combined_uncertainty, difference_in_uncertainties

if TYPE_CHECKING:
    from reefchem.tank.description import Stock
    from reefchem.tank.planning.alkalinity import Alkalinity
    from reefchem.tank.planning.ions import Ion
    from reefchem.tank.uptake_fit import UptakeEstimate

__all__ = ["calcium_lines", "magnesium_lines"]

APART = 2.0
"""Standard uncertainties beyond which chance alone is the cause less than once in twenty."""

NONE = Given(0.0, "none")
SHARED_VOLUME = Given(0.0, "the volume errs in calcium and alkalinity alike")

CORAL, CORALLINE = 4.0, 250.0
"""Magnesium by calcium, mmol/mol: coral aragonite at the least, coralline algae at the most.
From memory, not verified; see `magnesium_in_skeleton`."""


def calcium_lines(account: Alkalinity, ions: dict[str, Ion]) -> tuple[Line, ...]:
    """Say whether calcium falls as the alkalinity leads to expect, and what it would mean."""
    calcium = ions.get("calcium")
    if calcium is None:
        return ()
    beside = _alkalinity_over(account, calcium.estimate)
    expected, expected_error = _expected(account, beside, ions.get("nitrate"))
    seen_error = _seen_error(account, calcium)
    apart = account.ledger.work_out(
        "calcium_apart",
        "how far calcium and alkalinity are apart, in standard uncertainties",
        difference_in_uncertainties,
        digits=2,
        one=_pure(calcium.uptake),
        other=_pure(expected),
        first=_pure(seen_error),
        second=_pure(expected_error),
    )
    together = account.ledger.work_out(
        "calcium_doubt",
        "standard uncertainty of their difference, mg/L a day",
        combined_uncertainty,
        digits=2,
        first=_pure(seen_error),
        second=_pure(expected_error),
    )
    head = (
        "Calcium against alkalinity: over the same days the alkalinity leads to expect ",
        expected,
        " of calcium, two equivalents for a mole, nitrate allowed for; the readings show ",
        calcium.uptake,
        ". They are ",
        apart,
        " standard uncertainties apart: ",
    )
    if abs(apart.value) <= APART:
        return (
            say(
                *head,
                "they agree, as far as these readings can tell (one such uncertainty is ",
                together,
                " mg/L a day).",
            ),
        )
    if apart.value > 0:
        meaning = (
            "more calcium goes than the alkalinity explains. Look whether the calcium stock is "
            "weaker than written, the alkalinity stock stronger, or the fresh seawater poorer in "
            "calcium than described."
        )
    else:
        meaning = (
            "less calcium goes than the alkalinity explains. Look whether the calcium stock is "
            "stronger than written, the alkalinity stock weaker, the fresh seawater richer in "
            "calcium than described, or nitrate gathers unseen: each mole takes an equivalent."
        )
    return (say(*head, "they do not agree; ", meaning),)


def magnesium_lines(account: Alkalinity, ions: dict[str, Ion]) -> tuple[Line, ...]:
    """Say whether magnesium falls as skeletons take it."""
    calcium, magnesium = ions.get("calcium"), ions.get("magnesium")
    if calcium is None or magnesium is None or calcium.low.value <= 0:
        return ()
    least, most = (
        account.ledger.work_out(
            f"magnesium_{kind.replace(' ', '_')}",
            f"magnesium that goes with the calcium in {kind}",
            magnesium_with_calcium,
            digits=2,
            calcium=calcium.uptake,
            magnesium_per_calcium=Given(ratio, "from memory, not verified"),
        )
        for kind, ratio in (("coral", CORAL), ("coralline algae", CORALLINE))
    )
    head = (
        "Magnesium against calcium: skeleton takes between ",
        least,
        " of magnesium with it, if all is coral, and ",
        most,
        ", if all is coralline algae. ",
    )
    if magnesium.high.value < least.value:
        meaning = "The readings show less: look at the fresh seawater's magnesium and the kit."
    elif magnesium.low.value > most.value:
        meaning = (
            "The readings show more: no skeleton takes so much. Look at the salinity, the fresh "
            "seawater's magnesium and the kit."
        )
    else:
        meaning = "The readings agree with that, as far as they can tell."
    return (say(*head, meaning),)


def _alkalinity_over(account: Alkalinity, calcium: UptakeEstimate) -> UptakeEstimate:
    """Return the uptake of alkalinity over the days of the calcium readings, or over more."""
    known = account.estimate
    first, last = (known.readings[index].entry.when for index in (0, -1))
    begin = calcium.readings[0].entry.when
    if begin >= first:
        return known
    return account.fitted(days_between(last, begin), at_least=len(known.readings), halves=False)


def _expected(
    account: Alkalinity, beside: UptakeEstimate, nitrate: Ion | None
) -> tuple[Figure, Figure]:
    """Return the calcium that the alkalinity leads to expect, and its standard uncertainty."""
    log = account.log.file
    fit = f"fit to {len(beside.readings)} readings of {log}"
    over = account.ledger.work_out(
        "uptake_beside_calcium",
        "alkalinity that the tank took in a day while calcium was read",
        alkalinity_uptake,
        first=Given(beside.first, f"{fit}: alkalinity at the first reading"),
        kept=Given(beside.kept, f"water changes in {log}"),
        added=Given(beside.added, f"doses, water changes and top-off in {log}"),
        second=Given(beside.last, f"{fit}: alkalinity at the last reading"),
        days=Given(beside.days, f"{log}, weighted by the water still there"),
    )
    expected = account.ledger.work_out(
        "calcium_expected",
        "calcium that goes with the alkalinity in a day",
        calcium_with_alkalinity,
        uptake=over,
        nitrate_taken=NONE if nitrate is None else nitrate.uptake,
    )
    stock = account.ledger.work_out(
        "calcium_expected_stock",
        "standard uncertainty of that uptake of alkalinity from the stock",
        error_of_dosed,
        digits=2,
        dosed=Given(beside.dosed, f"doses in {log}, by day"),
        volume_error=SHARED_VOLUME,
        strength_error=_strength(account, account.stock),
    )
    both = account.ledger.work_out(
        "calcium_expected_both",
        "standard uncertainty of that uptake from tests and stock, meq/L a day",
        combined_uncertainty,
        digits=2,
        first=Given(beside.standard_error, f"{fit}: standard error"),
        second=_pure(stock),
    )
    noise = 0.0 if nitrate is None else nitrate.estimate.standard_error
    parts = [
        account.ledger.work_out(
            f"calcium_expected_{name}",
            f"what the error of {name} does to the calcium that is expected",
            calcium_with_alkalinity,
            digits=2,
            uptake=taken,
            nitrate_taken=gone,
        )
        for name, taken, gone in (
            ("alkalinity", Given(both.value, both.label, both.id), NONE),
            ("nitrate", NONE, Given(noise, "standard error of the uptake of nitrate")),
        )
    ]
    wrong = account.ledger.work_out(
        "calcium_expected_error",
        "standard uncertainty of the calcium that is expected, mg/L a day",
        combined_uncertainty,
        digits=2,
        first=_pure(parts[0]),
        second=_pure(parts[1]),
    )
    return expected, wrong


def _seen_error(account: Alkalinity, calcium: Ion) -> Figure:
    """Return the standard uncertainty of the calcium that goes, without that of the volume."""
    found = calcium.estimate
    bottle = account.description.stock_for("calcium") or account.stock
    stock = account.ledger.work_out(
        "calcium_stock",
        "standard uncertainty of the uptake of calcium from the stock",
        dissolved_error_of_dosed,
        digits=2,
        dosed=Given(found.dosed, f"doses in {account.log.file}, by day"),
        volume_error=SHARED_VOLUME,
        strength_error=_strength(account, bottle),
    )
    return account.ledger.work_out(
        "calcium_error",
        "standard uncertainty of the uptake of calcium, mg/L a day",
        combined_uncertainty,
        digits=2,
        first=Given(found.standard_error, "fit to the readings of calcium: standard error"),
        second=_pure(stock),
    )


def _strength(account: Alkalinity, stock: Stock) -> Given:
    """Return the uncertainty of a bottle; one that brings both errs in both alike."""
    if account.stock.purpose == "all-in-one":
        return Given(0.0, f"{account.stock.name} brings both: its strength errs in both alike")
    return Given(stock.uncertainty, f"stock {stock.name}, uncertainty of its strength")


def _pure(figure: Figure) -> Given:
    """Return a figure for a relation that takes any unit."""
    return Given(figure.value, figure.label, figure.id)
