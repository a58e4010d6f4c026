"""Sealant and dye."""

from typing import Final, Literal, final

from ..quantity import Power, Volume
from ..record import Record

@final
class Additive(Record):
    __match_args__: Final = ("kind", "volume", "per", "cautions")
    def __new__(cls, kind: Literal["sealant", "dye"], volume: Volume, per: Power) -> Additive: ...
    def dose(self, capacity: Power) -> Volume: ...
    @property
    def kind(self) -> Literal["sealant", "dye"]: ...
    @property
    def volume(self) -> Volume: ...
    @property
    def per(self) -> Power: ...
    @property
    def cautions(self) -> list[str]: ...
