//! What cannot be is refused by every check, with the reason and where.

use super::super::{example, run};

/// Check; what of its example is changed, into what; what the error says.
const TABLE: &[(&str, &str, &str, &str)] = &[
    // Volts of zero and less.
    ("run_capacitor_under_load", "371.3 V", "0 V", "under load it is above zero"),
    ("run_capacitor_under_load", "371.3 V", "-5 V", "under load it is above zero"),
    ("run_capacitor_combined", "371.3 V", "0 V", "readings[0]: voltage across the capacitor"),
    ("dual_run_capacitor", "354.4 V", "-354.4 V", "readings.herm: voltage across the capacitor"),
    (
        "capacitor_replacement",
        r#""voltage": "370 V""#,
        r#""voltage": "0 V""#,
        "voltage: voltage marked on the capacitor",
    ),
    ("stored_charge", "370 V", "-370 V", "working voltage"),
    ("supply_sag", "241.0 V", "0 V", "idle voltage"),
    ("supply_sag", "232.5 V", "-1 V", "voltage under load"),
    ("supply_sag", "230 V", "0 V", "rated voltage"),
    ("voltage_unbalance", "467.0 V", "0 V", "voltage 2-3"),
    ("conductor_voltage_drop", "240 V", "0 V", "supply voltage"),
    ("contactor_drop", "238 V", "0 V", "line voltage"),
    ("power_factor", "240.0 V", "0 V", "no voltage or no current"),
    // No mains.
    ("run_capacitor_under_load", "60 Hz", "400 Hz", "400 Hz is out of range: the method is for mains"),
    ("run_capacitor_combined", "60 Hz", "400 Hz", "readings[0]: frequency 400 Hz"),
    ("dual_run_capacitor", "60 Hz", "0 Hz", "readings.herm: frequency 0 Hz"),
    // Displays without a step, accuracies below nothing.
    ("run_capacitor_under_load", r#"0.1 A""#, r#"0 A""#, "the step of its display must be positive"),
    ("run_capacitor_on_bench", r#"0.01 µF""#, r#"0 µF""#, "the step of its display must be positive"),
    ("compressor_current", r#"0.1 A""#, r#"0 A""#, "the step of its display must be positive"),
    ("temperature_split", r#"0.1 Δ°F""#, r#"0 Δ°F""#, "the step of its display must be positive"),
    ("nitrogen_pressure_test", r#"0.1 psi""#, r#"-0.1 psi""#, "the step of its display must be positive"),
    ("vacuum_decay", r#""resolution": "1 micron""#, r#""resolution": "0 microns""#, "must be positive"),
    ("leak_size", r#""percent_of_reading": 30"#, r#""percent_of_reading": -30"#, "it must be zero or more"),
    ("cylinder_tally", r#""resolution": "0.5 oz""#, r#""resolution": "0 oz""#, "must be positive"),
    // Air that cannot be.
    ("bypass_factor", "56.5 °F", "69.0 °F", "leaving: wet bulb: 69.0 °F lies above the dry bulb"),
    ("bypass_factor", "67.0 °F", "87.0 °F", "entering: wet bulb: 87.0 °F lies above the dry bulb"),
    ("delivered_capacity", "53.5 °F", "63.5 °F", "leaving: wet bulb: 63.5 °F lies above the dry bulb"),
    ("temperature_split", "63.0 °F", "78.0 °F", "return_wet_bulb: wet bulb: 78.0 °F lies above the dry bulb"),
    ("delivered_capacity", "1150 cfm", "-1150 cfm", "it must be above zero"),
    ("airflow_for_charge", "-0.25 inH2O", "0.25 inH2O", "return static pressure"),
    ("airflow_for_charge", "3 ton", "0 ton", "nominal capacity"),
    ("before_and_after", "93.0 °F", "133.0 °F", "weather and load are allowed for up to"),
    // Faults that cannot be ranked.
    ("fault_ranking", "101.0 psig", "9000.0 psig", "readings.suction_pressure"),
    ("fault_ranking", "10 %", "-10 %", "priors: prior weight of dirty outdoor coil"),
    ("fault_ranking", "1.2 Δ°F", "-1.2 Δ°F", "spreads: spread of a reading of subcooling"),
    // Out of order.
    (
        "vacuum_decay",
        r#""time": "10 min""#,
        r#""time": "2 min""#,
        "the times are out of order: 2 min after 5 min",
    ),
    ("cylinder_tally", "13.0 lb", "15.0 lb", "cylinders[0].weights"),
    ("nitrogen_pressure_test", "14 h", "-14 h", "duration of the test"),
    ("standing_pressure", r#""low": "4 L""#, r#""low": "7 L""#, "the low end"),
    // Gauge where absolute is wanted, and the other way round.
    ("vacuum_decay", r#""306 microns""#, r#""-29.9 psig""#, "psig is a gauge unit"),
    ("leak_size", "314.7 psia", "300 psig", "psig is a gauge unit: add the atmosphere"),
    ("nitrogen_pressure_test", "300.0 psig", "314.7 psia", "psia is read as absolute"),
    ("superheat", r#""unit": "psig""#, r#""unit": "psi""#, "psi alone does not say gauge or absolute"),
    ("test_pressure", "450 psig", "450 psi", "psi alone does not say gauge or absolute"),
    // Below vacuum, beyond range, beyond sense.
    ("nitrogen_pressure_test", "281.5 psig", "-20 psig", "below vacuum cannot be"),
    ("test_pressure", "200.0 psig", "-200.0 psig", "a pressure test is made above the atmosphere"),
    ("test_pressure", "120 °F", "20 °F", "give the temperature at filling, then the hottest"),
    ("insulation_resistance", "38.0 MΩ", "-38.0 MΩ", "it is zero or more"),
    ("insulation_resistance", "20 MΩ", "0 MΩ", "threshold of insulation resistance"),
    ("compressor_current", "17.9 A", "0 A", "rated-load current"),
    ("circuit_sizes", "18 A", "0 A", "loads[0]"),
    ("conductor_voltage_drop", "100 ft", "0 ft", "length of wire"),
    ("conductor_voltage_drop", "12 AWG", "13 AWG", "sizes known are"),
    ("contactor_drop", "0.4 V", "238 V", "a closed pole loses"),
    ("leak_size", "R-454B", "R-454", "did you mean R-454A"),
    ("leak_size", r#""gas": "nitrogen""#, r#""gas": "nitrogn""#, "did you mean nitrogen?"),
    ("leak_size", r#""14.7 psia""#, r#""314.7 psia""#, "nothing flows between equal pressures"),
    ("subcooling", "R-454B", "R-41O", "refrigerant"),
    ("temperature_split", r#""one_thermometer": true"#, r#""one_thermometer": "yes""#, "one_thermometer"),
];

#[test]
fn what_cannot_be_is_refused_and_says_why() {
    let mut wrong = Vec::new();
    for (check, from, to, said) in TABLE {
        let good = example(check).unwrap();
        assert!(good.contains(from), "{check}: {from}");
        match run(check, &good.replacen(from, to, 1)) {
            Ok(finding) => wrong.push(format!("{check}, {from} to {to}: {finding}")),
            Err(error) if error.to_string().contains(said) => {}
            Err(error) => wrong.push(format!("{check}, {from} to {to}: {error}")),
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Relative humidity above 100 %, a dew point above the dry bulb, given as such.
#[test]
fn humidity_that_cannot_be_is_refused() {
    let with = |humidity: &str| {
        let mut input: serde_json::Value = serde_json::from_str(example("bypass_factor").unwrap()).unwrap();
        input["entering"]["humidity"] = serde_json::from_str(humidity).unwrap();
        run("bypass_factor", &input.to_string()).map(|_| ()).unwrap_err().to_string()
    };
    let error = with(r#"{"relative_humidity": {"value": "140 %", "instrument": {"resolution": "1 %"}}}"#);
    assert!(error.starts_with("entering: relative humidity 140 % is out of range"), "{error}");
    let error = with(r#"{"dew_point": {"value": "85 °F", "instrument": {"resolution": "0.1 Δ°F"}}}"#);
    assert!(error.starts_with("entering: dew point: 85.0 °F lies above the dry bulb"), "{error}");
    let error = with(r#"{"wet_bulp": {"value": "67 °F", "instrument": {"resolution": "0.1 Δ°F"}}}"#);
    assert!(error.contains("did you mean wet_bulb?"), "{error}");
}

#[test]
fn every_check_of_these_rooms_stands_in_the_table() {
    let rooms =
        [super::super::air::CHECKS, super::super::electrical::CHECKS, super::super::tightness::CHECKS];
    let names = rooms.into_iter().flatten().map(|entry| entry.name);
    let missing: Vec<&str> = names.filter(|name| !TABLE.iter().any(|(check, ..)| check == name)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}
