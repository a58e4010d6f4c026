//! Refrigerants by designation, in trade terms.
//!
//! # Example
//! ```
//! use kingvalve::quantity::*;
//! use kingvalve::refrigerant::Refrigerant;
//! let r = Refrigerant::named("R-454B")?;
//! let p = Site::sea_level().absolute(psig(118.0))?;
//! assert_eq!(format!("{:.1}", r.dew_temperature(p)?), "44.8 °F");
//! # Ok::<(), kingvalve::Error>(())
//! ```

mod accuracy;
mod caution;
mod columns;
mod density;
mod designation;
mod failure;
mod gwp;
mod safety;
mod saturation;
mod split;
mod state;

use std::collections::HashMap;
use std::fmt;
use std::sync::{Arc, LazyLock, Mutex};

use kingvalve_fluid::{Basis, Fluid};

use crate::quantity::{Ratio, Temperature, kelvins, percent};
use crate::{Error, Result};
pub use accuracy::{Accuracy, PairAccuracy, PairBasis};
use designation::Listing;
pub use designation::{Kind, designations};
pub use gwp::{Assessment, Gwp, Mark};
/// Where enthalpy and entropy are given their customary values.
pub use kingvalve_fluid::Reference;
pub use safety::SafetyGroup;
pub use split::Split;
pub use state::State;

/// A refrigerant: its composition, its designation where it has one, and its properties.
///
/// Cheap to clone. Clones, and every refrigerant of the same designation, share their saturation curves, which
/// are fitted from the equation of state on first use (a few milliseconds).
///
/// # Example
/// ```
/// use kingvalve::refrigerant::Refrigerant;
/// let r = Refrigerant::named("R410A")?; // the hyphen is optional
/// assert_eq!(r.designation(), "R-410A");
/// assert_eq!(
///     Refrigerant::named("R-454D").unwrap_err().to_string(),
///     "unknown refrigerant \"R-454D\"; did you mean R-454A, R-454B or R-454C?"
/// );
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Clone)]
pub struct Refrigerant(Arc<Inner>);

struct Inner {
    designation: String,
    fluid: Fluid,
    listing: Option<&'static Listing>,
}

impl Refrigerant {
    /// The refrigerant of a designation of ANSI/ASHRAE Standard 34, or of a chemical name (`"propane"`).
    ///
    /// Case, hyphen and the leading `R` do not matter: `"R-454B"`, `"R454B"`, `"454b"`.
    ///
    /// # Source
    /// Compositions and safety groups: the sources named in the crate's designation table, each row its own.
    ///
    /// # Errors
    /// An unknown name, with the nearest known ones.
    pub fn named(name: &str) -> Result<Refrigerant> {
        static SHARED: LazyLock<Mutex<HashMap<&'static str, Refrigerant>>> = LazyLock::new(Mutex::default);
        let listing = designation::find(name)?;
        let mut shared = SHARED.lock().unwrap_or_else(|poisoned| poisoned.into_inner());
        if let Some(refrigerant) = shared.get(listing.designation.as_str()) {
            return Ok(refrigerant.clone());
        }
        let refrigerant = Refrigerant(Arc::new(Inner {
            designation: listing.designation.clone(),
            fluid: listing.fluid()?,
            listing: Some(listing),
        }));
        shared.insert(&listing.designation, refrigerant.clone());
        Ok(refrigerant)
    }

    /// A blend of one's own, by mass: a data plate without a designation, or a blend that has leaked.
    ///
    /// # Valid range
    /// One to eight components that sum to 100 %, each named once.
    ///
    /// # Accuracy
    /// That of the pair parameters: [`accuracy`](Self::accuracy) says for each pair what it rests on.
    ///
    /// # Errors
    /// An unknown component, a repeated one, a share that is not above zero, a sum other than 100 %.
    ///
    /// # Example
    /// ```
    /// use kingvalve::quantity::percent;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::by_mass(&[("R-32", percent(70.0)), ("R-1234yf", percent(30.0))])?;
    /// assert_eq!(r.designation(), "R-32/R-1234yf 70.0/30.0");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn by_mass(composition: &[(&str, Ratio)]) -> Result<Refrigerant> {
        Self::blended(composition, Basis::Mass)
    }

    /// A blend of one's own, by mole; see [`by_mass`](Self::by_mass).
    ///
    /// # Errors
    /// As [`by_mass`](Self::by_mass).
    pub fn by_mole(composition: &[(&str, Ratio)]) -> Result<Refrigerant> {
        Self::blended(composition, Basis::Mole)
    }

    fn blended(composition: &[(&str, Ratio)], basis: Basis) -> Result<Refrigerant> {
        let mut components = Vec::new();
        for (name, share) in composition {
            let listing = designation::find(name)?;
            if listing.components.len() > 1 {
                return Err(Error::inconsistent(
                    format!("component {}", listing.designation),
                    "it is itself a blend",
                    "give its components instead",
                ));
            }
            components.push((listing.designation.as_str(), share.percent() / 100.0));
        }
        let fluid = Fluid::blend(&components, basis).map_err(failure::of_composition)?;
        Ok(Refrigerant(Arc::new(Inner { designation: label(&fluid), fluid, listing: None })))
    }

    /// The designation, or for a blend of one's own its components and their shares by mass.
    pub fn designation(&self) -> &str {
        &self.0.designation
    }

    /// The equation of state behind it, in SI.
    pub fn fluid(&self) -> &Fluid {
        &self.0.fluid
    }

    /// Components and their shares by mass, in the order of the designation.
    pub fn components(&self) -> impl Iterator<Item = (&str, Ratio)> {
        let shares = self.0.fluid.mass_fractions().iter().map(|share| percent(100.0 * share));
        self.0.fluid.components().zip(shares)
    }

    /// Whether it is a blend of more than one component.
    pub fn is_blend(&self) -> bool {
        self.0.fluid.mass_fractions().len() > 1
    }

    /// Pure, zeotrope or azeotrope as listed; a blend of one's own counts as a zeotrope.
    pub fn kind(&self) -> Kind {
        match self.0.listing {
            Some(listing) => listing.kind,
            None if self.is_blend() => Kind::Zeotrope,
            None => Kind::Pure,
        }
    }

    /// Safety group of ANSI/ASHRAE Standard 34, where its listing gives one.
    pub fn safety_group(&self) -> Option<SafetyGroup> {
        self.0.listing.and_then(|listing| listing.safety_group())
    }

    /// How far each component's share may lie from nominal by the standard (below, above), in the order of
    /// [`components`](Self::components); `None` where the listing gives none.
    pub fn composition_tolerances(&self) -> Option<Vec<(Ratio, Ratio)>> {
        let tolerances = self.0.listing?.tolerance_percent.as_ref()?;
        Some(tolerances.iter().map(|[below, above]| (percent(*below), percent(*above))).collect())
    }

    /// Where liquid and vapour become one.
    ///
    /// # Source
    /// A pure fluid: its equation's paper. A blend: Heidemann and Khalil, AIChE J. 26 (1980) 769.
    ///
    /// # Accuracy
    /// Some tenths of a kelvin for a blend: mixture models are least accurate there.
    ///
    /// # Errors
    /// None was found for this composition.
    pub fn critical_temperature(&self) -> Result<Temperature> {
        let point = self.0.fluid.critical_point().map_err(failure::of_composition)?;
        Ok(kelvins(point.temperature))
    }
}

/// `R-32/R-1234yf 70.0/30.0`
fn label(fluid: &Fluid) -> String {
    let names: Vec<&str> = fluid.components().collect();
    if let [one] = names.as_slice() {
        return (*one).to_owned();
    }
    let shares: Vec<String> = fluid.mass_fractions().iter().map(|w| format!("{:.1}", 100.0 * w)).collect();
    format!("{} {}", names.join("/"), shares.join("/"))
}

impl fmt::Display for Refrigerant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.designation())
    }
}

impl fmt::Debug for Refrigerant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Refrigerant({})", self.designation())
    }
}

impl PartialEq for Refrigerant {
    /// The same composition.
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
            || (self.0.fluid.components().eq(other.0.fluid.components())
                && self.0.fluid.mass_fractions() == other.0.fluid.mass_fractions())
    }
}
