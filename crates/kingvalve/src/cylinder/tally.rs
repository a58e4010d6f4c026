//! What went into the system: the fall of each cylinder's weight on the scale, summed over cylinders.

use crate::measure::{Measured, Reading};
use crate::quantity::Mass;
use crate::{Error, Result};

/// One cylinder on the scale: its weights in the order in which they were read.
///
/// The first weight is before any refrigerant left, the last after the last step. A scale zeroed with the cylinder on
/// it reads zero, and negative from then on: give the weights since the zero as a use of their own, the zero first. A
/// cylinder taken off half emptied and put on again later is two uses of one name.
#[derive(Debug, Clone)]
pub struct CylinderUse {
    /// What it is called: "cylinder A".
    pub name: String,
    /// Gross weights; two at least.
    pub weights: Vec<Reading<Mass>>,
}

/// What was charged, step by step, over several cylinders.
///
/// # Example
/// ```
/// use kingvalve::cylinder::{CylinderUse, Tally};
/// use kingvalve::measure::{Instrument, Reading};
/// use kingvalve::quantity::*;
/// let scale = Instrument::resolution(ounces(0.5)).named("scale");
/// let weights = |list: &[f64]| list.iter().map(|w| Reading::new(pounds(*w), scale.clone())).collect::<Result<Vec<_>, _>>();
/// let tally = Tally::of(&[
///     CylinderUse { name: "A".into(), weights: weights(&[14.25, 13.0, 11.75])? },
///     CylinderUse { name: "B".into(), weights: weights(&[33.5, 31.75])? },
/// ])?;
/// assert_eq!(format!("{:.2}", tally.total().value()), "4.25 lb");
/// assert_eq!(tally.steps().len(), 3);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Tally {
    steps: Vec<(String, Measured<Mass>)>,
    cylinders: Vec<(String, Measured<Mass>)>,
    gaps: Vec<(String, Measured<Mass>)>,
    total: Measured<Mass>,
}

impl CylinderUse {
    /// Whether the scale was zeroed with the cylinder on it: no cylinder weighs nothing.
    fn is_zeroed(&self) -> bool {
        self.weights.first().is_some_and(|first| first.value().abs() <= first.instrument().step())
    }
}

impl Tally {
    /// Sums the cylinders.
    ///
    /// # Units
    /// Any mass.
    /// # Source
    /// Difference of weighings: each step is the weight before less the weight after; the total is the sum over
    /// cylinders of first less last, so that the weighings in between cancel.
    /// # Valid range
    /// Weights that do not rise by more than the scale's steps; of zero or more, but for a scale zeroed with the cylinder
    /// on it.
    /// # Accuracy
    /// That of the scale. Its stated accuracy is shared by all its weighings and cancels in part; its step does not.
    /// What the hoses took is in the total: [`into_system`](super::into_system) takes it off.
    /// # Errors
    /// A negative weight of a scale that was not zeroed, a weight that rises, fewer than two weights of a cylinder, a
    /// cylinder that comes back heavier than it left.
    /// # Example
    /// See [`Tally`].
    pub fn of(cylinders: &[CylinderUse]) -> Result<Tally> {
        let mut steps = Vec::new();
        let (mut nets, mut gaps) = (Vec::<(String, Measured<Mass>)>::new(), Vec::new());
        let mut total = Measured::exact(Mass::ZERO);
        for (index, cylinder) in cylinders.iter().enumerate() {
            let here = |error: Error| error.in_field(format!("[{index}].weights"));
            let zeroed = cylinder.is_zeroed();
            for weight in &cylinder.weights {
                if weight.value() < Mass::ZERO && !zeroed {
                    return Err(here(Error::out_of_range(
                        format!("weight of {}", cylinder.name),
                        weight.value(),
                        "a cylinder weighs more than nothing",
                        "zero the scale with nothing on it, or give the weights since zeroing as a use of their own",
                    )));
                }
            }
            for pair in cylinder.weights.windows(2) {
                if let [before, after] = pair {
                    steps.push((cylinder.name.clone(), fall(before, after, &cylinder.name).map_err(here)?));
                }
            }
            let (Some(first), Some(last), true) =
                (cylinder.weights.first(), cylinder.weights.last(), cylinder.weights.len() > 1)
            else {
                return Err(here(Error::inconsistent(
                    format!("weights of {}", cylinder.name),
                    "what was charged is the difference of two weights",
                    "give the weight before and after",
                )));
            };
            let net = first.measured() - last.measured();
            total = total + net.clone();
            match nets.iter_mut().find(|(name, _)| *name == cylinder.name) {
                Some((_, sum)) => *sum = sum.clone() + net,
                None => nets.push((cylinder.name.clone(), net)),
            }
            let earlier = cylinders.iter().take(index).rev().find(|use_| use_.name == cylinder.name);
            // A weight since zeroing cannot be compared with one before.
            if let Some(left) =
                earlier.filter(|earlier| !zeroed && !earlier.is_zeroed()).and_then(|use_| use_.weights.last())
            {
                gaps.push((cylinder.name.clone(), fall(left, first, &cylinder.name).map_err(here)?));
            }
        }
        Ok(Tally { steps, cylinders: nets, gaps, total })
    }

    /// Cylinder and mass of each step, in the order given.
    pub fn steps(&self) -> &[(String, Measured<Mass>)] {
        &self.steps
    }

    /// What left each cylinder in all, in the order first used.
    pub fn cylinders(&self) -> &[(String, Measured<Mass>)] {
        &self.cylinders
    }

    /// What each cylinder lost between being taken off and put on again: refrigerant that went elsewhere, or the doubt of
    /// the scale. It is not in the total.
    pub fn gaps(&self) -> &[(String, Measured<Mass>)] {
        &self.gaps
    }

    /// All that was charged.
    pub fn total(&self) -> &Measured<Mass> {
        &self.total
    }
}

/// The fall from one weighing to the next; a rise beyond the scale's steps is refused.
fn fall(before: &Reading<Mass>, after: &Reading<Mass>, name: &str) -> Result<Measured<Mass>> {
    let fall = before.measured() - after.measured();
    let slack = before.instrument().step() + after.instrument().step();
    if fall.value() + slack < Mass::ZERO {
        return Err(Error::inconsistent(
            format!("weights of {name}"),
            format!("the weight rises from {} to {}", before.value(), after.value()),
            "a cylinder gets lighter while it charges: check the order, the cylinder and the scale's zero",
        ));
    }
    Ok(fall)
}
