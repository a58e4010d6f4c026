"""What a plan is made from: what else was looked at, and how the system runs."""

from typing import Final, Literal, TypeAlias, final

from ..measure import Verdict
from ..quantity import TemperatureDifference
from ..record import Record
from .virtual_charge import FullCharge

Look: TypeAlias = Literal["not_looked", "fine", "at_fault"]
AgainstTarget: TypeAlias = Literal["met", "too_little", "too_much", "unresolved"]

@final
class Before(Record):
    __match_args__: Final = (
        "indoor_coil",
        "blower",
        "contactor",
        "outdoor_fan",
        "compressor",
        "pressure_switch",
        "at_fault",
        "not_looked",
    )
    def __new__(
        cls,
        *,
        indoor_coil: Look | None = None,
        blower: Look | None = None,
        contactor: Look | None = None,
        outdoor_fan: Look | None = None,
        compressor: Look | None = None,
        pressure_switch: Look | None = None,
    ) -> Before: ...
    @staticmethod
    def all_fine() -> Before: ...
    @property
    def indoor_coil(self) -> Look: ...
    @property
    def blower(self) -> Look: ...
    @property
    def contactor(self) -> Look: ...
    @property
    def outdoor_fan(self) -> Look: ...
    @property
    def compressor(self) -> Look: ...
    @property
    def pressure_switch(self) -> Look: ...
    @property
    def at_fault(self) -> list[str]: ...
    @property
    def not_looked(self) -> list[str]: ...

@final
class Showing(Record):
    __match_args__: Final = ("superheat", "subcooling", "full", "against_target")
    def __new__(
        cls,
        superheat: TemperatureDifference,
        subcooling: TemperatureDifference,
        full: FullCharge,
        against_target: AgainstTarget,
    ) -> Showing: ...
    @property
    def superheat(self) -> TemperatureDifference: ...
    @property
    def subcooling(self) -> TemperatureDifference: ...
    @property
    def full(self) -> FullCharge: ...
    @property
    def against_target(self) -> AgainstTarget: ...

@final
class OnTarget:
    @staticmethod
    def by_subcooling(verdict: Verdict[TemperatureDifference], /) -> AgainstTarget: ...
    @staticmethod
    def by_superheat(verdict: Verdict[TemperatureDifference], /) -> AgainstTarget: ...
