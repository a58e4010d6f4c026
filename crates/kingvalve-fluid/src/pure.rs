//! One pure fluid: its equation of state and its constants.

use std::collections::HashMap;
use std::sync::{Arc, LazyLock, Mutex};

use crate::data::{CriticalPoint, PureFile, ReducingPoint, Source, Valid, pure_text};
use crate::eos::Terms;
use crate::eos::ideal::Ideal;
use crate::error::{Error, Result};

/// What a component is, apart from its equation of state.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Chemistry {
    /// As chemists say it.
    pub chemical_name: String,
    /// Sum or structural formula.
    pub formula: String,
    /// Registry number of the Chemical Abstracts Service.
    pub cas: String,
    /// K
    pub triple_point_temperature: f64,
}

impl Chemistry {
    /// Whether the formula has fluorine, chlorine, bromine or iodine in it.
    pub fn is_halogenated(&self) -> bool {
        ["F", "Cl", "Br", "I"].iter().any(|element| self.formula.contains(element))
    }
}

/// An equation of state as its paper gives it.
#[derive(Debug)]
pub(crate) struct Pure {
    pub name: String,
    pub chemistry: Chemistry,
    pub source: Source,
    /// kg/mol
    pub molar_mass: f64,
    /// J/(mol K)
    pub gas_constant: f64,
    pub critical: CriticalPoint,
    pub reducing: ReducingPoint,
    pub acentric_factor: f64,
    pub valid: Valid,
    pub ideal: Ideal,
    pub residual: Terms,
}

impl Pure {
    /// The fluid by its designation; parsed on first use, then shared.
    pub fn named(name: &str) -> Result<Arc<Pure>> {
        static PARSED: LazyLock<Mutex<HashMap<&'static str, Arc<Pure>>>> = LazyLock::new(Mutex::default);
        let Some((key, text)) = pure_text(name) else {
            return Err(Error::unknown_fluid(name));
        };
        let mut parsed = PARSED.lock().unwrap_or_else(|poisoned| poisoned.into_inner());
        if let Some(fluid) = parsed.get(key) {
            return Ok(Arc::clone(fluid));
        }
        let fluid = Arc::new(Pure::parse(key, text)?);
        parsed.insert(key, Arc::clone(&fluid));
        Ok(fluid)
    }

    fn parse(key: &str, text: &str) -> Result<Pure> {
        let file: PureFile = serde_json::from_str(text).map_err(|e| Error::data(key, e.to_string()))?;
        Ok(Pure {
            ideal: Ideal::from_blocks(&file.ideal),
            residual: Terms::from_blocks(&file.residual),
            name: file.name,
            chemistry: Chemistry {
                chemical_name: file.chemical_name,
                formula: file.formula,
                cas: file.cas,
                triple_point_temperature: file.triple_point_temperature,
            },
            source: file.source,
            molar_mass: file.molar_mass,
            gas_constant: file.gas_constant,
            critical: file.critical,
            reducing: file.reducing,
            acentric_factor: file.acentric_factor,
            valid: file.valid,
        })
    }
}
