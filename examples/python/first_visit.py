"""Readings with their doubt, a verdict, and what would settle it. Invented readings."""

import kingvalve as kv


def main() -> None:
    site = kv.Site(elevation=kv.feet(130))
    r = kv.Refrigerant("R-454B")
    gauge = kv.Instrument.resolution(kv.psi(0.1)).accuracy_percent_of_span(0.5, kv.psi(500))
    clamp = kv.Instrument.resolution(kv.delta_fahrenheit(0.1)).accuracy(kv.delta_fahrenheit(1))
    suction = site.absolute(kv.Reading(kv.psig(119), gauge))
    superheat = r.superheat(suction, kv.Reading(kv.fahrenheit(56.1), clamp))
    print(f"superheat {superheat.value:.1f} ± {superheat.expanded():.1f}")

    section = kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance("10 %"))
    amps = kv.Reading(kv.amperes(0.6), kv.Instrument.resolution(kv.amperes(0.1)))
    check = section.under_load(kv.volts(371.3), amps, kv.hertz(60))
    match check.verdict.name:
        case "unresolved":
            print(check.verdict.settle)
        case name:
            print(name)
    for caution in check.cautions:
        print("caution:", caution)


if __name__ == "__main__":
    main()
