//! Capacitors beyond one reading, supply and circuits: laws, findings, and what is refused.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::electrical::*;
use kingvalve::measure::*;
use kingvalve::quantity::*;
use proptest::prelude::*;

const SURE: fn() -> Level = Level::default;

fn dual() -> DualCapacitor {
    DualCapacitor::rated(microfarads(45.0), microfarads(5.0), Tolerance::percent(6.0))
        .policy(Tolerance::percent(10.0))
}

fn fan() -> RunCapacitor {
    *dual().fan()
}

fn voltmeter() -> Instrument<ElectricPotential> {
    Instrument::resolution(volts(0.1)).accuracy_percent_of_reading(1.0).counts(3.0).named("voltmeter")
}

/// 2 % + 5 counts (common practice, no source).
fn clamp(step: f64) -> Instrument<Current> {
    Instrument::resolution(amperes(step)).accuracy_percent_of_reading(2.0).counts(5.0).named("clamp ammeter")
}

fn bench_meter() -> Instrument<Capacitance> {
    Instrument::resolution(microfarads(0.01))
        .accuracy_percent_of_reading(1.0)
        .counts(3.0)
        .named("bench meter")
}

fn read<Q: Quantity>(value: Q, instrument: &Instrument<Q>) -> Reading<Q> {
    Reading::new(value, instrument.clone()).unwrap()
}

#[test]
fn both_sections_of_a_dual_part_are_judged() {
    // Facts of the trade, no source; plain numbers.
    let check =
        dual().under_load((volts(354.4), amperes(5.8)), (volts(371.3), amperes(0.6)), hertz(60.0)).unwrap();
    assert!(check.herm().verdict().is_within() && check.fan().verdict().is_outside() && !check.is_swapped());
    let finding = check.finding().unwrap();
    assert_eq!(finding.verdict(), Some("outside"));
    assert!(finding.next().iter().any(|next| next.starts_with("fan: Replace it with a part of 5 µF")));
    assert!(finding.text().contains("licensed electrician"));
    assert_eq!(finding.cautions(), [Caution::LiveVoltage, Caution::StoredCharge]);
    let error =
        dual().under_load((volts(354.4), amperes(5.8)), (volts(0.0), amperes(0.6)), hertz(60.0)).unwrap_err();
    assert_eq!(error.field(), Some("fan"));
}

#[test]
fn exchanged_sections_condemn_nothing() {
    let check =
        dual().on_bench(read(microfarads(5.02), &bench_meter()), read(microfarads(44.7), &bench_meter()));
    let check = check.unwrap();
    assert!(check.is_swapped());
    let finding = check.finding().unwrap();
    assert_eq!(finding.verdict(), Some("within"));
    assert!(
        finding.text().contains("exchanged") && !finding.next().iter().any(|next| next.contains("Replace"))
    );
    // Two dead sections are no exchange.
    assert!(!dual().on_bench(microfarads(0.0), microfarads(0.0)).unwrap().is_swapped());
}

#[test]
fn a_second_meter_settles_what_repeating_does_not() {
    let (voltmeter, clamp) = (voltmeter(), clamp(0.01));
    let loaded = |amps: f64| {
        fan().under_load(read(volts(371.3), &voltmeter), read(amperes(amps), &clamp), hertz(60.0)).unwrap()
    };
    let twice = fan().combined(&[loaded(0.60), loaded(0.60)]).unwrap();
    assert!(twice.check().unwrap().deciding().is_unresolved());
    // The shared specification error stays: two readings know hardly more than one.
    let doubt = |check: &CapacitorCheck| check.capacitance().standard_uncertainty();
    assert!(doubt(twice.check().unwrap()) > doubt(&loaded(0.60)) * 0.98);
    let bench = fan().on_bench(read(microfarads(4.31), &bench_meter())).unwrap();
    let both = fan().combined(&[loaded(0.60), bench.clone()]).unwrap();
    assert!(both.check().unwrap().deciding().is_outside());
    assert!(doubt(both.check().unwrap()) < doubt(&bench));
    assert_eq!(both.finding().unwrap().check(), "run_capacitor_combined");
}

#[test]
fn readings_that_disagree_speak_of_the_technique() {
    let first = fan().on_bench(read(microfarads(4.95), &bench_meter())).unwrap();
    let second = fan().on_bench(read(microfarads(2.31), &bench_meter())).unwrap();
    let both = fan().combined(&[first, second]).unwrap();
    assert!(both.check().is_none());
    let finding = both.finding().unwrap();
    assert_eq!(finding.verdict(), None);
    assert!(finding.text().contains("the technique, not of the part"));
    let other = dual().herm().on_bench(microfarads(45.0)).unwrap();
    let mine = fan().on_bench(microfarads(5.0)).unwrap();
    let error = fan().combined(&[mine.clone(), other]).unwrap_err();
    assert_eq!((error.is_inconsistent(), error.field()), (true, Some("checks[1]")));
    assert!(fan().combined(&[mine]).unwrap_err().is_out_of_range());
}

#[test]
fn a_voltage_below_the_line_is_noted_once_and_only_where_it_is_firm() {
    let meter = voltmeter();
    let beside = |across: f64, line: f64| {
        let (across, line) = (read(volts(across), &meter), read(volts(line), &meter));
        fan().under_load(&across, amperes(0.7), hertz(60.0)).unwrap().beside_line(&across, &line).unwrap()
    };
    assert_eq!(beside(120.0, 238.0).notes(), [CapacitorNote::VoltageBelowLine]);
    assert!(beside(371.0, 238.0).notes().is_empty());
    assert!(beside(371.0, 238.0).above_line().unwrap().is_within());
    // 238.0 beside 238.0 cannot be told apart.
    assert!(beside(238.0, 238.0).notes().is_empty());
    let twice = beside(120.0, 238.0).beside_line(volts(120.0), volts(238.0)).unwrap();
    assert_eq!(twice.notes().len(), 1);
    let next = twice.finding().unwrap().next().to_vec();
    assert_eq!(next, ["Find out how it was measured before judging the part, then measure again."]);
    assert!(twice.beside_line(volts(120.0), volts(0.0)).unwrap_err().is_out_of_range());
}

#[test]
fn the_bench_has_no_live_voltage_and_an_open_section_is_a_finding() {
    let open = fan().on_bench(microfarads(0.0)).unwrap();
    assert_eq!(open.notes(), [CapacitorNote::NoCapacitance]);
    assert_eq!(open.cautions(), [Caution::StoredCharge]);
    assert!(open.verdict().is_outside() && open.is_low());
    assert!(!fan().on_bench(microfarads(6.0)).unwrap().is_low());
    for bad in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(fan().on_bench(microfarads(bad)).unwrap_err().is_out_of_range());
    }
}

#[test]
fn a_replacement_has_the_capacitance_marked_and_no_less_voltage() {
    let wanted = Replacement::of(&fan(), volts(370.0)).unwrap();
    assert_eq!(wanted.accepts(microfarads(5.0), volts(440.0)), Ok(()));
    assert_eq!(wanted.accepts(microfarads(5.0), volts(330.0)), Err(Unfit::Voltage));
    assert_eq!(wanted.accepts(microfarads(7.5), volts(440.0)), Err(Unfit::Capacitance));
    assert_eq!(wanted.accepts(microfarads(5.0), volts(f64::NAN)), Err(Unfit::Voltage));
    assert_eq!(wanted.standard_voltages().next(), Some(volts(370.0)));
    assert_eq!(wanted.to_string(), "5 µF, ±6 % or tighter, 370 V or higher");
    let part = |c: f64, v: f64, t: f64| StockPart {
        capacitance: microfarads(c),
        voltage: volts(v),
        tolerance: Tolerance::percent(t),
    };
    let stock = [part(5.0, 440.0, 5.0), part(6.0, 370.0, 5.0), part(5.0, 370.0, 10.0), part(5.0, 370.0, 5.0)];
    assert_eq!(wanted.from_stock(&stock), stock.last());
    assert_eq!(wanted.from_stock(&stock[1..3]), None);
    let odd = Replacement::of(&RunCapacitor::rated(microfarads(43.7), Tolerance::percent(6.0)), volts(370.0));
    assert!(!odd.unwrap().is_standard());
    assert!(Replacement::of(&fan(), volts(0.0)).is_err() && Replacement::of(&fan(), volts(3700.0)).is_err());
    assert!(
        STANDARD_CAPACITANCES.is_sorted() && STANDARD_VOLTAGES.is_sorted() && STANDARD_RATINGS.is_sorted()
    );
}

#[test]
fn stored_charge_starts_from_the_peak() {
    let stored = StoredCharge::at(microfarads(45.0), volts(370.0)).unwrap();
    assert!((stored.energy().joules() - 45e-6 * 370.0 * 370.0).abs() < 1e-12); // ½C(√2·V)² = CV²
    let finding = stored.finding(kilohms(15.0)).unwrap();
    assert!(finding.cautions().contains(&Caution::StoredCharge));
    assert!(
        finding.text().contains("523 V") && finding.text().contains("1.6 s to 50 V"),
        "{}",
        finding.text()
    );
    assert!((stored.bleed_power(kilohms(15.0)).unwrap().watts() - 9.1267).abs() < 1e-3);
    assert_eq!(stored.time_to(volts(600.0), kilohms(15.0)).unwrap(), seconds(0.0));
    assert!(stored.bleed_for(volts(600.0), DISCHARGE_TIME).unwrap_err().is_inconsistent());
    assert!(stored.time_to(SAFE_VOLTAGE, ohms(0.0)).is_err());
    assert!(StoredCharge::at(microfarads(0.0), volts(370.0)).is_err());
    assert!(StoredCharge::at(microfarads(45.0), volts(-370.0)).is_err());
}

#[test]
fn classes_are_read_and_refused_with_those_known() {
    assert_eq!("p1".parse::<SafetyClass>().unwrap().to_string(), "S1");
    assert!("S9".parse::<SafetyClass>().unwrap_err().is_unknown_name());
    assert!("E".parse::<OperatingClass>().unwrap_err().is_unknown_name());
}

#[test]
fn a_supply_is_judged_running_and_starting() {
    let supply = Supply::rated(volts(230.0));
    let running = supply.running(volts(228.0), volts(204.0)).unwrap();
    assert!(running.verdict().is_outside() && running.voltage_verdict().unwrap().is_outside());
    let finding = running.finding().unwrap();
    assert!(finding.next().iter().any(|next| next.contains("licensed electrician")));
    let starting = supply.starting(volts(240.0), volts(215.0)).unwrap();
    assert!(starting.verdict().is_within() && starting.voltage_verdict().is_none());
    // A voltage that rises under load is no sag, and within.
    assert!(supply.starting(volts(240.0), volts(241.0)).unwrap().verdict().is_within());
    assert!(supply.running(volts(0.0), volts(204.0)).unwrap_err().is_out_of_range());
    assert!(supply.starting(volts(240.0), volts(f64::NAN)).is_err());
    assert!(supply.sagging_at_most(percent(0.0), percent(15.0)).running(volts(240.0), volts(230.0)).is_err());
    assert!(Supply::rated(volts(-1.0)).running(volts(240.0), volts(230.0)).is_err());
}

#[test]
fn unbalance_of_one_meter_is_better_known_than_its_voltages() {
    let meter = Instrument::resolution(volts(0.1)).accuracy_percent_of_reading(1.0);
    let found = Unbalance::of(
        read(volts(460.0), &meter),
        read(volts(467.0), &meter),
        read(volts(450.0), &meter),
        SURE(),
    );
    let found = found.unwrap();
    assert!(found.verdict().is_outside() && found.stop_verdict().is_within());
    // The 1 % cancels; what is left is the step, 0.029 V in 459 V, here by √6/3.
    let expected = 0.1 / 12f64.sqrt() / 459.0 * (6f64.sqrt() / 3.0);
    assert!((found.unbalance().standard_uncertainty().fraction() / expected - 1.0).abs() < 0.05);
    assert!(found.average().standard_uncertainty() > volts(2.0));
    let gone = Unbalance::of(volts(460.0), volts(240.0), volts(230.0), SURE()).unwrap_err();
    assert!(gone.to_string().contains("a phase is lost"), "{gone}");
    assert!(Unbalance::of(volts(0.0), volts(460.0), volts(460.0), SURE()).is_err());
    assert!(Unbalance::against(percent(6.0), volts(460.0), volts(460.0), volts(460.0), SURE()).is_err());
    let bad = Unbalance::of(volts(400.0), volts(460.0), volts(460.0), SURE()).unwrap();
    assert!(bad.derating().is_none() && bad.stop_verdict().is_outside());
    assert!(bad.finding().unwrap().next().iter().any(|next| next.starts_with("Do not run")));
}

#[test]
fn a_circuit_follows_the_plate_where_there_is_one() {
    let unit = Circuit::of(vec![Load::compressor(amperes(18.0)), Load::Motor(amperes(1.5))]).unwrap();
    let found = Installed { conductor_ampacity: amperes(24.0), protection: amperes(40.0) };
    let check = unit.check(&found, None).unwrap();
    assert!(check.conductor_verdict().is_within() && check.protection_verdict().is_within());
    let plate = Plate { minimum_ampacity: amperes(25.1), maximum_protection: amperes(35.0) };
    let check = unit.check(&found, Some(&plate)).unwrap();
    assert!(check.conductor_verdict().is_outside() && check.protection_verdict().is_outside());
    let finding = check.finding().unwrap();
    assert_eq!(finding.verdict(), Some("outside"));
    assert!(finding.text().contains("does not suit the minimum circuit ampacity, data plate of 25.1 A"));
    assert!(Circuit::of(Vec::new()).unwrap_err().is_inconsistent());
    let error = Circuit::of(vec![Load::Motor(amperes(1.0)), Load::Other(amperes(0.0))]).unwrap_err();
    assert_eq!(error.field(), Some("loads[1]"));
    let heater = Circuit::of(vec![Load::compressor(amperes(8.0)), Load::Other(amperes(40.0))]).unwrap();
    assert_eq!(heater.minimum_ampacity(), amperes(50.0)); // 8 + 40 + a quarter of the motor's 8
    assert!(heater.maximum_protection(LARGEST_SHARE).unwrap_err().is_inconsistent());
    assert!(unit.maximum_protection(percent(250.0)).unwrap_err().is_out_of_range());
    let small = Circuit::of(vec![Load::compressor(amperes(3.0))]).unwrap();
    assert_eq!(small.maximum_protection(FIRST_CHOICE).unwrap().standard, amperes(15.0));
}

#[test]
fn wire_is_known_by_its_gauge() {
    for text in ["12", "12 AWG", "#12", " 12 awg "] {
        assert_eq!(text.parse::<WireSize>().unwrap().to_string(), "12 AWG");
    }
    assert!("13".parse::<WireSize>().unwrap_err().is_unreadable());
    let six: WireSize = "6".parse().unwrap();
    assert!(Conductor::copper(six).solid().resistance(feet(10.0)).unwrap_err().is_inconsistent());
    assert!(Conductor::copper(six).resistance(feet(0.0)).unwrap_err().is_out_of_range());
    assert!(Conductor::copper(six).resistance_at(feet(10.0), celsius(200.0)).is_err());
    let [copper, aluminum] = [Conductor::copper(six), Conductor::aluminum(six)];
    assert!(aluminum.resistance(feet(10.0)).unwrap() > copper.resistance(feet(10.0)).unwrap());
    let along = |current: f64, supply: f64| {
        let wire = Conductor::copper(six);
        let (current, supply) = (amperes(current), volts(supply));
        VoltageDrop::along(&wire, feet(80.0), Phases::Single, current, supply, CONDUCTOR_DROP, SURE())
    };
    assert!(along(24.0, 240.0).unwrap().finding().unwrap().verdict() == Some("within"));
    assert!(along(-1.0, 240.0).is_err() && along(24.0, 0.0).is_err());
}

#[test]
fn compressor_contactor_insulation_and_power_have_findings() {
    let current = CompressorCurrent::of(amperes(21.0), amperes(17.9), SURE()).unwrap().finding().unwrap();
    assert_eq!(current.verdict(), Some("outside"));
    assert!(current.next().iter().any(|next| next.contains("run capacitor")));
    let pole =
        ContactorDrop::of(volts(0.2), volts(240.0), CONTACTOR_DROP, SURE()).unwrap().finding().unwrap();
    assert_eq!(pole.verdict(), Some("within"));
    let open = ContactorDrop::of(volts(238.0), volts(240.0), CONTACTOR_DROP, SURE()).unwrap_err();
    assert!(open.to_string().contains("pulled in"));
    let low = Insulation::of(megohms(0.4), megohms(2.0), "the maker", SURE()).unwrap().finding().unwrap();
    assert_eq!(low.verdict(), Some("outside"));
    assert!(low.next().iter().any(|next| next.contains("never on a compressor in vacuum")));
    assert!(Insulation::of(megohms(-0.4), megohms(2.0), "the maker", SURE()).is_err());
    assert!(Insulation::of(megohms(1.0), megohms(0.0), "the maker", SURE()).is_err());
    assert!(corrected_to_40_celsius(megohms(1.0), celsius(140.0)).is_err());
    let impossible =
        PowerFactor::of(watts(3000.0), volts(240.0), amperes(10.0), Phases::Single, SURE()).unwrap();
    assert!(impossible.finding().unwrap().text().contains("speaks of the technique"));
    assert!(PowerFactor::of(watts(100.0), volts(240.0), amperes(0.0), Phases::Single, SURE()).is_err());
    assert!(apparent_power(volts(-240.0), amperes(1.0), Phases::Single).is_err());
    assert!(real_power(volts(240.0), amperes(1.0), percent(101.0), Phases::Single).is_err());
    let three = apparent_power(volts(460.0), amperes(10.0), Phases::Three).unwrap();
    assert!((three.watts() - 7967.43).abs() < 0.01);
    for finding in [current, pole, low] {
        assert!(finding.text().ends_with("this is arithmetic on readings."));
        assert!(finding.cautions().contains(&Caution::LiveVoltage) && !finding.sources().is_empty());
    }
}

#[test]
fn columns_must_match_and_instruments_must_be_possible() {
    let rows = fan().rows(&voltmeter(), &clamp(0.01), hertz(60.0)).unwrap();
    let mut out = [CapacitorRow::NONE; 2];
    let error = rows.judge(&[volts(370.0)], &[amperes(0.6)], &mut out).unwrap_err();
    assert!(error.is_inconsistent());
    assert!(fan().rows(&voltmeter(), &clamp(0.0), hertz(60.0)).is_err()); // a resolution of zero
    assert!(fan().rows(&voltmeter(), &clamp(0.01), hertz(400.0)).is_err());
}

proptest! {
    #[test]
    fn columns_say_what_single_checks_say(v in 50.0..450.0_f64, i in 0.0..3.0_f64, step in 0.001..0.2_f64) {
        let (voltmeter, clamp) = (voltmeter(), clamp(step));
        let check = fan().under_load(read(volts(v), &voltmeter), read(amperes(i), &clamp), hertz(60.0)).unwrap();
        let mut out = [CapacitorRow::NONE];
        let rows = fan().rows(&voltmeter, &clamp, hertz(60.0)).unwrap();
        rows.judge(&[volts(v)], &[amperes(i)], &mut out).unwrap();
        let [row] = out;
        let judgement = check.deciding().judgement();
        prop_assert!((row.below - judgement.probability_below().fraction()).abs() < 1e-9);
        prop_assert!((row.above - judgement.probability_above().fraction()).abs() < 1e-9);
        let apart = row.capacitance - check.capacitance().value();
        prop_assert!(apart.abs() <= row.capacitance * 1e-12);
        let doubt = check.capacitance().standard_uncertainty();
        prop_assert!((row.standard_uncertainty / doubt - 1.0).abs() < 1e-9);
        let name = match row.verdict {
            RowVerdict::Within => "within",
            RowVerdict::Below | RowVerdict::Above => "outside",
            RowVerdict::Unresolved => "unresolved",
            RowVerdict::Unusable => "unusable",
        };
        let near = (row.below - 0.95).abs().min((row.above - 0.95).abs()).min((row.below + row.above - 0.05).abs());
        prop_assert!(name == check.deciding().name() || near < 1e-9);
    }

    #[test]
    fn a_coarser_meter_never_settles_what_a_finer_one_leaves_open(
        v in 300.0..420.0_f64, i in 0.3..1.0_f64, fine in 0.001..0.1_f64, coarser in 1.0..50.0_f64,
    ) {
        let judge = |step: f64| {
            let read = read(amperes(i), &clamp(step));
            fan().under_load(volts(v), read, hertz(60.0)).unwrap().deciding().is_unresolved()
        };
        prop_assert!(!judge(fine) || judge(fine * coarser));
    }

    #[test]
    fn sections_are_alike(a in 1.0..60.0_f64, b in 1.0..60.0_f64, x in 0.0..70.0_f64, y in 0.0..70.0_f64) {
        let tolerance = Tolerance::percent(6.0);
        let one = DualCapacitor::rated(microfarads(a), microfarads(b), tolerance);
        let other = DualCapacitor::rated(microfarads(b), microfarads(a), tolerance);
        let one = one.on_bench(microfarads(x), microfarads(y)).unwrap();
        let other = other.on_bench(microfarads(y), microfarads(x)).unwrap();
        prop_assert_eq!(one.is_swapped(), other.is_swapped());
        prop_assert_eq!(one.herm().verdict().name(), other.fan().verdict().name());
        prop_assert_eq!(one.fan().verdict().name(), other.herm().verdict().name());
    }

    #[test]
    fn unbalance_does_not_depend_on_the_order_or_the_scale(
        a in 440.0..480.0_f64, b in 440.0..480.0_f64, c in 440.0..480.0_f64, scale in 0.3..1.5_f64,
    ) {
        let of = |a: f64, b: f64, c: f64| {
            Unbalance::of(volts(a), volts(b), volts(c), SURE()).unwrap().unbalance().value().fraction()
        };
        let first = of(a, b, c);
        prop_assert!((of(c, a, b) - first).abs() < 1e-12 && (of(b, a, c) - first).abs() < 1e-12);
        prop_assert!((of(a * scale, b * scale, c * scale) - first).abs() < 1e-12);
    }

    #[test]
    fn derating_falls_as_unbalance_grows(a in 0.0..5.0_f64, b in 0.0..5.0_f64) {
        let at = |p: f64| Unbalance::derating_at(percent(p)).unwrap();
        prop_assert!(at(a.min(b)) >= at(a.max(b)));
    }

    #[test]
    fn protection_is_standard_and_not_above_what_was_computed(
        rla in 9.0..400.0_f64, fan in 0.1..8.0_f64, share in 175.0..225.0_f64,
    ) {
        let unit = Circuit::of(vec![Load::compressor(amperes(rla)), Load::Motor(amperes(fan))]).unwrap();
        let found = unit.maximum_protection(percent(share)).unwrap();
        prop_assert!(found.standard <= found.calculated * (1.0 + 1e-9) && STANDARD_RATINGS.contains(&found.standard));
        let next = STANDARD_RATINGS.into_iter().find(|rating| *rating > found.standard).unwrap();
        prop_assert!(next > found.calculated);
        prop_assert!(unit.minimum_ampacity() < found.calculated);
    }

    #[test]
    fn wire_rows_hold_to_ohms_law(current in 0.0..200.0_f64, length in 1.0..500.0_f64) {
        let (wire, i, l) = (Conductor::copper("2/0".parse().unwrap()), amperes(current), feet(length));
        let drop = |phases| VoltageDrop::along(&wire, l, phases, i, volts(480.0), CONDUCTOR_DROP, SURE()).unwrap();
        let along = |phases| drop(phases).drop().value();
        let one_way = i * wire.resistance(l).unwrap();
        prop_assert!((along(Phases::Single) - one_way * 2.0).abs() < volts(1e-9));
        prop_assert!((along(Phases::Three) - one_way * 3f64.sqrt()).abs() < volts(1e-9));
    }
}
