"""Whether a system answered a step as it should, and what explains it if not."""

from typing import Final, final

from ..measure import Given
from ..quantity import Pressure, Ratio, TemperatureDifference
from ..record import Record
from .evidence import Estimate

COMMON_RESPONSE: tuple[Ratio, Ratio]

@final
class Running(Record):
    __match_args__: Final = ("superheat", "subcooling")
    def __new__(
        cls, superheat: Estimate[TemperatureDifference], subcooling: Estimate[TemperatureDifference]
    ) -> Running: ...
    @property
    def superheat(self) -> Estimate[TemperatureDifference]: ...
    @property
    def subcooling(self) -> Estimate[TemperatureDifference]: ...

@final
class Response(Record):
    __match_args__: Final = ("is_as_predicted", "alternatives", "next")
    @staticmethod
    def standing(expected: Estimate[Pressure], read: Given[Pressure]) -> Response: ...
    @staticmethod
    def running(
        expected: Running, superheat: Given[TemperatureDifference], subcooling: Given[TemperatureDifference]
    ) -> Response: ...
    @property
    def is_as_predicted(self) -> bool: ...
    @property
    def alternatives(self) -> list[str]: ...
    @property
    def next(self) -> list[str]: ...
