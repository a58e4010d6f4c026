//! What measurement says, writes and refuses.
#![allow(clippy::unwrap_used, clippy::panic, reason = "how a test fails")]

use kingvalve::measure::*;
use kingvalve::quantity::*;

fn clamp() -> Instrument<Current> {
    Instrument::resolution(amperes(0.1)).accuracy_percent_of_reading(2.0).counts(5.0).named("clamp ammeter")
}

fn judge(value: f64, instrument: Instrument<Current>, limits: &Limits<Current>) -> Verdict<Current> {
    limits.judge(Reading::new(amperes(value), instrument).unwrap(), Level::default()).unwrap()
}

#[test]
fn verdicts_say_what_and_why() {
    let plate = Limits::at_most(amperes(1.5)).unwrap().from_source("data plate");
    let fine = || Instrument::resolution(amperes(0.01)).accuracy_percent_of_reading(1.0);
    let step_only = || Instrument::resolution(amperes(0.1));
    let said = |value, instrument| judge(value, instrument, &plate).to_string();
    assert_eq!(
        said(1.2, fine()),
        "Within: 1.200 ± 0.015 A against at most 1.5 A (data plate), with a probability of more than 99.9 %."
    );
    assert_eq!(
        said(1.9, fine()),
        "Outside: 1.900 ± 0.022 A is above 1.5 A (data plate), with a probability of more than 99.9 %."
    );
    assert_eq!(
        said(1.2, step_only()),
        "Within: 1.200 ± 0.057 A against at most 1.5 A (data plate), with a probability of more than 99.9 %. \
         Of the ammeter only the step is counted; its accuracy was not given."
    );
    assert_eq!(
        said(1.47, step_only()),
        "Unresolved: 1.470 ± 0.057 A against at most 1.5 A (data plate) is within with a probability of 85 %, \
         above with 15 %. The 0.1 A step of the ammeter is nearly all the doubt (100 %); to settle it takes a finer \
         step and better accuracy: a standard uncertainty of at most 0.018 A in all (now 0.029 A)."
    );
    assert_eq!(
        said(1.6, clamp()),
        "Unresolved: 1.60 ± 0.60 A against at most 1.5 A (data plate) is within with a probability of 37 %, \
         above with 63 %. The accuracy of the clamp ammeter is nearly all the doubt (99 %); to settle it takes \
         better accuracy: a standard uncertainty of at most 0.06 A in all (now 0.31 A)."
    );
    assert_eq!(
        said(1.5, fine()),
        "Unresolved: 1.500 ± 0.018 A against at most 1.5 A (data plate) is within with a probability of 50 %, \
         above with 50 %. The accuracy of the ammeter is nearly all the doubt (90 %); the value is so close to the \
         limit that no realistic instrument decides."
    );
}

#[test]
fn the_remedy_follows_the_cause() {
    let limits = Limits::at_most(amperes(1.5)).unwrap();
    let remedy = |value, instrument| {
        let verdict = judge(value, instrument, &limits);
        verdict.judgement().settle().unwrap().remedy()
    };
    let step = Instrument::resolution(amperes(0.2)).accuracy(amperes(0.02));
    assert_eq!(remedy(1.44, step), Remedy::FinerStep);
    let both = Instrument::resolution(amperes(0.2)).accuracy(amperes(0.1));
    assert_eq!(remedy(1.45, both), Remedy::FinerStepAndBetterAccuracy);
    assert_eq!(remedy(1.2, clamp()), Remedy::BetterAccuracy);
    assert_eq!(remedy(1.5, clamp()), Remedy::OnTheLimit);
    let scattered = [1.30, 1.42, 1.55, 1.33].map(amperes);
    let read = Reading::repeated(&scattered, Instrument::resolution(amperes(0.01)).accuracy(amperes(0.01)));
    let verdict = limits.judge(read.unwrap(), Level::default()).unwrap();
    assert_eq!(verdict.judgement().settle().unwrap().remedy(), Remedy::MoreRepeats);
    // Two readings of like doubt: bettering one is not enough.
    let volts_read = Reading::new(volts(240.0), Instrument::resolution(volts(1.0)).accuracy(volts(20.0)));
    let amps_read = Reading::new(amperes(10.0), Instrument::resolution(amperes(0.1)).accuracy(amperes(0.8)));
    let power = volts_read.unwrap().measured() * amps_read.unwrap().measured();
    let limits = Limits::at_least(watts(2350.0)).unwrap();
    let verdict = limits.judge(power, Level::default()).unwrap();
    assert_eq!(verdict.judgement().settle().unwrap().remedy(), Remedy::SeveralReadings);
    assert!(verdict.to_string().contains("a better voltmeter alone is not enough"), "{verdict}");
}

#[test]
fn instruments_in_json() {
    let text = r#"{
        "name": "gauge", "resolution": "0.1 psi",
        "accuracy": {"percent_of_span": 0.5, "span": "500 psi", "counts": 1},
        "range": {"low": "-14.7 psig", "high": "800 psig"},
        "coverage": {"factor": 2.0},
        "temperature_coefficient": {"of_accuracy_per_kelvin": "10 %", "low": "18 °C", "high": "28 °C"}
    }"#;
    let gauge: Instrument<GaugePressure> = serde_json::from_str(text).unwrap();
    let built = Instrument::resolution(psi(0.1))
        .named("gauge")
        .accuracy_percent_of_span(0.5, psi(500.0))
        .counts(1.0)
        .range(psig(-14.7), psig(800.0))
        .accuracy_means(Coverage::Factor(2.0))
        .temperature_coefficient(percent(10.0), celsius(18.0), celsius(28.0));
    assert_eq!(gauge, built);
    assert!(!gauge.is_same_as(&built));
    let written = serde_json::to_string(&gauge).unwrap();
    let again: Instrument<GaugePressure> = serde_json::from_str(&written).unwrap();
    assert_eq!(again, gauge);
    assert_eq!(serde_json::to_string(&again).unwrap(), written);
    assert_eq!(
        serde_json::to_string(&clamp()).unwrap(),
        r#"{"name":"clamp ammeter","resolution":{"value":0.1,"unit":"A"},"accuracy":{"percent_of_reading":2.0,"counts":5.0}}"#
    );
    for bad in [
        r#"{}"#,
        r#"{"resolution": "0 A"}"#,
        r#"{"resolution": "-0.1 A"}"#,
        r#"{"resolution": "0.1 V"}"#,
        r#"{"resolution": "0.1 A", "acuracy": {"counts": 5}}"#,
        r#"{"resolution": "0.1 A", "accuracy": {"percent": 5}}"#,
        r#"{"resolution": "0.1 A", "accuracy": {"percent_of_reading": -2}}"#,
        r#"{"resolution": "0.1 A", "accuracy": {"percent_of_span": 2}}"#,
        r#"{"resolution": "0.1 A", "range": {"low": "4 A", "high": "2 A"}}"#,
        r#"{"resolution": "0.1 A", "coverage": {"factor": 0}}"#,
        r#"{"resolution": "0.1 A", "temperature_coefficient":
            {"of_accuracy_per_kelvin": "1 %", "low": "30 °C", "high": "20 °C"}}"#,
    ] {
        assert!(serde_json::from_str::<Instrument<Current>>(bad).is_err(), "{bad}");
    }
}

#[test]
fn readings_in_json() {
    let text = r#"{"label": "fan side", "value": "0.6 A", "instrument": {"resolution": "0.1 A"}}"#;
    let read: Reading<Current> = serde_json::from_str(text).unwrap();
    assert_eq!(read.value(), amperes(0.6));
    assert_eq!(read.label(), "fan side");
    let again: Reading<Current> = serde_json::from_str(&serde_json::to_string(&read).unwrap()).unwrap();
    assert_eq!(again, read);
    let text =
        r#"{"repeats": ["88 °F", "88.2 °F"], "instrument": {"resolution": "0.1 Δ°F"}, "ambient": "95 °F"}"#;
    let read: Reading<Temperature> = serde_json::from_str(text).unwrap();
    assert!((read.value() - fahrenheit(88.1)).abs() < delta_fahrenheit(1e-9));
    let again: Reading<Temperature> = serde_json::from_str(&serde_json::to_string(&read).unwrap()).unwrap();
    assert_eq!(again, read);
    for bad in [
        r#"{"instrument": {"resolution": "0.1 A"}}"#,
        r#"{"value": "0.6 A"}"#,
        r#"{"value": "0.6 A", "repeats": ["0.6 A", "0.7 A"], "instrument": {"resolution": "0.1 A"}}"#,
        r#"{"repeats": ["0.6 A"], "instrument": {"resolution": "0.1 A"}}"#,
        r#"{"value": "0.6 A", "instrument": {"resolution": "0.1 A", "range": {"low": "1 A", "high": "400 A"}}}"#,
        r#"{"value": "0.6 A", "instrument": {"resolution": "0.1 A"}, "step": 1}"#,
    ] {
        assert!(serde_json::from_str::<Reading<Current>>(bad).is_err(), "{bad}");
    }
}

#[test]
fn results_in_json() {
    let read = Reading::new(amperes(0.6), clamp()).unwrap();
    let json = serde_json::to_value(read.measured()).unwrap();
    assert_eq!(json["value"]["unit"], "A");
    assert!(json.get("degrees_of_freedom").is_none());
    assert_eq!(json["contributions"][0]["label"], "clamp ammeter: accuracy");
    assert_eq!(json["contributions"][1]["label"], "clamp ammeter: 0.1 A step");
    let limits = Limits::at_most(amperes(0.7)).unwrap().from_source("data plate");
    let json = serde_json::to_value(limits.judge(&read, Level::default()).unwrap()).unwrap();
    assert_eq!(json["verdict"], "unresolved");
    assert_eq!(json["dominant"]["reading"], "clamp ammeter");
    assert_eq!(json["settle"]["remedy"], "better_accuracy");
    assert!(json["text"].as_str().unwrap().starts_with("Unresolved: 0.60 ± 0.58 A"));
    let limits: Limits<Current> = serde_json::from_value(json["limits"].clone()).unwrap();
    assert_eq!(limits.source(), "data plate");
}

#[test]
fn what_cannot_be_is_refused() {
    let text = |error: kingvalve::Error| error.to_string();
    let zero_step = Reading::new(amperes(1.0), Instrument::resolution(amperes(0.0)));
    assert_eq!(
        text(zero_step.unwrap_err()),
        "resolution of the ammeter 0 A is out of range: the step of its display must be positive; \
         copy the specification from the instrument's sheet"
    );
    for broken in [
        Instrument::resolution(amperes(f64::NAN)),
        clamp().accuracy_percent_of_reading(f64::INFINITY),
        clamp().counts(-1.0),
        clamp().accuracy(amperes(-1.0)),
        clamp().accuracy_percent_of_span(1.0, amperes(0.0)),
        clamp().accuracy_means(Coverage::Factor(0.0)),
        clamp().range(amperes(2.0), amperes(2.0)),
        clamp().temperature_coefficient(percent(-1.0), celsius(18.0), celsius(28.0)),
    ] {
        assert!(Reading::new(amperes(1.0), broken).unwrap_err().is_out_of_range());
    }
    let outside = Reading::new(amperes(0.6), clamp().range(amperes(1.0), amperes(400.0)));
    assert_eq!(
        text(outside.unwrap_err()),
        "current read on the clamp ammeter 0.6 A is out of range: the instrument reads from 1 A to 400 A; \
         check the reading, or take an instrument that reaches"
    );
    assert!(Reading::new(amperes(f64::NAN), clamp()).is_err());
    assert!(Reading::repeated(&[amperes(1.0)], clamp()).is_err());
    assert!(Reading::repeated(&[amperes(1.0), amperes(f64::NAN)], clamp()).is_err());
    assert!(Together::of(1).is_err());
    assert!(Together::of(3).unwrap().mean(&[volts(1.0)]).unwrap_err().is_inconsistent());
    assert!(Measured::from_standard(volts(1.0), volts(-1.0), "x").is_err());
    assert!(Measured::from_standard(volts(f64::NAN), volts(1.0), "x").is_err());
    assert!(Measured::from_sample(volts(1.0), volts(1.0), 0.0, "x").is_err());
    assert!(Limits::between(volts(2.0), volts(1.0)).unwrap_err().is_inconsistent());
    assert!(Limits::at_least(volts(f64::NAN)).is_err());
    assert!(serde_json::from_str::<Limits<Current>>(r#"{"source": "shop"}"#).is_err());
    assert!(Limits::at_least(volts(1.0)).unwrap().judge(volts(f64::NAN), Level::default()).is_err());
    assert!(Level::new(percent(50.0)).is_err() && Level::new(percent(100.0)).is_err());
    assert!(serde_json::from_str::<Level>(r#""49 %""#).is_err());
    assert!(Interval::new(pounds(2.0), pounds(1.0)).unwrap_err().is_inconsistent());
    assert!(Interval::exactly(pounds(f64::NAN)).is_err());
    assert!(Interval::exactly(pounds(1.0)).unwrap().times(-1.0).is_err());
    assert!(serde_json::from_str::<Interval<Mass>>(r#"{"low": "2 lb", "high": "1 lb"}"#).is_err());
}

#[test]
fn cautions_defer_and_have_names() {
    let mut names: Vec<&str> = Caution::ALL.iter().map(|caution| caution.name()).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), Caution::ALL.len());
    assert!(Caution::ALL.iter().all(|caution| caution.text().len() > 60));
    let json = serde_json::to_value(Caution::LiveVoltage).unwrap();
    assert_eq!(json["hazard"], "live_voltage");
}
