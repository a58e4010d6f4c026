//! Targets: laws, edges with reading doubt, preconditions, and columns held to single readings.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::air::{AirflowCheck, usual_airflow_per_ton};
use kingvalve::cycle::target::*;
use kingvalve::measure::*;
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use proptest::prelude::*;

fn read(value: f64, standard: f64) -> Measured<TemperatureDifference> {
    Measured::from_standard(delta_fahrenheit(value), delta_fahrenheit(standard), "reading").unwrap()
}

fn given(value: f64) -> Target {
    Target::given(delta_fahrenheit(value), "data plate").unwrap()
}

fn superheat(value: f64, standard: f64, target: f64) -> TargetCheck {
    let actual = read(value, standard);
    TargetCheck::superheat(actual, &given(target), &ChargeTolerance::default(), Level::default()).unwrap()
}

fn subcooling(value: f64, standard: f64, target: f64) -> TargetCheck {
    let actual = read(value, standard);
    TargetCheck::subcooling(actual, &given(target), &ChargeTolerance::default(), Level::default()).unwrap()
}

fn name(check: &TargetCheck) -> &'static str {
    check.verdict().unwrap().name()
}

/// At the limit itself with no doubt: within. Just past it: outside. With doubt: open on both sides of it.
#[test]
fn published_limits_hold_at_and_beside_their_edges() {
    for (edge, check) in [(5.0, superheat as fn(f64, f64, f64) -> TargetCheck), (3.0, subcooling)] {
        for sign in [1.0, -1.0] {
            let at = |distance: f64, u: f64| name(&check(20.0 + sign * distance, u, 20.0));
            assert_eq!(at(edge - 1e-9, 0.0), "within");
            assert_eq!(at(edge + 1e-6, 0.0), "outside");
            assert_eq!(at(edge - 0.5, 1.0), "unresolved");
            assert_eq!(at(edge + 0.5, 1.0), "unresolved");
            assert_eq!(at(edge + 1.7, 1.0), "outside"); // 1.645 u past the limit
            assert_eq!(at(edge - 1.7, 1.0), "within");
        }
    }
    let valve = |superheat: f64, u: f64| {
        let (usual, level) = (ChargeTolerance::default(), Level::default());
        let check =
            subcooling(10.0, 0.0, 10.0).with_valve_superheat(read(superheat, u), &usual, level).unwrap();
        check.valve_verdict().unwrap().name()
    };
    assert_eq!(
        [valve(4.0 + 1e-9, 0.0), valve(25.0 - 1e-9, 0.0), valve(3.999, 0.0)],
        ["within", "within", "outside"]
    );
    assert_eq!(
        [valve(4.5, 1.0), valve(24.5, 1.0), valve(26.7, 1.0)],
        ["unresolved", "unresolved", "outside"]
    );
}

#[test]
fn a_shops_own_limits_take_the_place_of_any() {
    let own =
        Limits::between(delta_fahrenheit(-1.0), delta_fahrenheit(1.0)).unwrap().from_source("shop policy");
    let shop = ChargeTolerance { subcooling: own, ..ChargeTolerance::default() };
    let check = TargetCheck::subcooling(read(12.0, 0.0), &given(10.0), &shop, Level::default()).unwrap();
    assert!(check.verdict().unwrap().is_outside() && check.to_string().contains("shop policy"));
    assert_eq!(name(&subcooling(12.0, 0.0, 10.0)), "within");
    let parsed: ChargeTolerance =
        serde_json::from_str(r#"{"superheat": {"lower": "-4 Δ°F", "upper": "4 Δ°F"}}"#).unwrap();
    assert_eq!(parsed.subcooling, ChargeTolerance::default().subcooling);
}

#[test]
fn a_negative_superheat_is_a_finding_with_its_doubt() {
    assert_eq!(superheat(-0.8, 1.0, 10.0).notes(), [TargetNote::SuperheatNearZero]);
    assert_eq!(superheat(-5.0, 1.0, 10.0).notes(), [TargetNote::Floodback]);
    assert!(superheat(0.5, 1.0, 10.0).notes().is_empty());
    let finding = superheat(-5.0, 1.0, 10.0).finding().unwrap();
    assert!(finding.text().contains("liquid reaches the compressor"), "{}", finding.text());
    assert!(finding.next()[0].contains("probe contact"));
}

#[test]
fn subcooling_of_a_system_nearly_empty_is_a_finding() {
    let check = subcooling(-4.0, 1.0, 10.0);
    assert_eq!(check.notes(), [TargetNote::NoLiquid]);
    assert!(check.next()[0].contains("standing pressure") && check.verdict().unwrap().is_outside());
    assert_eq!(subcooling(0.0, 1.0, 10.0).notes(), [TargetNote::SubcoolingNearZero]);
}

#[test]
fn below_five_degrees_there_is_no_test() {
    assert!(orifice_superheat(fahrenheit(60.0), fahrenheit(91.0)).unwrap_err().is_out_of_range());
    let low = Target::by_formula(fahrenheit(60.0), fahrenheit(91.0)).unwrap();
    let tolerance = ChargeTolerance::default();
    let check = TargetCheck::superheat(read(5.0, 0.5), &low, &tolerance, Level::default()).unwrap();
    assert!(check.verdict().is_none());
    assert_eq!(check.unmet()[0].condition(), Condition::Target);
    let finding = check.finding().unwrap();
    assert!(finding.verdict().is_none() && finding.text().contains("Not judged"), "{}", finding.text());
    // A target of 5.5 °F of which the wet bulb leaves 1.5 °F in doubt is not shown to be testable either.
    let wet = Measured::from_standard(fahrenheit(62.0), delta_fahrenheit(1.0), "wet bulb").unwrap();
    let doubtful = Target::by_formula(wet, fahrenheit(95.0)).unwrap();
    assert_eq!(format!("{:.1}", doubtful.value().value()), "5.5 Δ°F");
    let check = TargetCheck::superheat(read(5.5, 0.5), &doubtful, &tolerance, Level::default()).unwrap();
    assert!(check.verdict().is_none());
}

#[test]
fn an_outdoor_temperature_outside_formula_or_chart_is_an_error() {
    for (wet, dry) in [(67.0, 54.0), (67.0, 116.0), (49.0, 80.0), (77.0, 80.0), (f64::NAN, 80.0)] {
        let error = orifice_superheat(fahrenheit(wet), fahrenheit(dry)).unwrap_err();
        assert!(error.is_out_of_range(), "{error}");
    }
    let chart: ChargingChart = serde_json::from_str(
        r#"{"outdoor": ["70 °F", "90 °F"], "indoor": ["60 °F", "70 °F"],
            "targets": [["14 Δ°F", "28 Δ°F"], ["5 Δ°F", "20 Δ°F"]], "source": "invented chart"}"#,
    )
    .unwrap();
    let error = chart.target(fahrenheit(95.0), fahrenheit(65.0)).unwrap_err().to_string();
    assert!(
        error.contains("outdoor temperature 95 °F is out of range: the chart runs from 70 °F to 90 °F"),
        "{error}"
    );
}

fn conditions() -> Conditions {
    let flow = Measured::from_standard(cfm(1200.0), cfm(10.0), "flow").unwrap();
    let airflow =
        AirflowCheck::of(flow, tons_of_refrigeration(3.0), usual_airflow_per_ton(), Level::default())
            .unwrap();
    Conditions {
        mode: Mode::Cooling,
        running: minutes(15.0),
        outdoor: Measured::from_standard(fahrenheit(95.0), delta_fahrenheit(0.5), "air").unwrap(),
        indoor: Some(Measured::from_standard(fahrenheit(76.0), delta_fahrenheit(0.5), "air").unwrap()),
        airflow: Some(airflow),
    }
}

#[test]
fn each_precondition_comes_back_as_a_reason() {
    let usual = Requirements::usual();
    let unmet = |change: &dyn Fn(&mut Conditions)| {
        let mut now = conditions();
        change(&mut now);
        let check = superheat(14.0, 0.5, 13.0).under(&usual, &now).unwrap();
        assert_eq!(check.verdict().is_none(), !check.unmet().is_empty());
        assert_eq!(check.finding().unwrap().verdict().is_none(), !check.unmet().is_empty());
        check.unmet().iter().map(Unmet::condition).collect::<Vec<_>>()
    };
    assert_eq!(unmet(&|_| {}), []);
    assert_eq!(unmet(&|c| c.mode = Mode::Heating), [Condition::Cooling]);
    assert_eq!(unmet(&|c| c.running = minutes(14.9)), [Condition::Settled]);
    assert_eq!(unmet(&|c| c.airflow = None), [Condition::Airflow]);
    assert_eq!(unmet(&|c| c.indoor = None), [Condition::IndoorLoad]);
    assert_eq!(unmet(&|c| c.indoor = Some(Measured::exact(fahrenheit(66.0)))), [Condition::IndoorLoad]);
    assert_eq!(unmet(&|c| c.outdoor = Measured::exact(fahrenheit(54.0))), [Condition::OutdoorAir]);
    assert_eq!(unmet(&|c| c.outdoor = Measured::exact(fahrenheit(55.0))), []);
    // 55.2 °F with half a degree of doubt is not shown to be warm enough.
    let doubtful = Measured::from_standard(fahrenheit(55.2), delta_fahrenheit(0.5), "air").unwrap();
    assert_eq!(unmet(&move |c| c.outdoor = doubtful.clone()), [Condition::OutdoorAir]);
    let heating = Conditions { mode: Mode::Heating, ..conditions() };
    let check = superheat(14.0, 0.5, 13.0).under(&usual, &heating).unwrap();
    assert!(check.next()[0].contains("weigh the charge in"));
}

fn kit() -> ChargeInstruments {
    ChargeInstruments {
        gauge: Instrument::resolution(psi(0.1)).accuracy_percent_of_reading(0.5).accuracy(psi(0.4)),
        thermometer: Instrument::resolution(delta_fahrenheit(0.1))
            .accuracy_percent_of_reading(0.3)
            .accuracy(delta_fahrenheit(0.5)),
    }
}

/// The row judged as one would judge its readings singly, each read on an instrument of its own.
fn singly(r: &Refrigerant, valve: Option<f64>, row: [f64; 6]) -> Option<TargetCheck> {
    let site = Site::sea_level();
    let [p, t, q, u, wet, dry] = row;
    let gauge = |p: f64| Reading::new(psig(p), kit().gauge).unwrap();
    let air = |t: f64| Reading::new(fahrenheit(t), kit().thermometer).unwrap();
    let (usual, level) = (ChargeTolerance::default(), Level::default());
    match valve {
        None => {
            let superheat = r.superheat(site.absolute(&gauge(p)).ok()?, &air(t)).ok()?;
            let target = Target::by_formula(air(wet), air(dry)).ok()?;
            TargetCheck::superheat(superheat, &target, &usual, level).ok()
        }
        Some(plate) => {
            let subcooling = r.subcooling(site.absolute(&gauge(q)).ok()?, &air(u)).ok()?;
            TargetCheck::subcooling(subcooling, &given(plate), &usual, level).ok()
        }
    }
}

fn code(check: Option<&TargetCheck>) -> RowVerdict {
    let Some(verdict) = check.and_then(TargetCheck::verdict) else { return RowVerdict::Unusable };
    let judgement = verdict.judgement();
    match verdict {
        Verdict::Within(_) => RowVerdict::Within,
        Verdict::Unresolved(_) => RowVerdict::Unresolved,
        Verdict::Outside(_) if judgement.probability_below() > judgement.probability_above() => {
            RowVerdict::Below
        }
        Verdict::Outside(_) => RowVerdict::Above,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Columns say what single readings say.
    #[test]
    fn rows_equal_single_readings(
        p in 60.0..180.0f64, t in 30.0..90.0f64, q in 250.0..480.0f64, u in 80.0..130.0f64,
        wet in 48.0..78.0f64, dry in 52.0..118.0f64, orifice: bool,
    ) {
        let r = Refrigerant::named("R-410A").unwrap();
        let site = Site::sea_level();
        let (kit, usual, level) = (kit(), ChargeTolerance::default(), Level::default());
        let plate = (!orifice).then_some(10.0);
        let rows = match plate {
            None => ChargeRows::orifice(&r, &site, &kit, &usual, level).unwrap(),
            Some(plate) => ChargeRows::valve(&r, &site, &kit, delta_fahrenheit(plate), &usual, level).unwrap(),
        };
        let mut out = [ChargeRow::NONE];
        rows.judge(&ChargeColumns {
            suction_pressure: &[psig(p)], suction_line: &[fahrenheit(t)],
            liquid_pressure: &[psig(q)], liquid_line: &[fahrenheit(u)],
            indoor_wet_bulb: &[fahrenheit(wet)], outdoor: &[fahrenheit(dry)],
        }, &mut out).unwrap();
        let check = singly(&r, plate, [p, t, q, u, wet, dry]);
        prop_assert_eq!(out[0].verdict, code(check.as_ref()));
        if let Some(check) = check.filter(|check| check.verdict().is_some()) {
            let row = out[0];
            let actual = if orifice { row.superheat } else { row.subcooling };
            prop_assert!((actual - check.actual().value()).abs() < delta_kelvins(1e-9));
            prop_assert!((row.target - check.target().value().value()).abs() < delta_kelvins(1e-9));
            let standard = check.distance().standard_uncertainty();
            prop_assert!((row.standard_uncertainty - standard).abs() < delta_kelvins(1e-9));
        }
    }

    /// A wider doubt never makes a verdict firmer.
    #[test]
    fn more_doubt_never_decides(value in -5.0..40.0f64, u in 0.1..3.0f64, wider in 1.0..4.0f64) {
        let (fine, coarse) = (superheat(value, u, 12.0), superheat(value, u * wider, 12.0));
        if fine.verdict().unwrap().is_unresolved() {
            prop_assert!(coarse.verdict().unwrap().is_unresolved());
        }
    }

    /// Warmer and wetter indoors raises the target, hotter outdoors lowers it.
    #[test]
    fn the_formula_leans_the_right_way(wet in 62.0..75.0f64, dry in 55.0..90.0f64, step in 0.1..1.0f64) {
        let at = |wet: f64, dry: f64| orifice_superheat(fahrenheit(wet), fahrenheit(dry)).unwrap();
        prop_assert!(at(wet + step, dry) > at(wet, dry) && at(wet, dry + step) < at(wet, dry));
    }
}

#[test]
fn rows_of_nothing_are_unusable_and_columns_of_unequal_length_an_error() {
    let r = Refrigerant::named("R-454B").unwrap();
    let rows =
        ChargeRows::orifice(&r, &Site::sea_level(), &kit(), &ChargeTolerance::default(), Level::default())
            .unwrap();
    let good = [118.0, 54.0, 340.0, 98.0, 67.0, 95.0];
    for missing in 0..6 {
        let mut row = good;
        row[missing] = f64::NAN;
        let [p, t, q, u, wet, dry] = row;
        let mut out = [ChargeRow::NONE];
        let columns = ChargeColumns {
            suction_pressure: &[psig(p)],
            suction_line: &[fahrenheit(t)],
            liquid_pressure: &[psig(q)],
            liquid_line: &[fahrenheit(u)],
            indoor_wet_bulb: &[fahrenheit(wet)],
            outdoor: &[fahrenheit(dry)],
        };
        rows.judge(&columns, &mut out).unwrap();
        // The liquid side is not part of the verdict on superheat.
        assert_eq!(out[0].verdict == RowVerdict::Unusable, missing != 2 && missing != 3, "{missing}");
        assert_eq!(out[0].subcooling.is_finite(), missing != 2 && missing != 3);
        assert_eq!(out[0].superheat.is_finite(), missing > 1);
        let short = ChargeColumns { outdoor: &[], ..columns };
        assert!(rows.judge(&short, &mut out).unwrap_err().is_inconsistent());
    }
}
