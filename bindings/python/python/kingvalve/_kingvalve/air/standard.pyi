"""Standard air: the constants behind 1.08, 4.5 and 0.68."""

from typing import final, overload

from ..column import Column
from ..measure import Given, Measured, Reading
from ..quantity import (
    Density,
    HumidityRatio,
    Power,
    Site,
    SpecificEnergy,
    SpecificEntropy,
    TemperatureDifference,
    VolumeFlow,
)

@final
class StandardAir:
    def __new__(
        cls,
        *,
        density: Density | None = None,
        heat_capacity: SpecificEntropy | None = None,
        latent_heat: SpecificEnergy | None = None,
    ) -> StandardAir: ...
    @staticmethod
    def at(site: Site, /) -> StandardAir: ...
    @property
    def density(self) -> Density: ...
    @property
    def heat_capacity(self) -> SpecificEntropy: ...
    @property
    def latent_heat(self) -> SpecificEnergy: ...
    @overload
    def sensible(self, flow: VolumeFlow, difference: TemperatureDifference) -> Power: ...
    @overload
    def sensible(
        self, flow: Reading[VolumeFlow] | Measured[VolumeFlow], difference: Given[TemperatureDifference]
    ) -> Measured[Power]: ...
    @overload
    def sensible(
        self, flow: VolumeFlow, difference: Reading[TemperatureDifference] | Measured[TemperatureDifference]
    ) -> Measured[Power]: ...
    @overload
    def sensible(
        self, flow: Column[VolumeFlow], difference: TemperatureDifference | Column[TemperatureDifference]
    ) -> Column[Power]: ...
    @overload
    def sensible(self, flow: VolumeFlow, difference: Column[TemperatureDifference]) -> Column[Power]: ...
    @overload
    def total(self, flow: VolumeFlow, difference: SpecificEnergy) -> Power: ...
    @overload
    def total(
        self, flow: Reading[VolumeFlow] | Measured[VolumeFlow], difference: Given[SpecificEnergy]
    ) -> Measured[Power]: ...
    @overload
    def total(
        self, flow: VolumeFlow, difference: Reading[SpecificEnergy] | Measured[SpecificEnergy]
    ) -> Measured[Power]: ...
    @overload
    def total(self, flow: Column[VolumeFlow], difference: SpecificEnergy | Column[SpecificEnergy]) -> Column[Power]: ...
    @overload
    def total(self, flow: VolumeFlow, difference: Column[SpecificEnergy]) -> Column[Power]: ...
    @overload
    def latent(self, flow: VolumeFlow, difference: HumidityRatio) -> Power: ...
    @overload
    def latent(
        self, flow: Reading[VolumeFlow] | Measured[VolumeFlow], difference: Given[HumidityRatio]
    ) -> Measured[Power]: ...
    @overload
    def latent(
        self, flow: VolumeFlow, difference: Reading[HumidityRatio] | Measured[HumidityRatio]
    ) -> Measured[Power]: ...
    @overload
    def latent(self, flow: Column[VolumeFlow], difference: HumidityRatio | Column[HumidityRatio]) -> Column[Power]: ...
    @overload
    def latent(self, flow: VolumeFlow, difference: Column[HumidityRatio]) -> Column[Power]: ...
    def __eq__(self, other: object, /) -> bool: ...
