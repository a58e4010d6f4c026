"""Moist air."""

from typing import Any, final

from .column import Column
from .quantity import HumidityRatio, Ratio, Site, Temperature
from .quantity.base import Errors

@final
class MoistAir:
    @staticmethod
    def from_wet_bulb(
        dry_bulb: Temperature | Column[Temperature],
        wet_bulb: Temperature | Column[Temperature],
        site: Site,
        *,
        errors: Errors = ...,
    ) -> MoistAir: ...
    @staticmethod
    def from_dew_point(
        dry_bulb: Temperature | Column[Temperature],
        dew_point: Temperature | Column[Temperature],
        site: Site,
        *,
        errors: Errors = ...,
    ) -> MoistAir: ...
    @staticmethod
    def from_relative_humidity(
        dry_bulb: Temperature | Column[Temperature],
        relative_humidity: Ratio | Column[Ratio],
        site: Site,
        *,
        errors: Errors = ...,
    ) -> MoistAir: ...
    @staticmethod
    def from_humidity_ratio(
        dry_bulb: Temperature | Column[Temperature],
        humidity_ratio: HumidityRatio | Column[HumidityRatio],
        site: Site,
        *,
        errors: Errors = ...,
    ) -> MoistAir: ...
    @property
    def dry_bulb(self) -> Any: ...  # Temperature, or a column of it
    @property
    def wet_bulb(self) -> Any: ...  # Temperature, or a column of it
    @property
    def dew_point(self) -> Any: ...  # Temperature, or a column of it
    @property
    def relative_humidity(self) -> Any: ...  # Ratio, or a column of it
    @property
    def humidity_ratio(self) -> Any: ...  # HumidityRatio, or a column of it
    @property
    def enthalpy(self) -> Any: ...  # SpecificEnergy, or a column of it
    @property
    def specific_volume(self) -> Any: ...  # SpecificVolume, or a column of it
    @property
    def density(self) -> Any: ...  # Density, or a column of it
    @property
    def vapor_pressure(self) -> Any: ...  # Pressure, or a column of it
