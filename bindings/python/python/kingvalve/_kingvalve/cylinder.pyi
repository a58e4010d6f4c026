"""What went into the system by the weights of cylinders."""

from typing import final

from .measure import Measured, Reading
from .quantity import Mass

@final
class Tally:
    @staticmethod
    def of(cylinders: dict[str, list[Reading[Mass]]], /) -> Tally: ...
    @property
    def steps(self) -> list[tuple[str, Measured[Mass]]]: ...
    @property
    def cylinders(self) -> list[tuple[str, Measured[Mass]]]: ...
    @property
    def gaps(self) -> list[tuple[str, Measured[Mass]]]: ...
    @property
    def total(self) -> Measured[Mass]: ...
