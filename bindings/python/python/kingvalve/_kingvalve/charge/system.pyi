"""The system whose charge is asked for, and what is taken for granted of it."""

from collections.abc import Sequence
from typing import Final, final

from ..quantity import Length, Mass, Pressure, Ratio, Temperature, TemperatureDifference, Volume
from ..record import Record
from ..refrigerant import Refrigerant
from .standing import Oil
from .virtual_charge import VirtualCharge

COMMON_FILL: tuple[Ratio, Ratio]
COMMON_CHARGE: tuple[Ratio, Ratio]
COMMON_RESIDUE: Mass
COMMON_OIL: tuple[Ratio, Ratio]
COMMON_STEEPENING: tuple[Ratio, Ratio]

@final
class Assumptions(Record):
    __match_args__: Final = (
        "fill",
        "charge",
        "beyond",
        "oil",
        "steepening",
        "gas",
        "gas_pressure",
        "mistaken",
        "settled",
        "running",
    )
    def __new__(
        cls,
        *,
        fill: tuple[Ratio, Ratio] | None = None,
        charge: tuple[Ratio, Ratio] | None = None,
        beyond: Ratio | None = None,
        oil: tuple[Ratio, Ratio] | None = None,
        steepening: tuple[Ratio, Ratio] | None = None,
        gas: Ratio | None = None,
        gas_pressure: Pressure | None = None,
        mistaken: Ratio | None = None,
        settled: TemperatureDifference | None = None,
        running: VirtualCharge | None = None,
    ) -> Assumptions: ...
    @property
    def fill(self) -> tuple[Ratio, Ratio]: ...
    @property
    def charge(self) -> tuple[Ratio, Ratio]: ...
    @property
    def beyond(self) -> Ratio: ...
    @property
    def oil(self) -> tuple[Ratio, Ratio]: ...
    @property
    def steepening(self) -> tuple[Ratio, Ratio]: ...
    @property
    def gas(self) -> Ratio: ...
    @property
    def gas_pressure(self) -> Pressure: ...
    @property
    def mistaken(self) -> Ratio: ...
    @property
    def settled(self) -> TemperatureDifference: ...
    @property
    def running(self) -> VirtualCharge: ...

@final
class Part(Record):
    __match_args__: Final = ("name", "volume")
    @staticmethod
    def room(name: str, volume: Volume | tuple[Volume, Volume]) -> Part: ...
    @staticmethod
    def tube(
        name: str,
        inside_diameter: Length | tuple[Length, Length],
        length: Length | tuple[Length, Length],
        tubes: int = 1,
    ) -> Part: ...
    @property
    def name(self) -> str: ...
    @property
    def volume(self) -> tuple[Volume, Volume]: ...

@final
class System:
    @staticmethod
    def of_plate(refrigerant: Refrigerant, charge: Mass) -> System: ...
    @staticmethod
    def of_volume(refrigerant: Refrigerant, room: Volume | tuple[Volume, Volume]) -> System: ...
    def with_volume(self, room: Volume | tuple[Volume, Volume], /) -> System: ...
    def with_parts(self, parts: Sequence[Part], /) -> System: ...
    def with_oil(self, oil: Oil, /) -> System: ...
    def assuming(self, assumptions: Assumptions, /) -> System: ...
    def leaked(self, at: Temperature, /) -> System: ...
    @property
    def refrigerant(self) -> Refrigerant: ...
    @property
    def furthest_composition(self) -> Refrigerant | None: ...
    @property
    def plate(self) -> Mass | None: ...
    @property
    def room(self) -> tuple[Volume, Volume]: ...
    @property
    def parts(self) -> list[Part]: ...
    @property
    def oil(self) -> Oil: ...
    @property
    def assumptions(self) -> Assumptions: ...
    def __eq__(self, other: object, /) -> bool: ...
