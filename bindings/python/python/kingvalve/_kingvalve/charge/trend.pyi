"""A straight line through dated readings."""

from collections.abc import Sequence
from datetime import date
from typing import Any, Generic, TypeVar, final

from ..measure import Given
from ..quantity import Quantity, Ratio, Time
from .forecast import Crossing

_Q = TypeVar("_Q", bound=Quantity)

@final
class Trend(Generic[_Q]):
    @staticmethod
    def of(readings: Sequence[tuple[date | str, Given[_Q]]], /) -> Trend[_Q]: ...
    def change_per_year(self, level: Ratio | None = None) -> tuple[Any, Any]: ...
    def on(self, day: date | str, level: Ratio | None = None) -> tuple[_Q, _Q]: ...
    def crosses(self, limit: _Q, horizon: Time | None = None, level: Ratio | None = None) -> Crossing: ...
