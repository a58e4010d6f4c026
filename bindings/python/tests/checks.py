"""Checks answered by the classes and functions of the package, from the JSON form that ``kv.check.run`` takes."""

import kingvalve as kv

def instrument(form, step):
    """The instrument of a JSON form; `step` is the class of its resolution."""
    made = kv.Instrument.resolution(step(form["resolution"]))
    accuracy = form.get("accuracy", {})
    if "percent_of_reading" in accuracy:
        made = made.accuracy_percent_of_reading(accuracy["percent_of_reading"])
        made = made.counts(accuracy["counts"]) if "counts" in accuracy else made
    if "percent_of_span" in accuracy:
        made = made.accuracy_percent_of_span(accuracy["percent_of_span"], step(accuracy["span"]))
    if "within" in accuracy:
        made = made.accuracy(step(accuracy["within"]))
    return made.named(form["name"]) if "name" in form else made


def read(kind, form, label, on=None, step=None):
    """A reading of a JSON form, on an instrument of its own or on that of another reading."""
    meter = on or instrument(form["instrument"], step or kind)
    return kv.Reading(kind(form["value"]), meter).labelled(label)


def volts(form, label="voltmeter", on=None):
    return read(kv.ElectricPotential, form, label, on)


def amps(form, label="ammeter"):
    return read(kv.Current, form, label)


def warm(form, label, on=None):
    return read(kv.Temperature, form, label, on, kv.TemperatureDifference)


def gauge(form, label):
    return read(kv.GaugePressure, form, label, step=kv.PressureDifference)


def thermometer(form):
    return instrument(form["instrument"], kv.TemperatureDifference)


def where(form):
    if "barometer" in form:
        return kv.Site(barometer=kv.Pressure(form["barometer"]))
    elevation = form["elevation"]
    return kv.Site(elevation=kv.Length(elevation if isinstance(elevation, str) else f"{elevation['value']} {elevation['unit']}"))


def between(kind, form):
    return kind(form["low"]), kind(form["high"])


def anywhere(kind, form, label):
    low, high = between(kind, form)
    return kv.Measured.from_limits((low + high) * 0.5, (high - low) * 0.5, label)


def capacitor(form):
    part = kv.RunCapacitor.rated(kv.Capacitance(form["rated"]), kv.Tolerance(form["tolerance"]))
    return part.policy(kv.Tolerance(form["policy"])) if "policy" in form else part


def under_load(part, form):
    return part.under_load(volts(form["voltage"]), amps(form["current"]), kv.Frequency(form["frequency"]))


def bench(part, form):
    return part.on_bench(read(kv.Capacitance, form, "capacitance meter"))


def combined(form):
    part = capacitor(form["capacitor"])
    ways = {"under_load": under_load, "bench": bench}
    checks = [ways[way](part, each) for one in form["readings"] for way, each in one.items()]
    return part.combined(checks)


def dual(form):
    sections = form["capacitor"]
    part = kv.DualCapacitor.of(capacitor(sections["herm"]), capacitor(sections["fan"]))
    readings = form["readings"]["under_load"]
    pair = {
        each: (volts(readings[each]["voltage"], f"{each.upper()} voltmeter"), amps(readings[each]["current"], f"{each.upper()} ammeter"))
        for each in ("herm", "fan")
    }
    return part.under_load(pair["herm"], pair["fan"], kv.Frequency(readings["frequency"]))


class Replacement:
    def __init__(self, form):
        self.found = kv.Replacement.of(capacitor(form["capacitor"]), kv.ElectricPotential(form["voltage"]))
        self.stock = [
            kv.StockPart(kv.Capacitance(one["capacitance"]), kv.ElectricPotential(one["voltage"]), kv.Tolerance(one["tolerance"]))
            for one in form["stock"]
        ]

    def finding(self):
        return self.found.finding(self.stock)


class Stored:
    def __init__(self, form):
        self.charge = kv.StoredCharge.at(kv.Capacitance(form["capacitance"]), kv.ElectricPotential(form["working_voltage"]))
        self.bleed = kv.Resistance(form["bleed_resistor"])

    def finding(self):
        return self.charge.finding(self.bleed)


def sag(form):
    meter = instrument(form["idle"]["instrument"], kv.ElectricPotential)
    supply = kv.Supply.rated(kv.ElectricPotential(form["supply"]["rated"]))
    return supply.running(volts(form["idle"], "idle voltage", meter), volts(form["under_load"], "voltage under load", meter))


def unbalance(form):
    meter = instrument(form["voltage_12"]["instrument"], kv.ElectricPotential)
    return kv.Unbalance.of(*(volts(form[f"voltage_{a}{b}"], f"voltage {a}-{b}", meter) for a, b in ("12", "23", "31")))


def circuit(form):
    kinds = {"compressor": lambda of: kv.Load.compressor(kv.Current(of["rla"])), "motor": lambda of: kv.Load.motor(kv.Current(of))}
    loads = [kinds[kind](of) for load in form["loads"] for kind, of in load.items()]
    installed = form["installed"]
    return kv.Circuit.of(loads).check(kv.Installed(kv.Current(installed["conductor_ampacity"]), kv.Current(installed["protection"])))


def wire(form):
    return kv.VoltageDrop.along(
        kv.Conductor.copper(form["conductor"]["size"]),
        kv.Length(form["length"]),
        form["phases"],
        amps(form["current"]),
        kv.ElectricPotential(form["supply_voltage"]),
    )


def test_pressure(form):
    plate = kv.TestPressure.of_plate(kv.GaugePressure(form["high_side"])).low_side(kv.GaugePressure(form["low_side"]))
    warming = form["warming"]
    return plate.check(
        gauge(form["planned"], "gauge"),
        (where(warming["site"]), kv.Temperature(warming["filled_at"]), kv.Temperature(warming["hottest"])),
    )


def nitrogen(form):
    site = where(form["site"])
    dial = instrument(form["start"]["pressure"]["instrument"], kv.PressureDifference)
    probe = thermometer(form["start"]["temperature"])

    def state(of, which):
        pressure = site.absolute(read(kv.GaugePressure, of["pressure"], f"{which} pressure", dial))
        return kv.GasState(pressure, warm(of["temperature"], f"{which} temperature", probe))

    size = form["size"]
    test = kv.PressureTest(state(form["start"], "first"), state(form["end"], "last"))
    return test.sized(anywhere(kv.Volume, size["volume"], "internal volume"), kv.Time(size["lasted"]), site).check()


def vacuum(form):
    log = form["log"]
    samples = kv.DecayLog(
        [kv.Time(each["time"]) for each in log["samples"]],
        [kv.Pressure(each["pressure"]) for each in log["samples"]],
        instrument(log["gauge"], kv.PressureDifference),
    ).repeatable_within(kv.Ratio(log["repeatability"]))
    return kv.DecayTest(samples, warm(form["coldest"], "thermometer at the coldest point")).check()


def leak_size(form):
    found = read(kv.Throughput, form["leak"], "leak detector")
    gas = getattr(kv.LeakGas, form["gas"])()
    outside = kv.Pressure(form["outside"])
    leak = kv.Leak(found, gas, kv.Pressure(form["inside"]), outside, kv.Temperature(form["temperature"]))
    inside = kv.LeakGas.of(kv.Refrigerant(form["refrigerant"]))
    return leak.of_gas(inside, kv.Pressure(form["refrigerant_inside"]), outside, form["flow"])


def cylinder(form):
    return kv.Cylinder.stamped(kv.Mass(form["tare"]), kv.Mass(form["water_capacity"]))


def fill(form):
    limit = kv.FillLimit.of(kv.Refrigerant(form["refrigerant"]), cylinder(form["cylinder"]))
    return limit.judge(read(kv.Mass, form["gross"], "gross weight"))


def heel(form):
    pressure = where(form["site"]).absolute(gauge(form["pressure"], "cylinder gauge"))
    temperature = warm(form["temperature"], "cylinder thermometer")
    return kv.Heel.of(kv.Refrigerant(form["refrigerant"]), cylinder(form["cylinder"]), pressure, temperature)


def weigh_in(form):
    refrigerant, plate = kv.Refrigerant(form["refrigerant"]), form["plate"]
    computed = kv.liquid_line_allowance(refrigerant, kv.Tube.acr(kv.Length(form["liquid_line"]["outside"])))
    return kv.WeighIn.of(
        kv.PlateCharge(kv.Mass(plate["factory"]), kv.Length(plate["included_line"])),
        kv.Length(form["line_length"]),
        refrigerant,
        computed=computed,
        accessories=[kv.Accessory.given(each["name"], kv.Mass(each["mass"]), "maker") for each in form["accessories"]],
    )


def air_flow(form):
    static = form["airflow"]["static_pressure"]
    points = static["fan"]["points"]
    fan = kv.FanTable(
        [kv.PressureDifference(each["static_pressure"]) for each in points],
        [kv.VolumeFlow(each["airflow"]) for each in points],
        static["fan"]["source"],
    )
    supply, back = (read(kv.PressureDifference, static[each], f"{each} static pressure") for each in ("supply", "return"))
    flow = fan.airflow(kv.total_external_static(supply, back))
    return kv.AirflowCheck.of(flow, kv.Power(form["nominal_capacity"]))


def moist(form, site, name):
    return kv.MoistAir.from_wet_bulb(
        warm(form["dry_bulb"], f"{name} dry bulb"), warm(form["humidity"]["wet_bulb"], f"{name} wet bulb"), site
    )


def states(form):
    site = where(form["site"])
    return [moist(form[each], site, each) for each in ("entering", "leaving")]


def capacity(form):
    return kv.delivered(read(kv.VolumeFlow, form["airflow"]["read"], "flow hood"), *states(form))


def bypass(form):
    return kv.bypass(*states(form))


def split(form):
    probe = thermometer(form["return_dry_bulb"])
    dry, supply = (warm(form[f"{each}_dry_bulb"], f"{each} dry bulb", probe) for each in ("return", "supply"))
    wet, model = warm(form["return_wet_bulb"], "return wet bulb"), form["target"]["model"]
    back = kv.MoistAir.from_wet_bulb(dry, wet, where(model["site"]))
    target = kv.split_by_model(kv.VolumeFlow(model["airflow"]), back, kv.Power(model["total_capacity"]))
    return kv.SplitCheck.of(dry, supply, target, "what the coil is said to deliver")


CALLED = {
    "outdoor": "outdoor dry bulb",
    "return_dry_bulb": "return dry bulb",
    "return_wet_bulb": "return wet bulb",
    "condensing": "condensing temperature",
    "supply": "supply dry bulb",
    "current": "current",
}


def work(form):
    before = form["before"]
    on = {each: instrument(of["instrument"], kv.Current if each == "current" else kv.TemperatureDifference) for each, of in before.items()}

    def readings(when):
        made = {
            each: read(kv.Current if each == "current" else kv.Temperature, one, f"{CALLED[each]} {when}", on[each])
            for each, one in form[when].items()
        }
        return kv.RunReadings(
            made["outdoor"],
            made["return_dry_bulb"],
            made["return_wet_bulb"],
            condensing=made["condensing"],
            supply=made["supply"],
            current=made["current"],
        )

    return kv.BeforeAfter.of(form["work"], readings("before"), readings("after"))


def conditions(form):
    flow = form["airflow"]
    nominal = flow["nominal"]
    return kv.Conditions(
        running=kv.Time(form["running"]),
        outdoor=warm(form["outdoor"], "outdoor thermometer"),
        indoor=warm(form["indoor"], "indoor thermometer"),
        airflow=kv.AirflowCheck.of(
            read(kv.VolumeFlow, flow["flow"], "airflow instrument"), kv.Power(f"{nominal['value']} {nominal['unit']}")
        ),
    )


def superheat_of(form, site):
    pressure = site.absolute(gauge(form["suction_pressure"], "suction gauge"))
    return kv.Refrigerant(form["refrigerant"]).superheat(pressure, warm(form["suction_line"], "suction line thermometer"))


def target_superheat(form):
    now = conditions(form["conditions"])
    target = kv.Target.by_formula(warm(form["indoor_wet_bulb"], "wet-bulb thermometer"), now.outdoor)
    superheat = superheat_of(form, where(form["site"]))
    return kv.TargetCheck.superheat(superheat, target).under(kv.Requirements(), now)


def target_subcooling(form):
    site = where(form["site"])
    pressure = site.absolute(gauge(form["liquid_pressure"], "liquid gauge"))
    subcooling = kv.Refrigerant(form["refrigerant"]).subcooling(pressure, warm(form["liquid_line"], "liquid line thermometer"))
    check = kv.TargetCheck.subcooling(subcooling, kv.Target.given(kv.TemperatureDifference(form["target"]), "data plate"))
    check = check.with_valve_superheat(superheat_of(form, site))
    return check.under(kv.Requirements(), conditions(form["conditions"]))


class Faults:
    def __init__(self, form):
        readings = form["readings"]
        operation = kv.Operation(
            suction_pressure=gauge(readings["suction_pressure"], ""),
            **{each: warm(readings[each], "") for each in ("suction_line", "return_air", "outdoor_air")},
        )
        expected = kv.Expected(**{each: kv.TemperatureDifference(of) for each, of in form["expected"].items()})
        residuals = operation.residuals(kv.Refrigerant(form["refrigerant"]), where(form["site"]), expected)
        priors, self.spreads = kv.Priors(), kv.Spreads()
        for each in form["priors"]:
            priors = priors.with_(each["fault"], kv.Ratio(each["weight"]))
        for each in form["spreads"]:
            self.spreads = self.spreads.with_(each["feature"], kv.TemperatureDifference(each["standard"]))
        self.ranking = kv.Ranking.of(residuals, kv.Patterns.of(form["metering"]), priors)

    def finding(self):
        return self.ranking.finding(self.spreads)


def inventory(form):
    site = where(form["site"])
    dial, probe = instrument(form["gauge"], kv.PressureDifference), instrument(form["thermometer"], kv.TemperatureDifference)
    scale = instrument(form["scale"], kv.Mass)
    known = kv.Inventory.prior(kv.System.of_plate(kv.Refrigerant(form["refrigerant"]), kv.Mass(form["plate_charge"])))
    for one in form["evidence"]:
        if "standing" in one:
            shown = kv.GaugePressure(one["standing"]["pressure"])
            pressure = site.absolute(kv.Reading(shown, dial))
            temperatures = [kv.Reading(kv.Temperature(each), probe) for each in one["standing"]["temperatures"]]
            known = known.standing(kv.StandingReading.at_parts(pressure, temperatures, label=f"standing {shown:.1f}"))
        elif "removed" in one:
            known = known.removed(anywhere(kv.Mass, one["removed"]["lost"], "lost"))
        else:
            of = one["weighed"]
            before, after = (kv.Reading(kv.Mass(of[each]), scale).measured for each in ("before", "after"))
            known = known.weighed_in(before - after - anywhere(kv.Mass, of["hoses"], "hoses"))
    return known


def plan(form):
    known, now = form["known"], form["situation"]
    showing = now["showing"]
    full = kv.FullCharge(**{each: kv.TemperatureDifference(of) for each, of in showing["full"].items()})
    return kv.Plan.next(
        inventory(known),
        where(known["site"]),
        metering=now["metering"],
        cylinder=kv.Mass(now["cylinder"]),
        before=kv.Before(**now["before"]),
        outdoor_coil=now["outdoor_coil"],
        standing_at=[kv.Temperature(each) for each in now["standing_at"]],
        showing=kv.Showing(
            kv.TemperatureDifference(showing["superheat"]),
            kv.TemperatureDifference(showing["subcooling"]),
            full,
            showing["against_target"],
        ),
    )


ANSWERS = {
    "airflow_for_charge": air_flow,
    "temperature_split": split,
    "delivered_capacity": capacity,
    "bypass_factor": bypass,
    "before_and_after": work,
    "run_capacitor_under_load": lambda form: under_load(capacitor(form["capacitor"]), form),
    "run_capacitor_on_bench": lambda form: bench(capacitor(form["capacitor"]), form["capacitance"]),
    "run_capacitor_combined": combined,
    "dual_run_capacitor": dual,
    "capacitor_replacement": Replacement,
    "stored_charge": Stored,
    "compressor_current": lambda form: kv.CompressorCurrent.of(amps(form["current"]), kv.Current(form["rated_load_current"])),
    "insulation_resistance": lambda form: kv.Insulation.of(
        read(kv.Resistance, form["resistance"], "insulation tester"), kv.Resistance(form["at_least"]), form["threshold_from"]
    ),
    "power_factor": lambda form: kv.PowerFactor.of(
        read(kv.Power, form["power"], "wattmeter"), volts(form["voltage"]), amps(form["current"]), form["phases"]
    ),
    "supply_sag": sag,
    "voltage_unbalance": unbalance,
    "circuit_sizes": circuit,
    "conductor_voltage_drop": wire,
    "contactor_drop": lambda form: kv.ContactorDrop.of(volts(form["drop"]), kv.ElectricPotential(form["line_voltage"])),
    "test_pressure": test_pressure,
    "nitrogen_pressure_test": nitrogen,
    "vacuum_decay": vacuum,
    "leak_size": leak_size,
    "cylinder_fill": fill,
    "cylinder_heel": heel,
    "weigh_in": weigh_in,
    "target_superheat": target_superheat,
    "target_subcooling": target_subcooling,
    "fault_ranking": Faults,
    "charge_plan": plan,
}
