//! Quantities as text and JSON: what is shown reads back, what is wrong is refused and says why.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::quantity::*;
use proptest::prelude::*;

/// `a` reads back as `b`: exactly, or within 4e-16 of the larger of the value and the unit's offset.
fn same<Q: Quantity>(a: Q, b: Q, unit: &Unit) -> bool {
    let scale = b.base().abs().max((unit.offset * unit.factor).abs());
    (a.base() - b.base()).abs() <= 4e-16 * scale
}

/// Laws of one quantity, for a number `typed` with so many decimals, in each of its units.
fn laws<Q>(typed: f64) -> Result<(), TestCaseError>
where
    Q: Quantity + std::str::FromStr<Err = kingvalve::Error> + serde::Serialize + serde::de::DeserializeOwned,
{
    for unit in Q::units() {
        let text = format!("{typed} {}", unit.symbol);
        let quantity: Q = text.parse().unwrap();
        for name in unit.aliases.iter().chain([&unit.word]) {
            prop_assert_eq!(format!("{typed} {name}").parse::<Q>().unwrap(), quantity);
        }
        // Shown in the unit it was typed in: the same text, and exactly the same value.
        let shown = InUnit::of(quantity, unit.symbol).unwrap().to_string();
        prop_assert_eq!(shown.parse::<Q>().unwrap(), quantity, "{} shown as {}", text, shown);
        prop_assert_eq!(&shown, &text);
        // Shown in the trade's unit.
        let first = &Q::units()[0];
        let again: Q = quantity.to_string().parse().unwrap();
        prop_assert!(same(again, quantity, first), "{} shown as {}", text, quantity);
        let json = serde_json::to_string(&quantity).unwrap();
        let again: Q = serde_json::from_str(&json).unwrap();
        prop_assert!(same(again, quantity, first), "{} written as {}", text, json);
        prop_assert_eq!(serde_json::to_string(&again).unwrap(), json);
    }
    Ok(())
}

/// A number as people type it: up to nine digits, up to six decimals.
fn typed() -> impl Strategy<Value = f64> {
    (-999_999_999_i64..=999_999_999, 0..=6_i32).prop_map(|(digits, decimals)| {
        let text = format!("{digits}e-{decimals}");
        let x: f64 = text.parse().unwrap();
        if x == 0.0 { 0.0 } else { x }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn what_is_shown_reads_back(x in typed()) {
        laws::<Pressure>(x)?;
        laws::<GaugePressure>(x)?;
        laws::<PressureDifference>(x)?;
        laws::<Temperature>(x)?;
        laws::<TemperatureDifference>(x)?;
        laws::<Mass>(x)?;
        laws::<Length>(x)?;
        laws::<Area>(x)?;
        laws::<Volume>(x)?;
        laws::<Density>(x)?;
        laws::<Time>(x)?;
        laws::<VolumeFlow>(x)?;
        laws::<MassFlow>(x)?;
        laws::<Velocity>(x)?;
        laws::<Energy>(x)?;
        laws::<Power>(x)?;
        laws::<SpecificEnergy>(x)?;
        laws::<SpecificEntropy>(x)?;
        laws::<ElectricPotential>(x)?;
        laws::<Current>(x)?;
        laws::<Resistance>(x)?;
        laws::<Capacitance>(x)?;
        laws::<Frequency>(x)?;
        laws::<Ratio>(x)?;
        laws::<HumidityRatio>(x)?;
        laws::<SpecificVolume>(x)?;
        laws::<Throughput>(x)?;
        laws::<Viscosity>(x)?;
    }

    #[test]
    fn any_finite_value_reads_back(si in prop::num::f64::NORMAL | prop::num::f64::ZERO | prop::num::f64::SUBNORMAL) {
        let mass = kilograms(si);
        if let Ok(again) = mass.to_string().parse::<Mass>() {
            prop_assert!((again.kilograms() - si).abs() <= 4e-16 * si.abs() + 5e-324, "{}", mass);
        } else {
            prop_assert!(si.abs() > 1e307, "{}", mass);
        }
        let warm = kelvins(si);
        if si.abs() < 1e300 {
            let again: Temperature = warm.to_string().parse().unwrap();
            prop_assert!((again.kelvins() - si).abs() <= 4e-16 * si.abs().max(300.0), "{}", warm);
        }
    }

    #[test]
    fn reading_never_panics(text in "\\PC*") {
        let _ = text.parse::<Pressure>();
        let _ = text.parse::<Temperature>();
        let _ = serde_json::from_str::<GaugePressure>(&text);
    }

    #[test]
    fn differences_and_steps_agree(a in -400.0..400.0_f64, b in -400.0..400.0_f64) {
        let close = |x: f64, y: f64| (x - y).abs() < 1e-10;
        let (ta, tb) = (fahrenheit(a), fahrenheit(b));
        prop_assert!(close((tb + (ta - tb)).fahrenheit(), a));
        prop_assert!(close((ta - (ta - tb)).fahrenheit(), b));
        prop_assert!(close((ta - tb).delta_fahrenheit(), a - b));
        let (pa, pb) = (psig(a), psig(b));
        prop_assert!(close((pb + (pa - pb)).psig(), a));
        prop_assert!(close((pa - pb).psi(), a - b));
        let site = Site::at_elevation(feet(130.0)).unwrap();
        if let (Ok(x), Ok(y)) = (site.absolute(pa), site.absolute(pb)) {
            prop_assert!(close((x - y).psi(), a - b));
            prop_assert!(close(site.gauge(x).unwrap().psig(), a));
        }
    }

    #[test]
    fn products_and_quotients_agree(a in 0.01..1e4_f64, b in 0.01..1e4_f64) {
        let close = |x: f64, y: f64| (x / y - 1.0).abs() < 1e-14;
        prop_assert!(close((volts(a) * amperes(b)).watts(), a * b));
        prop_assert!(close((volts(a) * amperes(b) / volts(a)).amperes(), b));
        prop_assert!(close((pounds_per_cubic_foot(a) * cubic_feet(b)).pounds(), a * b));
        prop_assert!(close((pounds(a) / cubic_feet(b)).pounds_per_cubic_foot(), a / b));
        prop_assert!(close((kilowatts(a) * hours(b)).kilowatt_hours(), a * b));
        prop_assert!(close((cfm(a) * minutes(b)).cubic_feet(), a * b));
        prop_assert!(close((feet_per_minute(a) * square_feet(b)).cfm(), a * b));
        prop_assert!(close(pounds(a) / pounds(b), a / b));
        prop_assert!(close((microfarads(a) * percent(b)).microfarads(), a * b / 100.0));
        prop_assert!(close((ohms(a) * amperes(b)).volts(), a * b));
    }
}

#[test]
fn units_as_the_trade_writes_them() {
    assert_eq!("62 psig".parse::<GaugePressure>().unwrap(), psig(62.0));
    for text in ["88 °F", "88 degF", "88F", "88 f", " 88.0 °F ", "8.8e1 ºF", "+88 fahrenheit"] {
        assert_eq!(text.parse::<Temperature>().unwrap(), fahrenheit(88.0), "{text}");
    }
    assert_eq!("\u{2212}5 \u{ba}C".parse::<Temperature>().unwrap(), celsius(-5.0));
    assert_eq!("40 \u{3bc}F".parse::<Capacitance>().unwrap(), microfarads(40.0));
    assert_eq!("40 MFD".parse::<Capacitance>().unwrap(), microfarads(40.0));
    assert_eq!("0.5 in. w.c.".parse::<PressureDifference>().unwrap(), inches_of_water(0.5));
    assert_eq!("10 inHg vac".parse::<GaugePressure>().unwrap(), inches_of_mercury_vacuum(10.0));
    assert_eq!("12 delta_degF".parse::<TemperatureDifference>().unwrap(), delta_fahrenheit(12.0));
    assert_eq!("2 MΩ".parse::<Resistance>().unwrap(), megohms(2.0));
    assert_eq!("2 mΩ".parse::<Resistance>().unwrap(), milliohms(2.0));
    // Neither spelling of the prefix: refused rather than guessed.
    assert!("2 MOHM".parse::<Resistance>().is_err());
    assert!("2 mF".parse::<Capacitance>().is_err());
}

#[test]
fn shown_as_the_trade_writes_it() {
    assert_eq!(psig(62.0).to_string(), "62 psig");
    assert_eq!(format!("{:.1}", fahrenheit(88.25)), "88.2 °F");
    assert_eq!(format!("{:.1}", delta_fahrenheit(-0.01)), "0.0 Δ°F");
    assert_eq!(format!("[{:>12}]", pounds(6.5)), "[      6.5 lb]");
    assert_eq!(format!("[{:<9}]", volts(240.0)), "[240 V    ]");
    assert_eq!(format!("{:?}", microfarads(5.0)), "Capacitance(5 µF)");
    assert_eq!(fahrenheit(0.0).to_string(), "0 °F");
    assert_eq!(celsius(35.0).in_unit("degC").unwrap().to_string(), "35 °C");
    assert_eq!(psia(14.696).in_unit("kPa").unwrap().value(), 101.325_353_180_402_23);
    assert_eq!(pounds(1e-7).to_string(), "1e-7 lb");
}

#[test]
fn a_wrong_or_missing_unit_says_what_to_write() {
    let says = |error: kingvalve::Error, words: &[&str]| {
        assert!(error.is_unreadable());
        let text = error.to_string();
        for word in words {
            assert!(text.contains(word), "{text:?} lacks {word:?}");
        }
    };
    says("62 psig".parse::<Pressure>().unwrap_err(), &["gauge", "Site::absolute", "psia, Pa, hPa, kPa"]);
    says("62 psia".parse::<GaugePressure>().unwrap_err(), &["absolute", "Site::gauge", "psig, Pag, kPag"]);
    says("62 psi".parse::<GaugePressure>().unwrap_err(), &["psi alone", "psig"]);
    says("62 psi".parse::<Pressure>().unwrap_err(), &["psi alone", "psia"]);
    says("62".parse::<GaugePressure>().unwrap_err(), &["\"62\"", "psig, Pag"]);
    says("10 °F".parse::<TemperatureDifference>().unwrap_err(), &["is a temperature", "delta_degF"]);
    says("10 Δ°F".parse::<Temperature>().unwrap_err(), &["difference"]);
    says("psig".parse::<GaugePressure>().unwrap_err(), &["12.5 psig"]);
    says("1,200 cfm".parse::<VolumeFlow>().unwrap_err(), &["decimal number"]);
    says("NaN psig".parse::<GaugePressure>().unwrap_err(), &["decimal number"]);
    says("1e999 psig".parse::<GaugePressure>().unwrap_err(), &["finite"]);
    says("62 psigg".parse::<GaugePressure>().unwrap_err(), &["did you mean psig?"]);
    says("".parse::<Mass>().unwrap_err(), &["mass", "lb"]);
    let error = psig(62.0).in_unit("furlongs").unwrap_err();
    assert_eq!(
        error.to_string(),
        "cannot read \"furlongs\" as gauge pressure: units of gauge pressure: \
         psig, Pag, kPag, MPag, barg, inHg vac"
    );
}

#[test]
fn json_in_and_out() {
    assert_eq!(serde_json::to_string(&psig(62.0)).unwrap(), r#"{"value":62.0,"unit":"psig"}"#);
    let read = |text: &str| serde_json::from_str::<GaugePressure>(text);
    assert_eq!(read(r#"{"value": 62, "unit": "psig"}"#).unwrap(), psig(62.0));
    assert_eq!(read(r#"{"unit": "PSIG", "value": 62.0}"#).unwrap(), psig(62.0));
    assert_eq!(read(r#""62 psig""#).unwrap(), psig(62.0));
    for bad in [
        "62",
        "null",
        r#"{"value": 62.0}"#,
        r#"{"unit": "psig"}"#,
        r#"{"value": null, "unit": "psig"}"#,
        r#"{"value": "62", "unit": "psig"}"#,
        r#"{"value": 62.0, "unit": "psia"}"#,
        r#"{"value": 62.0, "unit": "psig", "step": 0.1}"#,
        r#"{"value": 62.0, "value": 63.0, "unit": "psig"}"#,
        r#"{"value": 1e999, "unit": "psig"}"#,
        r#""NaN psig""#,
        r#"[62.0, "psig"]"#,
    ] {
        assert!(read(bad).is_err(), "{bad}");
    }
    let error = read(r#"{"value": 62.0, "unit": "psia"}"#).unwrap_err().to_string();
    assert!(error.contains("62 psia") && error.contains("Site::gauge"), "{error}");
    for not_a_number in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert!(serde_json::to_string(&psig(not_a_number)).is_err());
    }
}
