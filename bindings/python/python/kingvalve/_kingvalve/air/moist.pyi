"""Moist air."""

from typing import Any, final, overload

from ..column import Column
from ..measure import Given, Measured, Reading
from ..quantity import Density, HumidityRatio, Pressure, Ratio, Site, SpecificEnergy, SpecificVolume, Temperature
from ..quantity.base import Errors

@final
class MoistAir:
    @staticmethod
    def from_wet_bulb(
        dry_bulb: Given[Temperature] | Column[Temperature],
        wet_bulb: Given[Temperature] | Column[Temperature],
        site: Site,
        *,
        errors: Errors = ...,
    ) -> MoistAir: ...
    @staticmethod
    def from_dew_point(
        dry_bulb: Given[Temperature] | Column[Temperature],
        dew_point: Given[Temperature] | Column[Temperature],
        site: Site,
        *,
        errors: Errors = ...,
    ) -> MoistAir: ...
    @staticmethod
    def from_relative_humidity(
        dry_bulb: Given[Temperature] | Column[Temperature],
        relative_humidity: Given[Ratio] | Column[Ratio],
        site: Site,
        *,
        errors: Errors = ...,
    ) -> MoistAir: ...
    @staticmethod
    def from_humidity_ratio(
        dry_bulb: Given[Temperature] | Column[Temperature],
        humidity_ratio: Given[HumidityRatio] | Column[HumidityRatio],
        site: Site,
        *,
        errors: Errors = ...,
    ) -> MoistAir: ...
    @property
    def dry_bulb(self) -> Any: ...  # Temperature, measured where it was read, or a column of it
    @property
    def wet_bulb(self) -> Any: ...  # Temperature, measured where it was read, or a column of it
    @property
    def dew_point(self) -> Any: ...  # Temperature, measured where it was read, or a column of it
    @property
    def relative_humidity(self) -> Any: ...  # Ratio, measured where it was read, or a column of it
    @property
    def humidity_ratio(self) -> Any: ...  # HumidityRatio, measured where it was read, or a column of it
    @property
    def enthalpy(self) -> Any: ...  # SpecificEnergy, measured where it was read, or a column of it
    @property
    def specific_volume(self) -> Any: ...  # SpecificVolume, measured where it was read, or a column of it
    @property
    def density(self) -> Any: ...  # Density, measured where it was read, or a column of it
    @property
    def vapor_pressure(self) -> Any: ...  # Pressure, measured where it was read, or a column of it

@overload
def saturation_pressure(temperature: Temperature, *, errors: Errors = ...) -> Pressure: ...
@overload
def saturation_pressure(
    temperature: Reading[Temperature] | Measured[Temperature], *, errors: Errors = ...
) -> Measured[Pressure]: ...
@overload
def saturation_pressure(temperature: Column[Temperature], *, errors: Errors = ...) -> Column[Pressure]: ...
