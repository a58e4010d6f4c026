"""A logged season in columns: superheat of every row, and how many rows are short of subcooling. Invented data."""

import numpy as np

import kingvalve as kv


def main() -> None:
    season = kv.demo("season")
    site = kv.Site()
    r = kv.Refrigerant("R-410A")
    suction = site.absolute(kv.psig(season["suction_pressure"]))
    superheat = r.superheat(suction, kv.fahrenheit(season["suction_line"]))
    print(f"superheat {np.nanmean(superheat.delta_fahrenheit):.1f} °F on average of {len(superheat)} rows")

    # Plain numbers, their units said once: the fast path.
    plain = r.plain(pressure="psig", temperature="°F", site=site)
    subcooling = plain.subcooling(season["liquid_pressure"], season["liquid_line"])
    print(f"subcooling from {np.nanmax(subcooling):.1f} down to {np.nanmin(subcooling):.1f} °F")

    found = kv.batch.evaluate(season, refrigerant=r, target_subcooling=kv.delta_fahrenheit(10))
    verdicts = list(found["verdict"])
    print({name: verdicts.count(name) for name in kv.batch.VERDICTS})


if __name__ == "__main__":
    main()
