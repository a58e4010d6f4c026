"""The bore of refrigeration tube, and the liquid in it."""

from typing import Literal, final, overload

from ..column import Column
from ..measure import Measured, Reading
from ..quantity import Area, Length, Temperature, Volume
from ..refrigerant import Refrigerant
from .weigh_in import LineAllowance

USUAL_LIQUID: Temperature

@final
class Tube:
    @staticmethod
    def acr(outside: Length, temper: Literal["annealed", "drawn"] = ...) -> Tube: ...
    @staticmethod
    def of_inside(inside: Length, /) -> Tube: ...
    @property
    def inside(self) -> Length: ...
    @property
    def bore(self) -> Area: ...
    @overload
    def volume(self, length: Length, /) -> Volume: ...
    @overload
    def volume(self, length: Reading[Length] | Measured[Length], /) -> Measured[Volume]: ...
    @overload
    def volume(self, length: Column[Length], /) -> Column[Volume]: ...
    def __eq__(self, other: object, /) -> bool: ...

def liquid_line_allowance(refrigerant: Refrigerant, tube: Tube, liquid: Temperature | None = None) -> LineAllowance: ...
