"""What notebooks show of refrigerants, findings and options: plain tables, no style of their own."""

from __future__ import annotations

from html import escape
from typing import Any


def _table(title: str, rows: list[tuple[str, str]]) -> str:
    body = "".join(f"<tr><th style='text-align:left'>{escape(a)}</th><td>{escape(b)}</td></tr>" for a, b in rows)
    return f"<table><caption style='text-align:left'><b>{escape(title)}</b></caption>{body}</table>"


def refrigerant(r: Any) -> str:
    """What it is made of, how it is listed, how good its model is."""
    rows = [(name, f"{share:.1f}") for name, share in r.components] if r.is_blend else []
    rows += [
        ("kind", r.kind),
        ("safety group", r.safety_group or "not listed"),
        ("critical temperature", f"{r.critical_temperature:.1f}"),
        ("model", str(r.accuracy())),
    ]
    return _table(r.designation, rows)


def verdict(v: Any) -> str:
    """The verdict, its value and limits, and what would settle it."""
    rows = [("verdict", v.name), ("finding", str(v))]
    rows += [("to settle it", v.settle)] if v.settle else []
    return _table(f"{v.value:.1f}", rows)


def finding(text: str, cautions: list[str], steps: list[str]) -> str:
    """A finding's sentence with what to do next and its cautions."""
    items = "".join(f"<li>{escape(each)}</li>" for each in steps)
    warn = "".join(f"<li><b>caution:</b> {escape(each)}</li>" for each in cautions)
    return f"<p>{escape(text)}</p><ul>{items}{warn}</ul>"


def way(priced: Any) -> str:
    """A way forward: its lines, taxes, total and the most it may come to."""

    def between(low: Any, high: Any) -> str:
        return str(low) if low == high else f"{low} to {high}"

    rows = [(name, between(low, high)) for name, low, high in priced.lines + priced.taxes]
    rows += [("total", between(*priced.total)), ("not to exceed", str(priced.not_to_exceed))]
    return _table(priced.title, rows)


def evaluation(report: str) -> str:
    """The technician's report as it is printed."""
    return f"<pre>{escape(report)}</pre>"


def record(it: Any, found: Any) -> str:
    """A result's finding where it has one, else its attributes."""
    if found is not None:
        return str(found._repr_html_())
    rows = [(name.replace("_", " "), str(getattr(it, name))) for name in type(it).__match_args__]
    return _table(type(it).__name__, rows)


def inventory(it: Any) -> str:
    """What is in the system, and what each reading contributed."""
    now = it.now
    rows = [("median", f"{now.median:.2f}")]
    rows += [(what, "{:.2f} to {:.2f}".format(*ends)) for what, ends in (("50 %", now.half), ("90 %", now.ninety))]
    rows += [(each.what, "{:.2f} to {:.2f}".format(*each.after.ninety)) for each in it.contributions]
    return _table(repr(it.system).strip("<>"), rows)
