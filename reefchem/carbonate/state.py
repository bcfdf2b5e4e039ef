"""The state of the carbonate system: what two measurements say of all the rest.

A state holds pH, DIC, total alkalinity and what they were worked out with. Everything else is
computed when it is asked for, so that a call which wants pH and saturation pays for nothing else.
"""

from __future__ import annotations

from reefchem.carbonate.constants import Choices, Constants
from reefchem.carbonate.solver import Solutes, carbon_from_dic, other_alkalinity, solve_dic
from reefchem.core.blocks import BLOCK, in_blocks
from reefchem.core.constants import LN10
from reefchem.core.functions import Num, exp, log

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

__all__ = ["CarbonateState", "Part"]

MICRO = 1e-6
"""Moles in a micromole; atmospheres in a microatmosphere."""

HALF_STEP = 0.005
"""Half the difference of temperature from which slopes against temperature are taken, K."""


class Part:
    """One number of a state, computed when it is asked for.

    Attributes
    ----------
    unit : str
        As pint writes it.
    """

    def __init__(self, unit: str, compute: Callable[[CarbonateState], Num]) -> None:
        self.unit = unit
        self.compute = compute
        self.__doc__ = compute.__doc__

    def __get__(self, state: CarbonateState | None, owner: type | None = None) -> Any:
        if state is None:
            return self
        value = state.bare(self)
        if state._like is None:  # noqa: SLF001 - a part belongs to its state
            return value
        from reefchem.core.quantity import with_unit  # noqa: PLC0415 - a quantity is at hand

        return with_unit(value, self.unit, state._like)  # noqa: SLF001

    def __set__(self, state: CarbonateState, value: object) -> None:
        msg = "a CarbonateState is frozen; make another with carbonate_system"
        raise AttributeError(msg)


def part(unit: str) -> Callable[[Callable[[CarbonateState], Num]], Part]:
    """Turn a method into a part with a unit."""

    def around(compute: Callable[[CarbonateState], Num]) -> Part:
        return Part(unit, compute)

    return around


class CarbonateState:
    """Everything that follows from two measurements of the carbonate system.

    Contents are in µmol/kg, pressures in µatm, pH on the scale of the name. Arrays stay arrays;
    where quantities came in, every part is a quantity. ``CarbonateState.UNITS`` has the unit of
    each part by name.

    Slopes hold alkalinity or DIC fixed as their names and first lines say.
    """

    __slots__ = (
        "_alkalinity",
        "_ammonium",
        "_boron",
        "_calcium",
        "_chosen",
        "_constants",
        "_dic",
        "_h",
        "_like",
        "_ph",
        "_phosphate",
        "_salinity",
        "_silicate",
        "_temperature",
    )

    UNITS: dict[str, str]

    def __init__(
        self,
        inputs: tuple[Num, ...],
        chosen: Choices,
        constants: Constants | None = None,
        like: Any = None,
    ) -> None:
        """Hold ten inputs: salinity, temperature, alkalinity, DIC, pH, and what takes part."""
        (
            self._salinity,
            self._temperature,
            self._alkalinity,
            self._dic,
            self._ph,
            self._phosphate,
            self._silicate,
            self._ammonium,
            self._boron,
            self._calcium,
        ) = inputs
        self._chosen, self._constants, self._like = chosen, constants, like
        self._h: Num = None

    def __repr__(self) -> str:
        names = ("ph_total", "total_alkalinity", "dic", "pco2", "omega_aragonite")
        return f"CarbonateState({', '.join(f'{n}={getattr(self, n)!r}' for n in names)}, ...)"

    def with_units(self, like: Any) -> CarbonateState:
        """Return the state with its parts as quantities of the registry of `like`."""
        return CarbonateState(self._inputs(), self._chosen, self._constants, like)

    def as_dict(self) -> dict[str, Any]:
        """Return every part by name."""
        return {name: getattr(self, name) for name in self.UNITS}

    # -- how parts are computed ------------------------------------------------------------------

    def _inputs(self) -> tuple[Num, ...]:
        return (
            self._salinity,
            self._temperature,
            self._alkalinity,
            self._dic,
            self._ph,
            self._phosphate,
            self._silicate,
            self._ammonium,
            self._boron,
            self._calcium,
        )

    def bare(self, wanted: Part) -> Num:
        """Return a part without its unit, long arrays in pieces that stay in the cache."""
        ph = self._ph
        if type(ph) is float or ph.size <= BLOCK:
            return wanted.compute(self)
        given = self._inputs()
        absent = tuple(value is None for value in given)
        # Constants of one salinity and temperature serve all pieces; others have the whole length.
        one = type(self._salinity) is float and type(self._temperature) is float
        shared = self.constants if one else None

        def piece(*values: Num) -> Num:
            inputs = tuple(None if gone else v for gone, v in zip(absent, values, strict=True))
            return wanted.compute(CarbonateState(inputs, self._chosen, shared))

        return in_blocks(piece, [0.0 if value is None else value for value in given])

    @property
    def constants(self) -> Constants:
        """The equilibrium constants of the state, on the total scale, in mol/kg."""
        if self._constants is None:
            self._constants = Constants(self._temperature, self._salinity, self._chosen)
        return self._constants

    def _hydrogen(self) -> Num:
        if self._h is None:
            self._h = exp(-LN10 * self._ph)
        return self._h

    def _boron_total(self) -> Num:
        if self._boron is None:
            return self._chosen.boron_total(self._salinity)
        return MICRO * self._boron

    def _solutes(self, k: Constants) -> Solutes:
        return Solutes(
            k,
            self._boron_total(),
            MICRO * self._phosphate,
            MICRO * self._silicate,
            MICRO * self._ammonium,
        )

    def _carbon(self) -> tuple[Num, Num, Num]:
        """Return [CO2], [HCO3⁻] and [CO3²⁻] in µmol/kg."""
        k, h = self.constants, self._hydrogen()
        k12 = k.k1 * k.k2
        unit = self._dic / (h * (h + k.k1) + k12)
        return unit * h * h, unit * k.k1 * h, unit * k12

    def _phosphates(self) -> tuple[Num, Num, Num, Num]:
        k, h = self.constants, self._hydrogen()
        a1 = k.k1p
        a2 = a1 * k.k2p
        a3 = a2 * k.k3p
        unit = self._phosphate / (a3 + h * (a2 + h * (a1 + h)))
        return unit * h * h * h, unit * a1 * h * h, unit * a2 * h, unit * a3

    def _slopes(self) -> tuple[Num, Num]:
        """Return alkalinity per DIC at fixed H, and the slope of alkalinity against ln H."""
        h, k = self._hydrogen(), self.constants
        dic = MICRO * self._dic
        per_dic, _ = carbon_from_dic(h, 1.0, k)
        _, own = carbon_from_dic(h, dic, k)
        _, other = other_alkalinity(h, self._solutes(k))
        return per_dic, (own + other) / MICRO

    def _warmer(self, wanted: Part) -> Num:
        """Return the slope of a part against temperature, alkalinity and DIC held."""
        found = []
        for step in (HALF_STEP, -HALF_STEP):
            temperature = self._temperature + step
            k = Constants(temperature, self._salinity, self._chosen)
            solutes = self._solutes(k)
            h = solve_dic(MICRO * self._alkalinity, MICRO * self._dic, solutes)
            inputs = list(self._inputs())
            inputs[1], inputs[4] = temperature, -log(h) / LN10
            found.append(wanted.compute(CarbonateState(tuple(inputs), self._chosen, k)))
        return (found[0] - found[1]) / (2.0 * HALF_STEP)

    # -- what was given, and pH ------------------------------------------------------------------

    @part("1")
    def salinity(self) -> Num:
        """Practical salinity."""
        return self._salinity

    @part("degC")
    def temperature(self) -> Num:
        """Temperature."""
        return self._temperature

    @part("umol/kg")
    def total_alkalinity(self) -> Num:
        """Total alkalinity."""
        return self._alkalinity

    @part("umol/kg")
    def dic(self) -> Num:
        """Dissolved inorganic carbon."""
        return self._dic

    @part("1")
    def ph_total(self) -> Num:
        """Total-scale pH."""
        return self._ph

    @part("1")
    def ph_seawater(self) -> Num:
        """Seawater-scale pH."""
        return self._ph - log(self.constants.seawater) / LN10

    @part("1")
    def ph_free(self) -> Num:
        """Free-scale pH."""
        return self._ph + log(self.constants.free) / LN10

    @part("1")
    def ph_nbs(self) -> Num:
        """Nominal pH on the NBS scale; an electrode may differ by 0.02 to 0.05."""
        return self._ph - log(self.constants.seawater * self.constants.activity) / LN10

    # -- carbon ----------------------------------------------------------------------------------

    @part("umol/kg")
    def co2(self) -> Num:
        """Dissolved carbon dioxide, with carbonic acid."""
        return self._carbon()[0]

    @part("umol/kg")
    def bicarbonate(self) -> Num:
        """Bicarbonate ion."""
        return self._carbon()[1]

    @part("umol/kg")
    def carbonate(self) -> Num:
        """Carbonate ion."""
        return self._carbon()[2]

    @part("uatm")
    def fco2(self) -> Num:
        """Fugacity of carbon dioxide in air at equilibrium."""
        return self._carbon()[0] / self.constants.k0

    @part("uatm")
    def pco2(self) -> Num:
        """Partial pressure of carbon dioxide in air at equilibrium."""
        return self._carbon()[0] / (self.constants.k0 * self.constants.fugacity_factor)

    @part("umol/kg")
    def carbonate_alkalinity(self) -> Num:
        """Alkalinity of bicarbonate and carbonate."""
        _, bicarbonate, carbonate = self._carbon()
        return bicarbonate + 2.0 * carbonate

    # -- the other acids and bases ---------------------------------------------------------------

    @part("umol/kg")
    def total_boron(self) -> Num:
        """Boric acid and borate together."""
        return self._boron_total() / MICRO

    @part("umol/kg")
    def borate(self) -> Num:
        """Borate ion."""
        k, h = self.constants, self._hydrogen()
        return self._boron_total() * k.kb / (k.kb + h) / MICRO

    @part("umol/kg")
    def boric_acid(self) -> Num:
        """Boric acid."""
        k, h = self.constants, self._hydrogen()
        return self._boron_total() * h / (k.kb + h) / MICRO

    @part("umol/kg")
    def hydroxide(self) -> Num:
        """Hydroxide ion."""
        return self.constants.kw / self._hydrogen() / MICRO

    @part("umol/kg")
    def hydrogen_free(self) -> Num:
        """Free hydrogen ion."""
        return self._hydrogen() / self.constants.free / MICRO

    @part("umol/kg")
    def hydrogen_sulfate(self) -> Num:
        """Hydrogen sulfate ion."""
        k, h = self.constants, self._hydrogen()
        return k.sulfate * h / (k.ks + h) / MICRO

    @part("umol/kg")
    def hydrogen_fluoride(self) -> Num:
        """Hydrogen fluoride."""
        k, h = self.constants, self._hydrogen()
        return k.fluoride * h / (k.kf + h) / MICRO

    @part("umol/kg")
    def phosphoric_acid(self) -> Num:
        """Phosphoric acid, H3PO4."""
        return self._phosphates()[0]

    @part("umol/kg")
    def dihydrogen_phosphate(self) -> Num:
        """Dihydrogen phosphate ion, H2PO4⁻."""
        return self._phosphates()[1]

    @part("umol/kg")
    def hydrogen_phosphate(self) -> Num:
        """Hydrogen phosphate ion, HPO4²⁻."""
        return self._phosphates()[2]

    @part("umol/kg")
    def phosphate_ion(self) -> Num:
        """Phosphate ion, PO4³⁻."""
        return self._phosphates()[3]

    @part("umol/kg")
    def silicate_ion(self) -> Num:
        """Silicate ion, SiO(OH)3⁻."""
        k, h = self.constants, self._hydrogen()
        return self._silicate * k.ksi / (k.ksi + h)

    @part("umol/kg")
    def ammonia(self) -> Num:
        """Ammonia, NH3, the toxic form of total ammonium."""
        k, h = self.constants, self._hydrogen()
        return self._ammonium * k.kn / (k.kn + h)

    @part("umol/kg")
    def ammonium_ion(self) -> Num:
        """Ammonium ion, NH4⁺."""
        k, h = self.constants, self._hydrogen()
        return self._ammonium * h / (k.kn + h)

    # -- saturation ------------------------------------------------------------------------------

    @part("umol/kg")
    def calcium(self) -> Num:
        """Calcium ion."""
        return self.constants.calcium / MICRO if self._calcium is None else self._calcium

    @part("1")
    def omega_aragonite(self) -> Num:
        """Saturation state of aragonite."""
        return (
            MICRO
            * MICRO
            * CarbonateState.calcium.compute(self)
            * self._carbon()[2]
            / self.constants.aragonite
        )

    @part("1")
    def omega_calcite(self) -> Num:
        """Saturation state of calcite."""
        return (
            MICRO
            * MICRO
            * CarbonateState.calcium.compute(self)
            * self._carbon()[2]
            / self.constants.calcite
        )

    # -- buffering -------------------------------------------------------------------------------

    @part("1")
    def revelle_factor(self) -> Num:
        """Relative change of pCO2 for a relative change of DIC, alkalinity held."""
        n, s = self._slopes()
        return 1.0 - self._dic * n * n / s

    @part("umol/kg")
    def gamma_dic(self) -> Num:
        """DIC change that changes CO2 e-fold, alkalinity held (Egleston et al. 2010)."""
        n, s = self._slopes()
        return self._dic / (1.0 - self._dic * n * n / s)

    @part("umol/kg")
    def beta_dic(self) -> Num:
        """DIC change that changes hydrogen ion e-fold, alkalinity held."""
        n, s = self._slopes()
        return -s / n

    @part("umol/kg")
    def omega_dic(self) -> Num:
        """DIC change that changes carbonate e-fold, alkalinity held; negative in seawater."""
        n, s = self._slopes()
        return self._dic / (1.0 + self._dic * (2.0 - n) * n / s)

    @part("umol/kg")
    def gamma_alkalinity(self) -> Num:
        """Alkalinity change that changes CO2 e-fold, DIC held; negative."""
        n, s = self._slopes()
        return s / n

    @part("umol/kg")
    def beta_alkalinity(self) -> Num:
        """Alkalinity change that changes hydrogen ion e-fold, DIC held; negative."""
        return self._slopes()[1]

    @part("umol/kg")
    def omega_alkalinity(self) -> Num:
        """Alkalinity change that changes carbonate e-fold, DIC held."""
        n, s = self._slopes()
        return s / (n - 2.0)

    # -- sensitivities ---------------------------------------------------------------------------

    @part("kg/umol")
    def d_ph_d_alkalinity(self) -> Num:
        """Change of pH for each µmol/kg of alkalinity, DIC held."""
        return -1.0 / (LN10 * self._slopes()[1])

    @part("kg/umol")
    def d_ph_d_dic(self) -> Num:
        """Change of pH for each µmol/kg of DIC, alkalinity held."""
        n, s = self._slopes()
        return n / (LN10 * s)

    @part("kg/umol")
    def d_omega_aragonite_d_alkalinity(self) -> Num:
        """Change of aragonite saturation for each µmol/kg of alkalinity, DIC held."""
        n, s = self._slopes()
        return CarbonateState.omega_aragonite.compute(self) * (n - 2.0) / s

    @part("kg/umol")
    def d_omega_aragonite_d_dic(self) -> Num:
        """Change of aragonite saturation for each µmol/kg of DIC, alkalinity held."""
        n, s = self._slopes()
        carbonate = 1.0 / self._dic + (2.0 - n) * n / s
        return CarbonateState.omega_aragonite.compute(self) * carbonate

    @part("uatm*kg/umol")
    def d_pco2_d_alkalinity(self) -> Num:
        """Change of pCO2 for each µmol/kg of alkalinity, DIC held."""
        n, s = self._slopes()
        return CarbonateState.pco2.compute(self) * n / s

    @part("1/delta_degC")
    def d_ph_d_temperature(self) -> Num:
        """Change of pH for each kelvin in a closed vessel: alkalinity and DIC held."""
        return self._warmer(CarbonateState.ph_total)

    @part("1/delta_degC")
    def d_omega_aragonite_d_temperature(self) -> Num:
        """Change of aragonite saturation for each kelvin in a closed vessel."""
        return self._warmer(CarbonateState.omega_aragonite)


CarbonateState.UNITS = {
    name: value.unit for name, value in vars(CarbonateState).items() if isinstance(value, Part)
}
