"""The charge of a data plate, and the charge to weigh in."""

from collections.abc import Sequence
from typing import Final, Literal, TypeAlias, final, overload

from kingvalve.check import Finding

from ..column import Column
from ..measure import Given, Measured, Reading
from ..quantity import Length, Mass, Temperature, Volume
from ..quantity.base import Errors
from ..record import Record
from ..refrigerant import Refrigerant

Basis: TypeAlias = Literal["data_plate", "maker", "computed", "usual"]

@final
class LineAllowance(Record):
    __match_args__: Final = ("mass", "per")
    def __new__(cls, mass: Mass, per: Length) -> LineAllowance: ...
    @property
    def mass(self) -> Mass: ...
    @property
    def per(self) -> Length: ...

@final
class PlateCharge(Record):
    __match_args__: Final = ("factory", "included_line", "allowance")
    def __new__(cls, factory: Mass, included_line: Length, allowance: LineAllowance | None = None) -> PlateCharge: ...
    @overload
    def for_line(self, installed: Length, *, errors: Errors = ...) -> Mass: ...
    @overload
    def for_line(self, installed: Reading[Length] | Measured[Length], *, errors: Errors = ...) -> Measured[Mass]: ...
    @overload
    def for_line(self, installed: Column[Length], *, errors: Errors = ...) -> Column[Mass]: ...
    @property
    def factory(self) -> Mass: ...
    @property
    def included_line(self) -> Length: ...
    @property
    def allowance(self) -> LineAllowance | None: ...

@final
class Accessory(Record):
    __match_args__: Final = ("mass",)
    @staticmethod
    def given(name: str, mass: Given[Mass], basis: Basis) -> Accessory: ...
    @staticmethod
    def filled(name: str, volume: Given[Volume], refrigerant: Refrigerant, liquid: Temperature) -> Accessory: ...
    @staticmethod
    def usual_filter_drier() -> Accessory: ...
    @property
    def mass(self) -> Measured[Mass]: ...

@final
class ChargePart(Record):
    __match_args__: Final = ("what", "mass", "basis")
    @property
    def what(self) -> str: ...
    @property
    def mass(self) -> Measured[Mass]: ...
    @property
    def basis(self) -> Basis: ...

@final
class WeighIn(Record):
    __match_args__: Final = ("parts", "total", "is_all_by_the_maker")
    @staticmethod
    def of(
        plate: PlateCharge,
        installed: Given[Length],
        refrigerant: Refrigerant,
        *,
        computed: LineAllowance | None = None,
        accessories: Sequence[Accessory] = ...,
    ) -> WeighIn: ...
    @property
    def parts(self) -> list[ChargePart]: ...
    @property
    def total(self) -> Measured[Mass]: ...
    @property
    def is_all_by_the_maker(self) -> bool: ...
    def finding(self) -> Finding: ...
