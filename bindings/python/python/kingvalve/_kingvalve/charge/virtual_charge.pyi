"""What superheat and subcooling say about the charge."""

from typing import Final, final, overload

from ..column import Column
from ..measure import Given, Measured, Reading
from ..quantity import Ratio, TemperatureDifference
from ..quantity.base import Errors
from ..record import Record

@final
class FullCharge(Record):
    __match_args__: Final = ("superheat", "subcooling")
    def __new__(cls, superheat: TemperatureDifference, subcooling: TemperatureDifference) -> FullCharge: ...
    @property
    def superheat(self) -> TemperatureDifference: ...
    @property
    def subcooling(self) -> TemperatureDifference: ...

@final
class VirtualCharge(Record):
    __match_args__: Final = ("alpha0", "high_side", "superheat_weight", "scatter", "least", "range")
    def __new__(
        cls,
        *,
        alpha0: Ratio | None = None,
        high_side: Ratio | None = None,
        superheat_weight: Ratio | None = None,
        scatter: Ratio | None = None,
        least: TemperatureDifference | None = None,
        range: tuple[Ratio, Ratio] | None = None,
    ) -> VirtualCharge: ...
    def degrees_per_charge(self, full: FullCharge) -> TemperatureDifference: ...
    @overload
    def share(
        self,
        full: FullCharge,
        superheat: TemperatureDifference,
        subcooling: TemperatureDifference,
        *,
        errors: Errors = ...,
    ) -> Ratio: ...
    @overload
    def share(
        self,
        full: FullCharge,
        superheat: Reading[TemperatureDifference] | Measured[TemperatureDifference],
        subcooling: Given[TemperatureDifference],
        *,
        errors: Errors = ...,
    ) -> Measured[Ratio]: ...
    @overload
    def share(
        self,
        full: FullCharge,
        superheat: TemperatureDifference,
        subcooling: Reading[TemperatureDifference] | Measured[TemperatureDifference],
        *,
        errors: Errors = ...,
    ) -> Measured[Ratio]: ...
    @overload
    def share(
        self,
        full: FullCharge,
        superheat: Column[TemperatureDifference],
        subcooling: TemperatureDifference | Column[TemperatureDifference],
        *,
        errors: Errors = ...,
    ) -> Column[Ratio]: ...
    @overload
    def share(
        self,
        full: FullCharge,
        superheat: TemperatureDifference,
        subcooling: Column[TemperatureDifference],
        *,
        errors: Errors = ...,
    ) -> Column[Ratio]: ...
    @property
    def alpha0(self) -> Ratio: ...
    @property
    def high_side(self) -> Ratio: ...
    @property
    def superheat_weight(self) -> Ratio: ...
    @property
    def scatter(self) -> Ratio: ...
    @property
    def least(self) -> TemperatureDifference: ...
    @property
    def range(self) -> tuple[Ratio, Ratio]: ...
