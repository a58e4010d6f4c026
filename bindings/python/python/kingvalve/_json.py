"""Python objects as the JSON that the library reads: quantities as value and unit, money as its text."""

from __future__ import annotations

from typing import Any

from ._errors import Unreadable


def text(data: Any) -> str:
    """JSON text of dicts, lists, numbers, text, quantities and money."""
    import json

    try:
        return json.dumps(data, default=_plain, allow_nan=False)
    except ValueError as failure:
        # A number that is NaN or infinite, or a dict within itself.
        raise Unreadable(f"cannot be written as JSON: {failure}; leave out what was not read") from None


def _plain(each: Any) -> Any:
    import json

    import kingvalve as kv

    if isinstance(each, kv.Quantity):
        unit = next(iter(each.units()))
        return {"value": each.to(unit), "unit": unit}
    if isinstance(each, kv.Measured | kv.Reading):
        raise kv.WrongKind(
            "a check reads a reading as its value and its instrument's specification; see kv.check.example(name)"
        )
    if isinstance(each, kv.Money | kv.Tolerance):
        return str(each)
    if isinstance(each, kv.Prices | kv.Chances):
        return json.loads(each.to_json())
    if isinstance(each, kv.Refrigerant):
        return each.designation
    if hasattr(each, "item"):
        return each.item()
    raise kv.WrongKind(f"{type(each).__name__} is nothing that JSON holds")
