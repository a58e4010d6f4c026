"""Tables of readings, judged row by row: any table that speaks the Arrow PyCapsule protocol, or a dict of columns.

    >>> import kingvalve as kv
    >>> rows = {
    ...     "suction_pressure": [119.0, 90.0], "suction_line": [56.1, 70.0],
    ...     "liquid_pressure": [340.0, 330.0], "liquid_line": [93.0, 95.0],
    ... }
    >>> found = kv.batch.evaluate(rows, refrigerant="R-410A", target_subcooling=kv.delta_fahrenheit(10))
    >>> found["verdict"]
    ['within', 'unresolved']
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ._errors import Inconsistent, UnknownName, WrongKind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ._kingvalve import Instrument, Ratio, Refrigerant, Site, TemperatureDifference

__all__ = ["COLUMNS", "VERDICTS", "evaluate"]

COLUMNS = ("suction_pressure", "suction_line", "liquid_pressure", "liquid_line", "indoor_wet_bulb", "outdoor")
VERDICTS = ("within", "below", "above", "unresolved", "unusable")
ADDED = ("superheat", "subcooling", "target", "standard_uncertainty", "probability_within", "verdict")


def evaluate(
    table: Any,
    *,
    refrigerant: str | Refrigerant,
    site: Site | None = None,
    gauge: Instrument | None = None,
    thermometer: Instrument | None = None,
    target_subcooling: TemperatureDifference | None = None,
    level: Ratio | None = None,
    columns: Mapping[str, str] | None = None,
    pressure: str = "psig",
    temperature: str = "°F",
    difference: str | None = None,
    prefix: str = "",
) -> Any:
    """The table with six columns more: superheat, subcooling, target, their doubt, probability and verdict.

    Parameters
    ----------
    table : dict or table
        Anything with ``__arrow_c_stream__`` or ``__arrow_c_array__`` (polars, pandas, pyarrow, DuckDB; pyarrow must be
        installed), which gives a ``pyarrow.Table``, or a dict of columns, which gives a dict of lists.
    refrigerant : str or Refrigerant
        One, for all rows.
    site : Site, optional
        Where the gauges were; sea level unless given.
    gauge, thermometer : Instrument, optional
        What the readings were taken with. Unless given: 0.1 psi steps and 1 % of 500 psi; 0.1 °F steps and ±1 °F.
    target_subcooling : TemperatureDifference, optional
        For a system with an expansion valve: its maker's target. Without one the superheat is judged against the
        target superheat of a fixed orifice, from indoor wet bulb and outdoor temperature.
    level : Ratio, optional
        The confidence a verdict needs: 95 % unless given.
    columns : dict of str to str, optional
        What the table calls a column where it has another name: ``{"suction_line": "T_suction_F"}``.
    pressure, temperature, difference : str, optional
        The units of the numbers: gauge pressure; temperature; differences (those of the temperatures unless given).
    prefix : str, optional
        Put before the names of the new columns.

    Returns
    -------
    dict of lists or pyarrow.Table
        A row with a reading missing or out of range is ``"unusable"``, its numbers NaN.

    Raises
    ------
    UnknownName
        A column or a refrigerant nobody knows; a column the table has not.
    Inconsistent
        Columns of different lengths.
    WrongKind
        No table, or a column of something else than numbers.
    Unreadable
        A unit that is unknown, or of another kind.
    OutOfRange
        An instrument or a level that cannot be.

    Notes
    -----
    Source: ``Target.by_formula`` for a fixed orifice; limits of ``ChargeTolerance``; verdict by JCGM 106:2012. Range:
    preconditions are the caller's (``Requirements``). Accuracy: as ``TargetCheck``, where no two columns share an
    instrument; ambient temperatures and ranges of instruments are not counted.

    Examples
    --------
    >>> row = {"suction_pressure": [118.0], "suction_line": [54.0], "liquid_pressure": [365.0], "liquid_line": [98.0]}
    >>> found = kv.batch.evaluate(row, refrigerant="R-410A", target_subcooling=kv.delta_fahrenheit(10))
    >>> f"{found['subcooling'][0]:.1f}", found["verdict"]
    ('11.7', ['unresolved'])
    """
    import kingvalve as kv

    table, arrays = _columns(table, dict(columns or {}), needed=4 if target_subcooling is not None else 6)
    if isinstance(refrigerant, str):
        refrigerant = kv.Refrigerant(refrigerant)
    if gauge is None:
        gauge = kv.Instrument.resolution(kv.psi(0.1)).accuracy_percent_of_span(1.0, kv.psi(500.0))
    if thermometer is None:
        thermometer = kv.Instrument.resolution(kv.delta_fahrenheit(0.1)).accuracy(kv.delta_fahrenheit(1.0))
    if difference is None:
        difference = "Δ°F" if "F" in temperature.upper() else "Δ°C"
    from ._kingvalve import batch as _batch

    found = _batch.judge(
        arrays,
        refrigerant,
        site or kv.Site(),
        gauge,
        thermometer,
        target_subcooling,
        level,
        [pressure, temperature, difference],
    )
    return _with(table, dict(zip((prefix + name for name in ADDED), found, strict=True)), prefix)


def _columns(table: Any, names: dict[str, str], needed: int) -> tuple[Any, list[Any]]:
    from ._array import floats

    unknown = set(names) - set(COLUMNS)
    if unknown:
        raise UnknownName(f"unknown columns {sorted(unknown)}; those read are {', '.join(COLUMNS)}")
    if not isinstance(table, dict):
        table = _arrow(table)
        have = set(table.column_names)
    else:
        have = set(table)
    wanted = [names.get(column, column) for column in COLUMNS[:needed]]
    missing = [name for name in wanted if name not in have]
    if missing:
        raise UnknownName(f"the table has no column {', '.join(missing)}; say what it calls them by columns=")
    arrays = [floats(_numbers(table[name])) for name in wanted]
    arrays += [floats([float("nan")] * len(arrays[0])) for _ in range(len(COLUMNS) - needed)]
    if len({len(array) for array in arrays}) > 1:
        raise Inconsistent(f"columns of different lengths: {[len(array) for array in arrays]}")
    return table, arrays


def _arrow(table: Any) -> Any:
    try:
        import pyarrow as pa  # type: ignore[import-untyped]
    except ImportError as failure:
        raise WrongKind(
            "a table other than a dict of columns is read by pyarrow: pip install pyarrow"
        ) from failure
    if hasattr(table, "__arrow_c_stream__"):
        return pa.table(table)
    if hasattr(table, "__arrow_c_array__"):
        return pa.Table.from_batches([pa.record_batch(table)])
    raise WrongKind(f"expected a dict of columns or a table of the Arrow PyCapsule protocol, got {type(table).__name__}")


def _numbers(column: Any) -> Any:
    """An Arrow column as numpy: the same memory where it is one chunk of float64 without nulls."""
    if not hasattr(column, "combine_chunks"):
        return column
    if column.num_chunks == 1:
        return column.chunk(0).to_numpy(zero_copy_only=False)
    return column.to_numpy()


def _with(table: Any, found: dict[str, Any], prefix: str) -> Any:
    codes = found[prefix + "verdict"]
    if isinstance(table, dict):
        lists = {name: array.tolist() for name, array in found.items()}
        lists[prefix + "verdict"] = [VERDICTS[int(code)] for code in lists[prefix + "verdict"]]
        return {**table, **lists}
    import pyarrow as pa  # type: ignore[import-untyped]

    for name, array in found.items():
        if name == prefix + "verdict":
            kinds = pa.DictionaryArray.from_arrays(pa.array(codes.astype("int8")), pa.array(VERDICTS))
            table = table.append_column(name, kinds)
        else:
            table = table.append_column(name, pa.array(array))
    return table
