"""What a coil delivers to the air, and how much air passes it untouched."""

from typing import Any, Final, Literal, final

from kingvalve.check import Finding

from ..column import Column
from ..measure import Given
from ..quantity import VolumeFlow
from ..quantity.base import Errors
from ..record import Record
from .moist import MoistAir

@final
class Capacity(Record):
    __match_args__: Final = ("sensible", "latent", "total", "sensible_ratio")
    @property
    def sensible(self) -> Any: ...
    @property
    def latent(self) -> Any: ...
    @property
    def total(self) -> Any: ...
    @property
    def sensible_ratio(self) -> Any: ...
    def finding(self) -> Finding: ...

@final
class Bypass(Record):
    __match_args__: Final = ("factor", "apparatus_dew_point")
    @property
    def factor(self) -> Any: ...
    @property
    def apparatus_dew_point(self) -> Any: ...
    def finding(self) -> Finding: ...

def delivered(
    airflow: Given[VolumeFlow] | Column[VolumeFlow],
    entering: MoistAir,
    leaving: MoistAir,
    *,
    measured_at: Literal["entering", "leaving"] = ...,
    errors: Errors = ...,
) -> Capacity: ...
def bypass(entering: MoistAir, leaving: MoistAir, *, errors: Errors = ...) -> Bypass: ...
