"""Invented data to try the package on: no real house, customer, shop or log."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Literal, overload

if TYPE_CHECKING:
    from ._kingvalve import Visit

DAYS = 120


@overload
def demo(name: Literal["visit"] = "visit") -> Visit: ...
@overload
def demo(name: Literal["season"]) -> dict[str, list[Any]]: ...
def demo(name: str = "visit") -> Any:
    """Invented data: ``"visit"``, one no-cool call, or ``"season"``, a logged cooling season.

    The season is of an R-410A system with an expansion valve that loses its subcooling week by week, one row each
    hour of the afternoon, with a sensor that drops out now and then: a dict of columns for ``kv.batch.evaluate``.

    Parameters
    ----------
    name : {"visit", "season"}, optional

    Returns
    -------
    Visit or dict of lists

    Raises
    ------
    UnknownName
        Another name.

    Examples
    --------
    >>> kv.demo().evaluate().refrigerant
    <Refrigerant R-454B>
    >>> len(kv.demo("season")["suction_pressure"])
    720
    """
    import kingvalve as kv

    if name == "visit":
        # Here and not above: it would double the time of `import kingvalve`.
        from importlib.resources import files

        return kv.Visit.from_json((files("kingvalve") / "_demo.json").read_text(encoding="utf-8"))
    if name == "season":
        return _season()
    raise kv.UnknownName(f'unknown demo {name!r}; known ones are "visit" and "season"')


def _season() -> dict[str, list[Any]]:
    import kingvalve as kv

    plain = kv.Refrigerant("R-410A").plain(pressure="psig", temperature="°F", site=kv.Site())
    season: dict[str, list[Any]] = {
        name: [] for name in ("day", "hour", "suction_pressure", "suction_line", "liquid_pressure", "liquid_line", "outdoor")
    }
    for day in range(DAYS):
        for hour in range(13, 19):
            outdoor = 78.0 + 14.0 * math.sin(math.pi * day / DAYS) + 5.0 * math.sin(1.7 * day) - abs(hour - 16)
            subcooling = 11.0 - 6.0 * day / DAYS + 0.7 * math.sin(2.3 * day + hour)
            evaporating, condensing = 42.0 + 0.1 * (outdoor - 85.0), outdoor + 20.0
            row = {
                "day": day,
                "hour": hour,
                "suction_pressure": round(plain.dew_pressure(evaporating), 1),
                "suction_line": round(evaporating + 11.0 + 0.4 * math.sin(3.1 * day + hour), 1),
                "liquid_pressure": round(plain.bubble_pressure(condensing), 1),
                "liquid_line": round(condensing - subcooling, 1),
                "outdoor": round(outdoor, 1),
            }
            if (day * 6 + hour) % 97 == 0:
                row["liquid_line"] = math.nan
            for column, value in row.items():
                season[column].append(value)
    return season
