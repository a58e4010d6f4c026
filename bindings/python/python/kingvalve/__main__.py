"""``python -m kingvalve``: the version, what the numbers rest on, and a self-check."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ._kingvalve import Refrigerant


def main() -> int:
    """Prints them; 1 where the self-check fails."""
    import kingvalve as kv

    names = kv.designations()
    print(f"kingvalve {kv.__version__}, Python {sys.version.split()[0]}")
    print(f"{len(names)} refrigerants, {len(kv.check.names())} checks")
    papers = {paper for name in names for _, paper in kv.Refrigerant(name).accuracy().papers}
    print(f"properties from {len(papers)} published equations of state; of one refrigerant:")
    for name, paper in kv.Refrigerant("R-454B").accuracy().papers:
        print(f"  {name}: {paper}")
    failed = [name for name in names if not _keeps_its_inverse(kv.Refrigerant(name))]
    for name in kv.check.names():
        kv.check.run(name, kv.check.example(name))
    print(f"self-check: p(T) and T(p) of {len(names)} refrigerants, every check's example: {failed or 'passed'}")
    return 1 if failed else 0


def _keeps_its_inverse(r: Refrigerant) -> bool:
    import kingvalve as kv

    t = kv.kelvins(0.8 * r.critical_temperature.kelvins)
    return abs(r.dew_temperature(r.dew_pressure(t)).kelvins - t.kelvins) < 1e-6


if __name__ == "__main__":
    sys.exit(main())
