"""Rows of charge readings judged: what `kingvalve.batch` calls."""

from typing import Any

from numpy import float64
from numpy.typing import NDArray

from .measure import Instrument
from .quantity import Ratio, Site, TemperatureDifference
from .refrigerant import Refrigerant

def judge(
    columns: list[NDArray[float64]],
    refrigerant: Refrigerant,
    site: Site,
    gauge: Instrument,
    thermometer: Instrument,
    target_subcooling: TemperatureDifference | None,
    level: Ratio | None,
    units: list[str],
    /,
) -> list[Any]: ...
