"""Columns of capacitor readings."""

from typing import Any, final

from ..column import Column
from ..quantity import Current, ElectricPotential

@final
class CapacitorRows:
    def judge(
        self, voltages: ElectricPotential | Column[ElectricPotential], currents: Current | Column[Current]
    ) -> CapacitorColumns: ...

@final
class CapacitorColumns:
    @property
    def capacitance(self) -> Any: ...
    @property
    def standard_uncertainty(self) -> Any: ...
    @property
    def probability_below(self) -> Any: ...
    @property
    def probability_above(self) -> Any: ...
    @property
    def verdict(self) -> Any: ...
