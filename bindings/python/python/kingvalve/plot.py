"""Pictures of what the library found; needs matplotlib (``pip install kingvalve[plot]``).

Each function draws into ``ax`` (a new figure unless given) and returns the axes. Colours are those of Okabe and Ito,
told apart by colour-blind eyes; every mark differs in shape as well.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ._errors import Error

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from matplotlib.axes import Axes

    from ._kingvalve import CapacitorCheck, Mass, Measured, Pressure, PricedWay, Refrigerant, Site, Tally, Temperature

__all__ = ["capacitor", "charge", "pressure_enthalpy", "pressure_temperature", "prices"]

BLUE, ORANGE, GREEN, VERMILION, PURPLE, GREY = "#0072B2", "#E69F00", "#009E73", "#D55E00", "#CC79A7", "#555555"
MARKS = (("o", VERMILION), ("s", GREEN), ("^", PURPLE), ("D", ORANGE), ("v", BLUE))


def _axes(ax: Axes | None) -> Axes:
    if ax is None:
        try:
            import matplotlib.pyplot as plt
        except ImportError as failure:
            raise Error("plots need matplotlib: pip install kingvalve[plot]") from failure
        _, ax = plt.subplots(figsize=(6.4, 4.4), layout="constrained")
    ax.grid(color="#dddddd", linewidth=0.6)
    ax.set_axisbelow(True)
    for side in ("top", "right"):
        ax.spines[side].set_visible(False)
    return ax


def _value_and_half(quantity: Any, word: str, step: str) -> tuple[float, float]:
    """The number and the half-width of its 95 % interval; none for a quantity without doubt."""
    if hasattr(quantity, "measured"):
        quantity = quantity.measured
    if hasattr(quantity, "expanded"):
        return getattr(quantity.value, word), getattr(quantity.expanded(), step)
    return getattr(quantity, word), 0.0


def pressure_temperature(
    refrigerant: Refrigerant,
    readings: Iterable[tuple[str, Any, Any]] = (),
    *,
    site: Site | None = None,
    low: Temperature | None = None,
    high: Temperature | None = None,
    ax: Axes | None = None,
) -> Axes:
    """Bubble and dew line over temperature (°F, psig at the site), with readings and their 95 % doubt.

    Parameters
    ----------
    refrigerant : Refrigerant
    readings : iterable of tuple, optional
        (label, absolute pressure, temperature), each plain or with its doubt.
    site : Site, optional
        Where gauges read: sea level unless given.
    low, high : Temperature, optional
        The ends of the picture: 0 °F and 130 °F unless given.
    ax : matplotlib.axes.Axes, optional
        What to draw into: a new figure unless given.

    Returns
    -------
    matplotlib.axes.Axes

    Raises
    ------
    Error
        No matplotlib.
    """
    import kingvalve as kv

    ax, site = _axes(ax), site or kv.Site()
    start = kv.fahrenheit(0) if low is None else low
    end = kv.fahrenheit(130) if high is None else high
    step = (end - start) / 200
    column = kv.Column([start + index * step for index in range(201)])
    lines = (("bubble", refrigerant.bubble_pressure, "-"), ("dew", refrigerant.dew_pressure, "--"))
    for name, curve, style in lines[: 2 if refrigerant.is_blend else 1]:
        gauge = site.gauge(curve(column, errors="nan"))
        label = name if refrigerant.is_blend else "saturation"
        ax.plot(column.fahrenheit, gauge.psig, style, color=BLUE, label=label)
    for (label, pressure, temperature), (mark, colour) in zip(readings, MARKS * 9, strict=False):
        p, dp = _value_and_half(pressure, "psia", "psi")
        t, dt = _value_and_half(temperature, "fahrenheit", "delta_fahrenheit")
        p -= site.atmosphere.psia
        ax.errorbar(t, p, xerr=dt, yerr=dp, fmt=mark, color=colour, capsize=3, label=label)
    ax.set(xlabel="temperature, °F", ylabel="pressure, psig", title=f"{refrigerant.designation}: pressure and temperature")
    ax.legend(frameon=False)
    return ax


def pressure_enthalpy(
    refrigerant: Refrigerant,
    *,
    suction: tuple[Pressure, Temperature] | None = None,
    discharge: tuple[Pressure, Temperature] | None = None,
    liquid: tuple[Pressure, Temperature] | None = None,
    ax: Axes | None = None,
) -> Axes:
    """The two-phase dome (kJ/kg, kPa on a log scale) with the measured cycle where its three corners are given.

    Parameters
    ----------
    refrigerant : Refrigerant
    suction, discharge, liquid : tuple, optional
        (absolute pressure, temperature) of each.
    ax : matplotlib.axes.Axes, optional
        What to draw into: a new figure unless given.

    Returns
    -------
    matplotlib.axes.Axes

    Raises
    ------
    Error
        No matplotlib.
    OutOfRange
        A corner outside the refrigerant's equation.
    Inconsistent
        A corner between bubble and dew point.
    """
    import kingvalve as kv

    ax = _axes(ax)
    top = refrigerant.critical_temperature.kelvins * 0.994
    kelvins = kv.kelvins([210.0 + (top - 210.0) * index / 300 for index in range(301)])
    for name, pressure, enthalpy, style in (
        ("bubble line", refrigerant.bubble_pressure, refrigerant.bubble_enthalpy, "-"),
        ("dew line", refrigerant.dew_pressure, refrigerant.dew_enthalpy, "--"),
    ):
        along, up = enthalpy(kelvins, errors="nan"), pressure(kelvins, errors="nan")
        ax.plot(along.kilojoules_per_kilogram, up.kilopascals, style, color=BLUE, label=name)
    if suction and discharge and liquid:
        points = [(refrigerant.state(p, t).enthalpy.kilojoules_per_kilogram, p.kilopascals) for p, t in (suction, discharge, liquid)]
        valve = (points[2][0], points[0][1])
        ring = [*points, valve, points[0]]
        ax.plot([h for h, _ in ring], [p for _, p in ring], "-", color=VERMILION, linewidth=1.2)
        for name, (h, p), (mark, colour) in zip(("suction", "discharge", "liquid line", "behind the valve"), ring, MARKS, strict=False):
            ax.plot(h, p, mark, color=colour, label=name)
    ax.set(
        yscale="log",
        xlabel="enthalpy, kJ/kg (IIR reference)",
        ylabel="pressure, kPa absolute",
        title=f"{refrigerant.designation}: the cycle as measured",
    )
    ax.legend(frameon=False)
    return ax


def charge(tally: Tally, *, due: Mass | None = None, start: Sequence[Mass] | None = None, ax: Axes | None = None) -> Axes:
    """What went in, step by step, with its 95 % interval; on top of what was in before where given.

    Parameters
    ----------
    tally : Tally
    due : Mass, optional
        What it should come to.
    start : sequence of Mass, optional
        What was in before: (low, high).
    ax : matplotlib.axes.Axes, optional
        What to draw into: a new figure unless given.

    Returns
    -------
    matplotlib.axes.Axes

    Raises
    ------
    Error
        No matplotlib.
    """
    ax = _axes(ax)
    low, high = (start[0].pounds, start[1].pounds) if start else (0.0, 0.0)
    lows, highs = [low], [high]
    total: Any = None
    for _, step in tally.steps:
        total = step if total is None else total + step
        value, half = _value_and_half(total, "pounds", "pounds")
        lows.append(low + value - half)
        highs.append(high + value + half)
    steps = list(range(len(lows)))
    ax.fill_between(steps, lows, highs, step="mid", color=BLUE, alpha=0.3, linewidth=0, label="95 % interval")
    ax.plot(steps, [(a + b) / 2 for a, b in zip(lows, highs, strict=True)], "o-", color=BLUE, label="charge")
    if due is not None:
        ax.axhline(due.pounds, color=VERMILION, linestyle="--", label=f"due: {due:.1f}")
    ax.set(xlabel="weighed step", ylabel="charge, lb", title="Charge over the weighed steps", xticks=steps)
    ax.legend(frameon=False)
    return ax


def capacitor(checks: CapacitorCheck | Sequence[CapacitorCheck], *, labels: Sequence[str] = (), ax: Axes | None = None) -> Axes:
    """Capacitance with its 95 % interval against the tolerance marked on the part, in percent of its rating.

    Parameters
    ----------
    checks : CapacitorCheck or sequence of CapacitorCheck
    labels : sequence of str, optional
        One for each: the ratings unless given.
    ax : matplotlib.axes.Axes, optional
        What to draw into: a new figure unless given.

    Returns
    -------
    matplotlib.axes.Axes

    Raises
    ------
    Error
        No matplotlib.
    """
    from ._kingvalve import CapacitorCheck

    ax = _axes(ax)
    listed = [checks] if isinstance(checks, CapacitorCheck) else list(checks)
    colours = {"within": GREEN, "outside": VERMILION, "unresolved": ORANGE}
    for row, check in enumerate(listed):
        rating = check.part.rating.microfarads
        value, half = _value_and_half(check.capacitance, "microfarads", "microfarads")
        tolerance = check.part.tolerance
        low, high = 100 - abs(tolerance.below.percent), 100 + tolerance.above.percent
        ax.barh(row, high - low, left=low, height=0.5, color=GREY, alpha=0.2, label="tolerance" if row == 0 else None)
        name, colour = check.verdict.name, colours[check.verdict.name]
        ax.errorbar(100 * value / rating, row, xerr=100 * half / rating, fmt="o", color=colour, capsize=4)
        ax.annotate(f"{name}: {value:.2f} µF", (100 * value / rating, row), xytext=(0, 9), textcoords="offset points", ha="center", color=colour)
    names = list(labels) or [f"{check.part.rating:.0f}" for check in listed]
    ax.set_yticks(range(len(listed)), names)
    ax.set(xlabel="capacitance, % of rating", title="Run capacitor against its limits", ylim=(-0.6, len(listed) - 0.2))
    ax.legend(frameon=False, loc="lower right")
    return ax


def prices(ways: Sequence[PricedWay], *, ax: Axes | None = None) -> Axes:
    """What each way forward costs: from the low to the high end, with the most it may come to.

    Parameters
    ----------
    ways : sequence of PricedWay
    ax : matplotlib.axes.Axes, optional
        What to draw into: a new figure unless given.

    Returns
    -------
    matplotlib.axes.Axes

    Raises
    ------
    Error
        No matplotlib.
    """
    ax = _axes(ax)
    for row, way in enumerate(ways):
        low, high = (float(end.amount) for end in way.total)
        ax.barh(row, max(high - low, 1e-9), left=low, height=0.5, color=BLUE, label="price" if row == 0 else None)
        ax.plot([low, high], [row, row], "|", color=BLUE, markersize=14)
        most = float(way.not_to_exceed.amount)
        ax.plot(most, row, "D", color=VERMILION, label="not to exceed" if row == 0 else None)
    ax.set_yticks(range(len(ways)), [way.title for way in ways])
    ax.invert_yaxis()
    currency = ways[0].not_to_exceed.currency if ways else ""
    ax.set(xlabel=f"price, {currency}", title="Ways forward", xlim=(0, None))
    ax.legend(frameon=False)
    return ax
