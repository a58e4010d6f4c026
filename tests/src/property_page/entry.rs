//! What the page says of one refrigerant.

use kingvalve::quantity::{Temperature, celsius, kilopascals};
use kingvalve::refrigerant::{PairBasis, Refrigerant};
use kingvalve_fluid::{Fluid, Line};

use super::peers::Peers;

/// The cells of one refrigerant, and the papers they name.
#[derive(Debug, Clone)]
pub(super) struct Entry {
    pub name: String,
    pub is_blend: bool,
    pub substance: String,
    pub equations: Vec<String>,
    pub pairs: String,
    pub worst_pair: Option<PairBasis>,
    pub pair_papers: Vec<String>,
    pub expected: String,
    pub range: String,
    pub boiling: String,
    pub glide: String,
    pub critical: String,
    pub coolprop: String,
    pub teqp: String,
    /// Key and citation.
    pub papers: Vec<(String, String)>,
}

impl Entry {
    pub(super) fn of(r: &Refrigerant, peers: &Peers) -> Result<Entry, String> {
        let fluid = r.fluid();
        let accuracy = r.accuracy();
        let count = |basis| accuracy.pairs().iter().filter(|pair| pair.basis == basis).count();
        let counts = [PairBasis::Measured, PairBasis::Fitted, PairBasis::Estimated].map(count);
        let equations = fluid.sources().map(|source| source.key.clone()).collect();
        let mut pair_papers: Vec<String> = fluid.pairs().iter().map(|pair| pair.source.key.clone()).collect();
        pair_papers.sort();
        pair_papers.dedup();
        let of_pairs = fluid.pairs().iter().map(|pair| &pair.source);
        let papers = fluid.sources().chain(of_pairs);
        Ok(Entry {
            name: r.designation().to_owned(),
            is_blend: r.is_blend(),
            substance: if r.is_blend() { composition(r) } else { substance(fluid) },
            equations,
            pairs: counts.map(|count| count.to_string()).join(" / "),
            worst_pair: accuracy.basis(),
            pair_papers,
            expected: format!("{:.1} %", accuracy.pressure_error().percent()),
            range: range(fluid)?,
            boiling: boiling(r),
            glide: glide(r),
            critical: critical(fluid)?,
            coolprop: peers.cell(r.designation(), "CoolProp")?,
            teqp: peers.cell(r.designation(), "teqp")?,
            papers: papers.map(|source| (source.key.clone(), source.citation.clone())).collect(),
        })
    }
}

fn substance(fluid: &Fluid) -> String {
    fluid.chemistry().map(|each| format!("{}, {}", each.chemical_name, each.formula)).collect()
}

/// `R-32 68.9, R-1234yf 31.1`
fn composition(r: &Refrigerant) -> String {
    let shares = r.components().map(|(name, share)| {
        let percent = (share.percent() * 1e6).round() / 1e6;
        format!("{name} {percent}")
    });
    shares.collect::<Vec<_>>().join(", ")
}

fn in_celsius(kelvins: f64) -> String {
    format!("{:.1}", kelvins - 273.15)
}

/// From the cold end of the bubble line to the hot end of the equations.
fn range(fluid: &Fluid) -> Result<String, String> {
    let (_, high) = fluid.temperature_range();
    let low = fluid.curve(Line::Bubble).map_err(|e| e.to_string())?.temperature_range().0;
    let most = fluid.pressure_max() / 1e6;
    Ok(format!("{} to {}; {most:.0}", in_celsius(low), in_celsius(high)))
}

/// One temperature, or bubble and dew; a dash for what has no liquid at that pressure.
fn boiling(r: &Refrigerant) -> String {
    let p = kilopascals(101.325);
    let text = |t: Temperature| format!("{:.2}", t.celsius());
    match (r.bubble_temperature(p), r.dew_temperature(p)) {
        (Ok(bubble), Ok(dew)) if r.is_blend() => format!("{} to {}", text(bubble), text(dew)),
        (Ok(bubble), Ok(_)) => text(bubble),
        _ => "–".to_owned(),
    }
}

/// At the pressure at which the liquid boils at 25 °C.
fn glide(r: &Refrigerant) -> String {
    let at = r.bubble_pressure(celsius(25.0)).and_then(|p| r.glide(p));
    // Two curves, each within a millikelvin of its equation: an azeotrope's glide may come out as −0.000.
    at.map_or_else(|_| "–".to_owned(), |glide| format!("{:.2}", glide.delta_kelvins().max(0.0)))
}

fn critical(fluid: &Fluid) -> Result<String, String> {
    let point = fluid.critical_point().map_err(|e| e.to_string())?;
    let mass_density = point.density * fluid.molar_mass();
    Ok(format!("{:.2}; {:.3}; {mass_density:.1}", point.temperature - 273.15, point.pressure / 1e6))
}
