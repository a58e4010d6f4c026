"""A motor's current, its winding's insulation, its power."""

from typing import Final, final, overload

from kingvalve.check import Finding

from ..column import Column
from ..measure import Given, Measured, Reading, Verdict
from ..quantity import Current, ElectricPotential, Power, Ratio, Resistance, Temperature
from ..quantity.base import Errors
from ..record import Record
from .circuit import Phases

MCC_PER_RLA: float

@final
class CompressorCurrent(Record):
    __match_args__: Final = ("current", "share", "verdict")
    @staticmethod
    def of(current: Given[Current], rla: Current, *, level: Ratio | None = None) -> CompressorCurrent: ...
    @overload
    @staticmethod
    def maximum_continuous(rla: Current, factor: float = 1.56, *, errors: Errors = ...) -> Current: ...
    @overload
    @staticmethod
    def maximum_continuous(rla: Column[Current], factor: float = 1.56, *, errors: Errors = ...) -> Column[Current]: ...
    @property
    def current(self) -> Measured[Current]: ...
    @property
    def share(self) -> Measured[Ratio]: ...
    @property
    def verdict(self) -> Verdict[Current]: ...
    def finding(self) -> Finding: ...

@final
class Insulation(Record):
    __match_args__: Final = ("resistance", "verdict")
    @staticmethod
    def of(
        resistance: Given[Resistance], at_least: Resistance, who_says: str, *, level: Ratio | None = None
    ) -> Insulation: ...
    @property
    def resistance(self) -> Measured[Resistance]: ...
    @property
    def verdict(self) -> Verdict[Resistance]: ...
    def finding(self) -> Finding: ...

@final
class PowerFactor(Record):
    __match_args__: Final = ("factor", "plausible")
    @staticmethod
    def of(
        power: Given[Power],
        voltage: Given[ElectricPotential],
        current: Given[Current],
        phases: Phases,
        *,
        level: Ratio | None = None,
    ) -> PowerFactor: ...
    @property
    def factor(self) -> Measured[Ratio]: ...
    @property
    def plausible(self) -> Verdict[Ratio]: ...
    def finding(self) -> Finding: ...

@overload
def corrected_to_40_celsius(resistance: Resistance, winding: Temperature, *, errors: Errors = ...) -> Resistance: ...
@overload
def corrected_to_40_celsius(
    resistance: Reading[Resistance] | Measured[Resistance], winding: Given[Temperature], *, errors: Errors = ...
) -> Measured[Resistance]: ...
@overload
def corrected_to_40_celsius(
    resistance: Resistance, winding: Reading[Temperature] | Measured[Temperature], *, errors: Errors = ...
) -> Measured[Resistance]: ...
@overload
def corrected_to_40_celsius(
    resistance: Column[Resistance], winding: Temperature | Column[Temperature], *, errors: Errors = ...
) -> Column[Resistance]: ...
@overload
def corrected_to_40_celsius(
    resistance: Resistance, winding: Column[Temperature], *, errors: Errors = ...
) -> Column[Resistance]: ...
@overload
def apparent_power(voltage: ElectricPotential, current: Current, phases: Phases, *, errors: Errors = ...) -> Power: ...
@overload
def apparent_power(
    voltage: Reading[ElectricPotential] | Measured[ElectricPotential],
    current: Given[Current],
    phases: Phases,
    *,
    errors: Errors = ...,
) -> Measured[Power]: ...
@overload
def apparent_power(
    voltage: ElectricPotential, current: Reading[Current] | Measured[Current], phases: Phases, *, errors: Errors = ...
) -> Measured[Power]: ...
@overload
def apparent_power(
    voltage: Column[ElectricPotential], current: Current | Column[Current], phases: Phases, *, errors: Errors = ...
) -> Column[Power]: ...
@overload
def apparent_power(
    voltage: ElectricPotential, current: Column[Current], phases: Phases, *, errors: Errors = ...
) -> Column[Power]: ...
@overload
def real_power(
    voltage: ElectricPotential, current: Current, power_factor: Given[Ratio], phases: Phases, *, errors: Errors = ...
) -> Power: ...
@overload
def real_power(
    voltage: Reading[ElectricPotential] | Measured[ElectricPotential],
    current: Given[Current],
    power_factor: Given[Ratio],
    phases: Phases,
    *,
    errors: Errors = ...,
) -> Measured[Power]: ...
@overload
def real_power(
    voltage: ElectricPotential,
    current: Reading[Current] | Measured[Current],
    power_factor: Given[Ratio],
    phases: Phases,
    *,
    errors: Errors = ...,
) -> Measured[Power]: ...
@overload
def real_power(
    voltage: Column[ElectricPotential],
    current: Current | Column[Current],
    power_factor: Given[Ratio],
    phases: Phases,
    *,
    errors: Errors = ...,
) -> Column[Power]: ...
@overload
def real_power(
    voltage: ElectricPotential,
    current: Column[Current],
    power_factor: Given[Ratio],
    phases: Phases,
    *,
    errors: Errors = ...,
) -> Column[Power]: ...
