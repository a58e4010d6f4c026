"""Whether air may have come in: the standing pressure against the atmosphere."""

from typing import Final, Literal, final

from ..measure import Given
from ..quantity import Pressure, Site
from ..record import Record

@final
class AirIngress(Record):
    __match_args__: Final = ("word", "next")
    @staticmethod
    def of(standing: Given[Pressure], site: Site) -> AirIngress: ...
    @property
    def word(self) -> Literal["kept_out", "possible", "drawn_in"]: ...
    @property
    def next(self) -> list[str]: ...
