"""What pattern of readings points to what, and what a wrong charge or airflow costs."""

from collections.abc import Sequence
from typing import Any, Final, Literal, TypeAlias, final

from kingvalve.check import Finding

from .column import Column
from .measure import Given, Measured, Reading
from .quantity import GaugePressure, Ratio, Site, Temperature, TemperatureDifference
from .quantity.base import Errors
from .record import Record
from .refrigerant import Refrigerant

Fault: TypeAlias = Literal[
    "no_fault",
    "low_charge",
    "overcharge",
    "low_indoor_airflow",
    "dirty_outdoor_coil",
    "liquid_line_restriction",
    "feeding_valve",
    "starving_valve",
    "non_condensables",
    "weak_compressor",
]
Feature: TypeAlias = Literal[
    "superheat",
    "subcooling",
    "condensing_over_ambient",
    "evaporating_depression",
    "air_split",
    "discharge_temperature",
    "liquid_line_drop",
    "standing_excess",
]
FaultMetering: TypeAlias = Literal["fixed_orifice", "valve"]

@final
class Operation:
    def __new__(
        cls,
        *,
        suction_pressure: Reading[GaugePressure] | None = None,
        suction_line: Reading[Temperature] | None = None,
        liquid_pressure: Reading[GaugePressure] | None = None,
        liquid_line: Reading[Temperature] | None = None,
        outdoor_air: Reading[Temperature] | None = None,
        return_air: Reading[Temperature] | None = None,
        supply_air: Reading[Temperature] | None = None,
        discharge_line: Reading[Temperature] | None = None,
        liquid_line_at_metering: Reading[Temperature] | None = None,
        standing_pressure: Reading[GaugePressure] | None = None,
        standing_temperature: Reading[Temperature] | None = None,
    ) -> Operation: ...
    def residuals(self, refrigerant: Refrigerant, site: Site, expected: Expected) -> list[Residual]: ...

@final
class Expected(Record):
    __match_args__: Final = (
        "superheat",
        "subcooling",
        "condensing_over_ambient",
        "evaporating_depression",
        "air_split",
        "discharge_temperature",
        "liquid_line_drop",
    )
    def __new__(
        cls,
        *,
        superheat: TemperatureDifference | None = None,
        subcooling: TemperatureDifference | None = None,
        condensing_over_ambient: TemperatureDifference | None = None,
        evaporating_depression: TemperatureDifference | None = None,
        air_split: TemperatureDifference | None = None,
        discharge_temperature: Temperature | None = None,
        liquid_line_drop: TemperatureDifference | None = None,
    ) -> Expected: ...
    @property
    def superheat(self) -> TemperatureDifference | None: ...
    @property
    def subcooling(self) -> TemperatureDifference | None: ...
    @property
    def condensing_over_ambient(self) -> TemperatureDifference | None: ...
    @property
    def evaporating_depression(self) -> TemperatureDifference | None: ...
    @property
    def air_split(self) -> TemperatureDifference | None: ...
    @property
    def discharge_temperature(self) -> Temperature | None: ...
    @property
    def liquid_line_drop(self) -> TemperatureDifference | None: ...

@final
class Residual(Record):
    __match_args__: Final = ("feature", "value")
    def __new__(
        cls, feature: Feature, seen: Given[TemperatureDifference], expected: Given[TemperatureDifference]
    ) -> Residual: ...
    @property
    def feature(self) -> Feature: ...
    @property
    def value(self) -> Measured[TemperatureDifference]: ...

@final
class Patterns:
    @staticmethod
    def fixed_orifice() -> Patterns: ...
    @staticmethod
    def valve() -> Patterns: ...
    @staticmethod
    def of(metering: FaultMetering, /) -> Patterns: ...
    def with_(self, fault: Fault, feature: Feature, effect: TemperatureDifference) -> Patterns: ...
    def with_scatter(self, feature: Feature, scatter: TemperatureDifference) -> Patterns: ...
    def with_variation(self, variation: Ratio, /) -> Patterns: ...
    def with_unlike(self, share: Ratio, /) -> Patterns: ...
    def with_severities(self, severities: Sequence[tuple[Ratio, Ratio]], /) -> Patterns: ...
    @property
    def metering(self) -> FaultMetering: ...
    def effect(self, fault: Fault, feature: Feature) -> TemperatureDifference: ...
    def basis(self, fault: Fault, feature: Feature) -> Literal["published", "memory", "user"]: ...
    def scatter(self, feature: Feature, /) -> TemperatureDifference: ...
    @property
    def variation(self) -> Ratio: ...
    def __eq__(self, other: object, /) -> bool: ...

@final
class Priors:
    def __new__(cls) -> Priors: ...
    @staticmethod
    def even() -> Priors: ...
    def with_(self, fault: Fault, weight: Ratio) -> Priors: ...
    def of(self, fault: Fault, /) -> Ratio: ...
    def __eq__(self, other: object, /) -> bool: ...

@final
class Spreads:
    def __new__(cls) -> Spreads: ...
    def with_(self, feature: Feature, spread: TemperatureDifference) -> Spreads: ...
    def of(self, feature: Feature, /) -> TemperatureDifference: ...
    def __eq__(self, other: object, /) -> bool: ...

@final
class Ranked(Record):
    __match_args__: Final = ("fault", "probability", "text", "confirm")
    @property
    def fault(self) -> Fault: ...
    @property
    def probability(self) -> Ratio: ...
    @property
    def text(self) -> str: ...
    @property
    def confirm(self) -> str: ...

@final
class NextReading(Record):
    __match_args__: Final = ("feature", "how", "between", "bits", "right_now", "right_after")
    @property
    def feature(self) -> Feature: ...
    @property
    def how(self) -> str: ...
    @property
    def between(self) -> tuple[Fault, Fault]: ...
    @property
    def bits(self) -> float: ...
    @property
    def right_now(self) -> Ratio: ...
    @property
    def right_after(self) -> Ratio: ...

@final
class Ranking:
    @staticmethod
    def of(residuals: Sequence[Residual], patterns: Patterns, priors: Priors | None = None) -> Ranking: ...
    @property
    def ranked(self) -> list[Ranked]: ...
    @property
    def top(self) -> Ranked: ...
    @property
    def second(self) -> Ranked: ...
    def probability(self, fault: Fault, /) -> Ratio: ...
    @property
    def residuals(self) -> list[Residual]: ...
    @property
    def metering(self) -> FaultMetering: ...
    @property
    def fit(self) -> Ratio: ...
    def next_readings(self, spreads: Spreads | None = None) -> list[NextReading]: ...
    def finding(self, spreads: Spreads | None = None) -> Finding: ...
    def _repr_html_(self) -> str: ...

@final
class ChargePenalty(Record):
    __match_args__: Final = ("capacity", "power", "cop")
    @property
    def capacity(self) -> Any: ...
    @property
    def power(self) -> Any: ...
    @property
    def cop(self) -> Any: ...

@final
class AirflowPenalty(Record):
    __match_args__: Final = ("capacity", "input_ratio", "cop")
    @property
    def capacity(self) -> Any: ...
    @property
    def input_ratio(self) -> Any: ...
    @property
    def cop(self) -> Any: ...

def charge_penalty(
    mode: Literal["cooling", "heating"],
    off: Given[Ratio] | Column[Ratio],
    indoor: Temperature | Column[Temperature],
    outdoor: Temperature | Column[Temperature],
    *,
    errors: Errors = ...,
) -> ChargePenalty: ...
def airflow_penalty(
    mode: Literal["cooling", "heating"], airflow: Ratio | Column[Ratio], *, errors: Errors = ...
) -> AirflowPenalty: ...
