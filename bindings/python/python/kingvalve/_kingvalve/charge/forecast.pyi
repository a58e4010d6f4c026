"""How fast a system leaks, and when that shows."""

from collections.abc import Sequence
from datetime import date
from typing import Final, final

from ..measure import Given, Measured
from ..quantity import Mass, MassFlow, Ratio, Time
from ..record import Record
from ..refrigerant import Gwp

USUAL_HORIZON: Time

@final
class LeakRate:
    @staticmethod
    def from_charges(charges: Sequence[tuple[date | str, Given[Mass]]], meets_mark_within: Mass) -> LeakRate: ...
    @property
    def rate(self) -> Measured[MassFlow]: ...
    @property
    def lost(self) -> Measured[Mass]: ...
    @property
    def spans(self) -> list[tuple[date, date, Measured[MassFlow]]]: ...
    def changed(self, level: Ratio | None = None) -> bool: ...
    @property
    def per_year(self) -> Measured[Mass]: ...
    def carbon_dioxide_per_year(self, gwp: Gwp, /) -> Measured[Mass]: ...

@final
class Decline:
    @staticmethod
    def of(
        day: date | str, charge: Given[Mass], rate: Given[MassFlow], *, all_vapour: Mass | None = None
    ) -> Decline: ...
    def left_on(self, day: date | str, level: Ratio | None = None) -> tuple[Mass, Mass]: ...
    def falls_below(self, limit: Mass, horizon: Time | None = None, level: Ratio | None = None) -> Crossing: ...

@final
class Crossing(Record):
    __match_args__: Final = ("earliest", "likely", "latest")
    @property
    def earliest(self) -> date | None: ...
    @property
    def likely(self) -> date | None: ...
    @property
    def latest(self) -> date | None: ...
