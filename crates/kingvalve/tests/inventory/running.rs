//! Superheat and subcooling: a value within the relation's range, a bound beyond it.

use kingvalve::charge::inventory::{Inventory, RunningReading, RunningSays, System};
use kingvalve::charge::{FullCharge, VirtualCharge};
use kingvalve::measure::Measured;
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use proptest::prelude::*;

const FULL: FullCharge = FullCharge { superheat: delta_fahrenheit(10.0), subcooling: delta_fahrenheit(10.0) };

fn after(superheat: f64, subcooling: f64) -> Inventory {
    let degrees =
        |x: f64| Measured::from_standard(delta_fahrenheit(x), delta_fahrenheit(0.7), "clamp").unwrap();
    let system = System::of_plate(&Refrigerant::named("R-410A").unwrap(), pounds(6.0)).unwrap();
    let reading = RunningReading::of(degrees(superheat), degrees(subcooling), FULL);
    Inventory::prior(&system).unwrap().running(&reading).unwrap()
}

#[test]
fn beyond_the_range_it_is_refused_as_a_value_and_kept_as_a_bound() {
    let relation = VirtualCharge::default();
    // By hand: k = 10/((1 − 0.75)·0.73) = 54.8 Δ°F a charge.
    for (superheat, subcooling, share, says) in [
        (55.0, 5.0, 1.0 + (-5.0 - 0.4 * 45.0) / 54.795, RunningSays::AtMost),
        (20.0, 5.0, 1.0 + (-5.0 - 0.4 * 10.0) / 54.795, RunningSays::About),
        (8.0, 40.0, 1.0 + (30.0 + 0.4 * 2.0) / 54.795, RunningSays::AtLeast),
    ] {
        let inventory = after(superheat, subcooling);
        assert_eq!(inventory.running_says(), Some(says), "{share}");
        let value = relation.share(&FULL, delta_fahrenheit(superheat), delta_fahrenheit(subcooling));
        let now = inventory.now();
        match says {
            RunningSays::About => {
                assert!((value.unwrap().fraction() - share).abs() < 1e-4);
                assert!((now.median - pounds(6.0 * share)).abs() < pounds(0.1), "{now:?}");
            }
            RunningSays::AtMost => {
                assert!(value.unwrap_err().to_string().contains("from 60 % to 140 %"));
                assert!(now.ninety.low() < pounds(0.4) && now.ninety.high() < pounds(4.6), "{now:?}");
            }
            _ => {
                assert!(value.unwrap_err().is_out_of_range());
                // 8.4 lb and more by the bound, 7.2 lb and less nine times in ten by what was assumed.
                assert!(now.median > pounds(6.5) && now.ninety.high() > pounds(8.4), "{now:?}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// However far the readings lie outside, the answer stays among charges that a system can hold.
    #[test]
    fn no_reading_carries_the_answer_away(superheat in 3.0..90.0f64, subcooling in 4.0..90.0f64) {
        let now = after(superheat, subcooling).now();
        prop_assert!(now.ninety.low() >= pounds(0.0) && now.ninety.high() <= pounds(6.0 * 1.8), "{now:?}");
        prop_assert!(now.ninety.width() > pounds(0.5), "{now:?}");
    }
}
