"""Which methods could hold this tank, and what each would leave behind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.dosing.drift import ion_after_periods, kept_share, share_replaced
from reefchem.dosing.lime import limewater_limit
from reefchem.dosing.oxidation import oxygen_for_formate
from reefchem.dosing.residue import sodium_chloride_left, sodium_chloride_over_time
from reefchem.seawater.composition import reference_salinity
from reefchem.seawater.density import seawater_density
from reefchem.seawater.reference_composition import composition
from reefchem.tank.planning.alkalinity import MONTH
from reefchem.tank.planning.behind import YEAR
from reefchem.tank.planning.figures import Figure, Given
from reefchem.tank.planning.pump import top_off_in_a_day
from reefchem.tank.planning.text import Line, days_text, say
from reefchem.tank.reach import alkalinity_with_changes_alone

if TYPE_CHECKING:
    from reefchem.tank.planning.alkalinity import Alkalinity

__all__ = ["method_lines"]

ROOM = 25.0
"""Temperature at which limewater is taken to stand, °C: that of the verified solubility."""


def method_lines(account: Alkalinity) -> tuple[Line, ...]:
    """Return for each method whether it can hold this tank, and at what drift."""
    if account.uptake.value <= 0:
        return ()
    return (_two_part(account), _all_in_one(account), _limewater(account), *_changes(account))


def _two_part(account: Alkalinity) -> Line:
    if account.stock.purpose == "all-in-one":
        salt = account.ledger.work_out(
            "salt_of_two_parts",
            "sodium chloride that two parts would leave in a month",
            sodium_chloride_left,
            alkalinity_used=account.taken(MONTH, "month"),
        )
        pieces: list[str | Figure] = [
            "Two solutions (baking soda or soda ash, and calcium chloride) can hold it, and leave ",
            salt,
            " of table salt in a month",
        ]
    else:
        pieces = ["Two solutions, as now, can hold it, and leave the salt named below"]
    drift = _magnesium(account)
    if drift:
        sea, after = drift
        head = f". With salinity and water changes held, magnesium goes from {sea}, as in the sea,"
        pieces += [head + " to ", after, " in a year"]
    return say(*pieces, ".")


def _magnesium(account: Alkalinity) -> tuple[str, Figure] | None:
    """Return magnesium in the sea, and after a year of two-part dosing."""
    work_out, given = account.ledger.work_out, account.description.number
    salinity, warmth = given("tank.salinity"), given("tank.temperature")
    litre = float(seawater_density(salinity, warmth)) / 1000
    period = work_out(
        "salt_period",
        "sodium chloride left from one water change to the next",
        sodium_chloride_over_time,
        daily_uptake=account.uptake,
        time=account.every,
    )
    replaced = work_out(
        "replaced",
        "share of the water that gives way to fresh water, for the salinity",
        share_replaced,
        salt_gained=period,
        salt=Given(float(reference_salinity(salinity)) * litre, "reference composition"),
    )
    kept = work_out(
        "kept", "share that is kept from change to change", kept_share,
        share=account.share, replaced=replaced,
    )  # fmt: skip
    if not 0 < kept.value < 1:
        return None
    sea = float(composition(salinity).mass_concentrations(warmth)["magnesium"])
    start = Given(sea, "seawater of the reference composition")
    after = work_out(
        "magnesium_year",
        "magnesium after a year of two-part dosing, if none is dosed",
        ion_after_periods,
        digits=4,
        level=start,
        fresh=start,
        gain=Given(0.0, "none is dosed"),
        share=account.share,
        kept=kept,
        periods=Given(YEAR / account.every.value, "a year of water changes"),
    )
    return f"{sea:.4g} mg/L", after


def _all_in_one(account: Alkalinity) -> Line:
    oxygen = account.ledger.figures.get("oxygen") or account.ledger.work_out(
        "oxygen",
        "oxygen that bacteria use in a month for the formate",
        oxygen_for_formate,
        alkalinity=account.taken(MONTH, "month"),
    )
    return say(
        "Calcium formate alone can hold it and leaves no salt; bacteria take ",
        oxygen,
        " of oxygen in a month to burn it, and it works with a delay.",
    )


def _limewater(account: Alkalinity) -> Line:
    evaporation = top_off_in_a_day(account.log)
    if evaporation is None:
        return say(
            "Limewater in the top-off leaves nothing, but brings only what evaporation makes room "
            "for. The log has no top-off, so its limit cannot be told: log a few."
        )
    limit = account.ledger.work_out(
        "limewater",
        "most alkalinity that limewater can bring in a day",
        limewater_limit,
        evaporation=Given(evaporation, f"{account.log.file}: top-off by day"),
        volume=account.volume,
        temperature=Given(ROOM, "taken to stand at room temperature"),
    )
    if limit.value >= account.uptake.value:
        verdict = ": it can hold this tank by itself, and leaves nothing behind."
    else:
        verdict = (
            ", less than the corals take: it cannot hold this tank alone, but it can carry that "
            "part of the dose, and leaves nothing behind."
        )
    return say(
        "Limewater in all of the top-off, as much as the log shows, brings at most ",
        limit,
        verdict + " It is caustic: read the chapter on limewater first.",
    )


def _changes(account: Alkalinity) -> tuple[Line, ...]:
    if account.share.value == 0:
        return ()
    alone = account.ledger.work_out(
        "changes_alone",
        "alkalinity before each water change, if nothing were dosed",
        alkalinity_with_changes_alone,
        fresh=account.fresh,
        uptake=account.uptake,
        days=account.every,
        share=account.share,
    )
    head = f"Water changes alone, {account.written('water_change.share')} every "
    head += days_text(account.every.value)
    if alone.value <= 0:
        return (
            say(
                f"{head}, cannot hold it: they bring so little of what the corals take that the "
                "sum ends below nothing, at ",
                alone,
                ".",
            ),
        )
    near = account.target.value - account.given("limits.single_dose").value
    verdict = ", close enough to the target." if alone.value >= near else ", below the target."
    word = "can hold it" if alone.value >= near else "cannot hold it"
    return (say(f"{head}, {word}: it would settle at ", alone, " before each", verdict),)
