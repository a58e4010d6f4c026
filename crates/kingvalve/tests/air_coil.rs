//! Airflow, capacity, bypass and split: laws, exact derivatives, and what is refused.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::Result;
use kingvalve::air::*;
use kingvalve::measure::{Known, Measured};
use kingvalve::quantity::*;
use proptest::prelude::*;

/// Airflow in cfm, return dry and wet bulb, supply dry and wet bulb in °F.
type Readings = [f64; 5];

fn readings() -> impl Strategy<Value = Readings> {
    (500.0..2000.0f64, 70.0..84.0f64, 8.0..14.0f64, 16.0..24.0f64, 0.8..2.5f64).prop_map(
        |(flow, dry, below, split, close)| [flow, dry, dry - below, dry - split, dry - split - close],
    )
}

/// Whether what each reading adds to the doubt of `f` is what moving that reading by a little moves it.
fn doubt_is_exact<Q: Quantity>(
    at: Readings,
    plain: impl Fn(Readings) -> Result<Q>,
    doubtful: impl Fn(Readings, Readings) -> Result<Measured<Q>>,
) -> Result<(), TestCaseError> {
    for reading in 0..at.len() {
        let mut u = [0.0; 5];
        u[reading] = 1.0;
        let Ok(carried) = doubtful(at, u) else { return Err(TestCaseError::reject("no such coil")) };
        let carried = carried.standard_uncertainty().base();
        let step = 1e-5 * at[reading];
        let moved = |steps: f64| {
            let mut x = at;
            x[reading] += steps * step;
            plain(x).map(Quantity::base)
        };
        let [Ok(far_down), Ok(down), Ok(up), Ok(far_up)] = [-2.0, -1.0, 1.0, 2.0].map(moved) else {
            return Err(TestCaseError::reject("no such coil"));
        };
        // The five-point difference: near a tangent the one of two points is off by more than what is asked.
        let slope = ((8.0 * (up - down) - (far_up - far_down)) / (12.0 * step)).abs();
        let scale = up.abs() * 1e-7;
        prop_assert!((carried - slope).abs() <= 2e-4 * slope + scale, "{reading}: {carried} {slope}");
    }
    Ok(())
}

fn warm(t: f64, u: f64) -> Measured<Temperature> {
    Measured::from_standard(fahrenheit(t), delta_fahrenheit(u), "probe").unwrap()
}

fn flow(v: f64, u: f64) -> Measured<VolumeFlow> {
    Measured::from_standard(cfm(v), cfm(u), "flow").unwrap()
}

fn heat(q: f64, u: f64) -> Measured<Power> {
    Measured::from_standard(btu_per_hour(q), btu_per_hour(u), "heat").unwrap()
}

fn state(dry: impl Known<Temperature>, wet: impl Known<Temperature>) -> Result<MoistAir> {
    MoistAir::from_wet_bulb(dry.value(), wet.value(), &Site::sea_level())
}

fn capacity([v, t1, w1, t2, w2]: Readings, at: FlowAt) -> Result<Capacity> {
    let (back, supply) = (state(fahrenheit(t1), fahrenheit(w1))?, state(fahrenheit(t2), fahrenheit(w2))?);
    delivered(cfm(v), at, &back, &supply)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, max_global_rejects: 20_000, ..ProptestConfig::default() })]

    #[test]
    fn sensible_and_latent_sum_to_the_enthalpy_given_up(at in readings()) {
        let (back, supply) = (state(fahrenheit(at[1]), fahrenheit(at[2])).unwrap(), state(fahrenheit(at[3]), fahrenheit(at[4])).unwrap());
        let found = delivered(cfm(at[0]), FlowAt::Entering, &back, &supply).unwrap();
        let mass = cfm(at[0]).cubic_meters_per_second() / back.specific_volume().cubic_meters_per_kilogram();
        let by_enthalpy = mass * (back.enthalpy() - supply.enthalpy()).joules_per_kilogram();
        prop_assert!((found.total().watts() - by_enthalpy).abs() < 1e-8 * by_enthalpy.abs() + 1e-6);
        let sum = *found.sensible() + *found.latent();
        prop_assert!((sum - *found.total()).abs() < watts(1e-6));
    }

    #[test]
    fn capacity_is_near_the_trade_formula(at in readings()) {
        let found = capacity(at, FlowAt::Entering).unwrap();
        let rough = StandardAir::default().sensible(cfm(at[0]), delta_fahrenheit(at[1] - at[3]));
        prop_assert!((*found.sensible() / rough - 1.0).abs() < 0.06, "{found} {rough}");
    }

    #[test]
    fn derivatives_of_capacity_are_exact(at in readings(), leaving in any::<bool>()) {
        let place = if leaving { FlowAt::Leaving } else { FlowAt::Entering };
        let doubtful = |at: Readings, u: Readings| {
            let site = Site::sea_level();
            let back = MoistAir::from_wet_bulb(warm(at[1], u[1]), warm(at[2], u[2]), &site)?;
            let supply = MoistAir::from_wet_bulb(warm(at[3], u[3]), warm(at[4], u[4]), &site)?;
            delivered(flow(at[0], u[0]), place, &back, &supply)
        };
        doubt_is_exact(at, |at| Ok(*capacity(at, place)?.total()), |at, u| Ok(doubtful(at, u)?.total().clone()))?;
        doubt_is_exact(at, |at| Ok(*capacity(at, place)?.sensible()), |at, u| Ok(doubtful(at, u)?.sensible().clone()))?;
        doubt_is_exact(at, |at| Ok(*capacity(at, place)?.latent()), |at, u| Ok(doubtful(at, u)?.latent().clone()))?;
    }

    #[test]
    fn derivatives_of_bypass_are_exact_and_the_coil_is_on_the_line(at in readings()) {
        let plain = |at: Readings| bypass(&state(fahrenheit(at[1]), fahrenheit(at[2]))?, &state(fahrenheit(at[3]), fahrenheit(at[4]))?);
        let doubtful = |at: Readings, u: Readings| {
            let site = Site::sea_level();
            let back = MoistAir::from_wet_bulb(warm(at[1], u[1]), warm(at[2], u[2]), &site)?;
            let supply = MoistAir::from_wet_bulb(warm(at[3], u[3]), warm(at[4], u[4]), &site)?;
            bypass(&back, &supply)
        };
        let Ok(coil) = plain(at) else { return Err(TestCaseError::reject("dry, or misses saturation")) };
        // Near a tangent the answer runs away with the readings: no finite difference is small there.
        prop_assume!(coil.factor().fraction() < 0.4);
        let (factor, adp) = (coil.factor().fraction(), *coil.apparatus_dew_point());
        let (back, supply) = (state(fahrenheit(at[1]), fahrenheit(at[2])).unwrap(), state(fahrenheit(at[3]), fahrenheit(at[4])).unwrap());
        let cold = MoistAir::saturated(adp, &Site::sea_level()).unwrap();
        let mixed = |a: f64, b: f64| factor * a + (1.0 - factor) * b;
        prop_assert!((mixed(at[1], adp.fahrenheit()) - at[3]).abs() < 1e-7);
        let [w1, w2, w] = [back, supply, cold].map(|air| air.humidity_ratio().kilograms_per_kilogram());
        prop_assert!((mixed(w1, w) - w2).abs() < 1e-9);
        doubt_is_exact(at, |at| Ok(*plain(at)?.factor()), |at, u| Ok(doubtful(at, u)?.factor().clone()))?;
        doubt_is_exact(at, |at| Ok(*plain(at)?.apparatus_dew_point()), |at, u| Ok(doubtful(at, u)?.apparatus_dew_point().clone()))?;
    }

    /// The model's split, put with its own apparatus dew point, gives the capacity back: within the 0.1 % by which a
    /// straight line in temperature bends in enthalpy.
    #[test]
    fn the_modelled_split_agrees_with_bypass_and_capacity(at in readings(), tons in 1.0..4.0f64) {
        let back = state(fahrenheit(at[1]), fahrenheit(at[2])).unwrap();
        let q = tons_of_refrigeration(tons);
        let Ok(split) = split_by_model(cfm(at[0]), &back, q, usual_bypass()) else {
            return Err(TestCaseError::reject("too much from so little air"));
        };
        let coil = back.dry_bulb() - split / (1.0 - usual_bypass().fraction());
        let cold = MoistAir::saturated(coil, &Site::sea_level()).unwrap();
        let share = usual_bypass().fraction();
        let w = share * back.humidity_ratio().kilograms_per_kilogram()
            + (1.0 - share) * cold.humidity_ratio().kilograms_per_kilogram().min(back.humidity_ratio().kilograms_per_kilogram());
        let supply = MoistAir::from_humidity_ratio(back.dry_bulb() - split, kilograms_per_kilogram(w), &Site::sea_level());
        let Ok(supply) = supply else { return Err(TestCaseError::reject("the line passes through fog")) };
        let found = delivered(cfm(at[0]), FlowAt::Entering, &back, &supply).unwrap();
        prop_assert!((*found.total() / q - 1.0).abs() < 1e-3, "{found} {q}");
    }

    #[test]
    fn derivatives_of_the_modelled_split_and_of_airflow_are_exact(at in readings()) {
        // The fourth reading is the capacity in tenths of a kBtu/h, the fifth the leaving temperature of a heater.
        let at = [at[0], at[1], at[2], 24.0 * at[0], at[1] + 30.0];
        let site = Site::sea_level();
        doubt_is_exact(
            at,
            |[v, t, w, q, _]| split_by_model(cfm(v), &state(fahrenheit(t), fahrenheit(w))?, btu_per_hour(q), usual_bypass()),
            |at, u| {
                let back = MoistAir::from_wet_bulb(warm(at[1], u[1]), warm(at[2], u[2]), &site)?;
                split_by_model(flow(at[0], u[0]), &back, heat(at[3], u[3]), usual_bypass())
            },
        )?;
        doubt_is_exact(
            at,
            |[_, t, w, q, out]| airflow_from_heat(btu_per_hour(q), &state(fahrenheit(t), fahrenheit(w))?, fahrenheit(out)),
            |at, u| {
                let back = MoistAir::from_wet_bulb(warm(at[1], u[1]), warm(at[2], u[2]), &site)?;
                airflow_from_heat(heat(at[3], u[3]), &back, warm(at[4], u[4]))
            },
        )?;
    }

    #[test]
    fn heating_by_a_known_airflow_gives_that_airflow_back(at in readings()) {
        let back = state(fahrenheit(at[1]), fahrenheit(at[2])).unwrap();
        let supply = MoistAir::from_humidity_ratio(fahrenheit(at[1] + 40.0), back.humidity_ratio(), &Site::sea_level()).unwrap();
        let heat = -*delivered(cfm(at[0]), FlowAt::Entering, &back, &supply).unwrap().total();
        let found = airflow_from_heat(heat, &back, supply.dry_bulb()).unwrap();
        prop_assert!((found / cfm(at[0]) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_fan_table_is_met_at_its_rows_and_never_left(p in -1.0..2.0f64) {
        let rows = [(0.1, 1400.0), (0.4, 1310.0), (0.5, 1240.0), (0.8, 1000.0)];
        let fan = FanTable::new(rows.map(|(p, v)| (inches_of_water(p), cfm(v))), "invented").unwrap();
        for (p, v) in rows {
            prop_assert!((fan.airflow(inches_of_water(p)).unwrap().cfm() - v).abs() < 1e-9);
        }
        match fan.airflow(inches_of_water(p)) {
            Ok(v) => prop_assert!((0.1..=0.8).contains(&p) && (1000.0..=1400.0).contains(&v.cfm())),
            Err(error) => prop_assert!(!(0.1..=0.8).contains(&p) && error.is_out_of_range()),
        }
    }
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    let air = |t, w| state(fahrenheit(t), fahrenheit(w)).unwrap();
    let said = |error: kingvalve::Error| error.to_string();
    let backwards = said(airflow_from_heat(kilowatts(10.0), &air(70.0, 58.0), fahrenheit(65.0)).unwrap_err());
    assert!(backwards.contains("65.0 °F, is not warmer than the entering air, 70.0 °F"), "{backwards}");
    let cold = said(airflow_from_heat(kilowatts(-1.0), &air(70.0, 58.0), fahrenheit(95.0)).unwrap_err());
    assert!(cold.starts_with("heat given to the air -1000 W is out of range"), "{cold}");
    let sign = said(total_external_static(inches_of_water(0.3), inches_of_water(0.2)).unwrap_err());
    assert!(sign.contains("the return side reads negative"), "{sign}");
    let dry_coil = said(bypass(&air(80.0, 60.0), &air(70.0, 60.0)).unwrap_err());
    assert!(dry_coil.contains("not both cooler and drier"), "{dry_coil}");
    let misses = said(bypass(&air(80.0, 67.0), &air(78.0, 50.0)).unwrap_err());
    assert!(misses.contains("misses saturation"), "{misses}");
    let thin = MoistAir::saturated(fahrenheit(55.0), &Site::at_elevation(feet(5000.0)).unwrap()).unwrap();
    let sites = said(delivered(cfm(1000.0), FlowAt::Entering, &air(75.0, 63.0), &thin).unwrap_err());
    assert!(sites.contains("make both states with the same site"), "{sites}");
    let much = said(
        split_by_model(cfm(100.0), &air(75.0, 63.0), tons_of_refrigeration(5.0), usual_bypass()).unwrap_err(),
    );
    assert!(much.contains("below -40 °C"), "{much}");
    let falling =
        FanTable::new([(0.5, 1200.0), (0.3, 1300.0)].map(|(p, v)| (inches_of_water(p), cfm(v))), "");
    assert!(said(falling.unwrap_err()).contains("rising static pressure"));
    let unread: Result<FanTable, _> =
        serde_json::from_str(r#"{"points": [{"static_presure": "0.3 inH2O"}]}"#);
    assert!(unread.unwrap_err().to_string().contains("static_presure"));
}

#[test]
fn tables_travel_in_json() {
    let text = r#"{"points":[{"static_pressure":"0.3 inH2O","airflow":"1350 cfm"},{"static_pressure":"0.5 inH2O","airflow":"1240 cfm"}],"source":"invented"}"#;
    let fan: FanTable = serde_json::from_str(text).unwrap();
    let again: FanTable = serde_json::from_str(&serde_json::to_string(&fan).unwrap()).unwrap();
    assert_eq!((again.points().len(), again.source()), (2, "invented"));
    let at = |fan: &FanTable| fan.airflow(inches_of_water(0.4)).unwrap().cfm();
    assert!((at(&fan) - 1295.0).abs() < 1e-9 && (at(&again) - 1295.0).abs() < 1e-9);
    let dash = r#"{"dry_bulbs":["70 °F","80 °F"],"wet_bulbs":["58 °F","62 °F"],"splits":[["19 Δ°F",null],["24 Δ°F","22 Δ°F"]],"source":"x"}"#;
    let table: SplitTable = serde_json::from_str(dash).unwrap();
    let error = table.target(fahrenheit(75.0), fahrenheit(60.0)).unwrap_err().to_string();
    assert!(error.contains("the table has no target there"), "{error}");
}

/// The slopes carried with a target from a table are those of the table.
#[test]
fn a_split_table_carries_its_slopes() {
    let rows = [[19.0, 17.0], [24.0, 21.0]].map(|row| row.map(|x| Some(delta_fahrenheit(x))).to_vec());
    let [dry, wet] = [[70.0, 80.0], [58.0, 62.0]].map(|steps| steps.map(fahrenheit).to_vec());
    let table = SplitTable::new(dry, wet, rows.to_vec(), "invented").unwrap();
    let at = |t: f64, w: f64| table.target(fahrenheit(t), fahrenheit(w)).unwrap().delta_fahrenheit();
    let u = |dry: f64, wet: f64| {
        table.target(warm(76.0, dry), warm(59.0, wet)).unwrap().standard_uncertainty().delta_fahrenheit()
    };
    assert!((u(1.0, 0.0) - (at(77.0, 59.0) - at(76.0, 59.0))).abs() < 1e-9);
    assert!((u(0.0, 1.0) - (at(76.0, 59.0) - at(76.0, 60.0))).abs() < 1e-9);
}
