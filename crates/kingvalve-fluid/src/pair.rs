//! Binary parameters: which pair follows which paper.

use std::collections::HashMap;
use std::sync::{Arc, LazyLock};

use crate::data::{PairBasis, PairFile, Source, pair_texts};
use crate::eos::Terms;
use crate::error::{Error, Result};

/// The parameters of one pair, for its components in the order asked.
#[derive(Debug, Clone)]
pub(crate) struct Pair {
    pub beta_temperature: f64,
    pub gamma_temperature: f64,
    pub beta_volume: f64,
    pub gamma_volume: f64,
    pub departure: Option<(f64, Arc<Terms>)>,
    /// The departure function was fitted to this very pair, not shared with others.
    pub own_departure: bool,
    pub basis: PairBasis,
    pub source: Arc<Source>,
}

/// Relative error in bubble pressure at equal moles that nine estimated pairs in ten stay below, and the median:
/// measured by `pair/tests.rs`, which applies the estimate to all pairs with fitted parameters. Here of two halogenated
/// components (142 pairs; two of hydrocarbons are no worse).
pub(crate) const ESTIMATED_ALIKE: f64 = 0.245;
#[cfg(test)]
pub(crate) const ESTIMATED_ALIKE_MEDIAN: f64 = 0.058;
/// As above, of a halogenated component and another (115 pairs). The estimate is nearly always too low.
pub(crate) const ESTIMATED_UNLIKE: f64 = 0.362;
#[cfg(test)]
pub(crate) const ESTIMATED_UNLIKE_MEDIAN: f64 = 0.241;

type Table = HashMap<(String, String), Pair>;

/// The parameters of the pair `first`–`second`, estimated where nothing is published for it.
pub(crate) fn find(first: &str, second: &str) -> Result<Pair> {
    static TABLE: LazyLock<Result<Table>> = LazyLock::new(read);
    let table = TABLE.as_ref().map_err(Error::clone)?;
    let key = (first.to_owned(), second.to_owned());
    if let Some(pair) = table.get(&key) {
        return Ok(pair.clone());
    }
    let flipped = table.get(&(key.1, key.0)).map(|pair| Pair {
        // β belongs to an order of the two components, γ does not.
        beta_temperature: 1.0 / pair.beta_temperature,
        beta_volume: 1.0 / pair.beta_volume,
        ..pair.clone()
    });
    Ok(flipped.unwrap_or_else(lorentz_berthelot))
}

/// The combining rules of Lorentz and Berthelot, v_ij = (v_i^⅓ + v_j^⅓)³/8 and T_ij = √(T_i T_j): in the form of
/// the reducing functions used here, β = γ = 1.
pub(crate) fn lorentz_berthelot() -> Pair {
    static SOURCE: LazyLock<Arc<Source>> = LazyLock::new(|| {
        Arc::new(Source {
            key: "lorentz-berthelot".to_owned(),
            citation:
                "Lorentz-Berthelot combining rules, as used for pairs without data by O. Kunz and W. Wagner, \
                       J. Chem. Eng. Data 57 (2012) 3032-3091, doi:10.1021/je300655b"
                    .to_owned(),
        })
    });
    Pair {
        beta_temperature: 1.0,
        gamma_temperature: 1.0,
        beta_volume: 1.0,
        gamma_volume: 1.0,
        departure: None,
        own_departure: false,
        basis: PairBasis::Estimated,
        source: Arc::clone(&SOURCE),
    }
}

fn read() -> Result<Table> {
    let mut files = Vec::new();
    let mut departures = HashMap::new();
    for (name, text) in pair_texts() {
        let file: PairFile = serde_json::from_str(text).map_err(|e| Error::data(name, e.to_string()))?;
        for departure in &file.departures {
            let terms = Arc::new(Terms::from_blocks(&departure.terms));
            departures.insert(departure.name.clone(), terms);
        }
        files.push((name, file));
    }
    // A pair may use the departure function of another paper's pair (a generalized one).
    let mut table = Table::new();
    for (name, file) in files {
        let source = Arc::new(file.source);
        let users =
            |name: &str| file.pairs.iter().filter(|pair| pair.departure.as_deref() == Some(name)).count();
        let own: Vec<String> = file
            .departures
            .iter()
            .filter(|departure| !departure.name.starts_with("Generalized") && users(&departure.name) == 1)
            .map(|departure| departure.name.clone())
            .collect();
        for data in file.pairs {
            let own_departure = data.departure.as_ref().is_some_and(|name| own.contains(name));
            let departure = match &data.departure {
                None => None,
                Some(wanted) => {
                    let terms = departures
                        .get(wanted)
                        .ok_or_else(|| Error::data(name, format!("no departure function {wanted:?}")))?;
                    Some((data.factor, Arc::clone(terms)))
                }
            };
            let [first, second] = data.components;
            table.entry((first, second)).or_insert(Pair {
                beta_temperature: data.beta_temperature,
                gamma_temperature: data.gamma_temperature,
                beta_volume: data.beta_volume,
                gamma_volume: data.gamma_volume,
                departure,
                own_departure,
                basis: data.basis,
                source: Arc::clone(&source),
            });
        }
    }
    Ok(table)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests;
