"""What a standing pressure proves."""

from collections.abc import Sequence
from typing import Final, Literal, TypeAlias, final

from ..measure import Given, Measured
from ..quantity import Mass, Pressure, PressureDifference, Ratio, Temperature, Volume
from ..record import Record
from ..refrigerant import Refrigerant

StandingState: TypeAlias = Literal["all_vapour", "liquid_possible", "not_this_refrigerant_alone"]

COMMON_UPTAKE: tuple[Ratio, Ratio]

@final
class Oil(Record):
    __match_args__: Final = ("mass", "uptake", "steepening")
    def __new__(
        cls,
        mass: Mass | tuple[Mass, Mass],
        uptake: tuple[Ratio, Ratio] | None = None,
        steepening: tuple[Ratio, Ratio] | None = None,
    ) -> Oil: ...
    def dissolved(self, pressure: Pressure, saturation: Pressure) -> tuple[Mass, Mass]: ...
    @property
    def mass(self) -> tuple[Mass, Mass]: ...
    @property
    def uptake(self) -> tuple[Ratio, Ratio] | None: ...
    @property
    def steepening(self) -> tuple[Ratio, Ratio] | None: ...

@final
class Space(Record):
    __match_args__: Final = ("name", "volume", "temperature")
    def __new__(cls, name: str, volume: Volume | tuple[Volume, Volume], temperature: Given[Temperature]) -> Space: ...
    @property
    def name(self) -> str: ...
    @property
    def volume(self) -> tuple[Volume, Volume]: ...
    @property
    def temperature(self) -> Measured[Temperature]: ...

@final
class Standing(Record):
    __match_args__: Final = ("pressure", "spaces", "oil")
    def __new__(cls, pressure: Given[Pressure], spaces: Sequence[Space], oil: Oil | None = None) -> Standing: ...
    def read(self, refrigerant: Refrigerant) -> StandingFinding: ...
    @property
    def pressure(self) -> Measured[Pressure]: ...
    @property
    def spaces(self) -> list[Space]: ...
    @property
    def oil(self) -> Oil | None: ...

@final
class StandingFinding(Record):
    __match_args__: Final = (
        "state",
        "mass",
        "vapour",
        "dissolved",
        "at_least",
        "probability_all_vapour",
        "excess",
        "meaning",
        "next",
        "cautions",
    )
    @property
    def state(self) -> StandingState: ...
    @property
    def mass(self) -> tuple[Mass, Mass] | None: ...
    @property
    def vapour(self) -> tuple[Mass, Mass] | None: ...
    @property
    def dissolved(self) -> tuple[Mass, Mass] | None: ...
    @property
    def at_least(self) -> Mass | None: ...
    @property
    def probability_all_vapour(self) -> Ratio | None: ...
    @property
    def excess(self) -> tuple[PressureDifference, PressureDifference] | None: ...
    @property
    def meaning(self) -> str: ...
    @property
    def next(self) -> str: ...
    @property
    def cautions(self) -> list[str]: ...
