//! Absolute pressure, gauge pressure, and the difference of two pressures.

use super::Quantity;
use super::define::{additive, affine, quantity, scalable};
use super::factor::{
    ATMOSPHERE, INCH_OF_MERCURY, INCH_OF_WATER, MICRON_OF_MERCURY, MM_OF_MERCURY, PSI, TORR,
};
use super::unit::Unit;

quantity! {
    /// An absolute pressure: counted from vacuum. Printed in psia.
    ///
    /// A gauge reading becomes one through the atmosphere of its [`Site`](super::Site).
    Pressure, "absolute pressure", uom Pressure, difference PressureDifference, mistaken mistaken_for_absolute;
    psia, "psia", ["psi abs", "psi(a)", "psi absolute"], PSI;
    pascals, "Pa", ["Pa abs"], 1.0;
    hectopascals, "hPa", ["mbar", "millibar"], 100.0;
    kilopascals, "kPa", ["kPa abs", "kPa(a)", "kPaa"], 1e3;
    megapascals, "MPa", ["MPa abs", "MPa(a)"], 1e6;
    bars, "bar", ["bara", "bar abs", "bar(a)"], 1e5;
    atmospheres, "atm", ["atmosphere"], ATMOSPHERE;
    inches_of_mercury, "inHg", ["inHg abs", "in Hg", "\"Hg", "inHg absolute"], INCH_OF_MERCURY;
    millimeters_of_mercury, "mmHg", ["mm Hg"], MM_OF_MERCURY;
    torr, "Torr", [], TORR;
    microns, "microns", ["micron", "µmHg", "umHg", "microns Hg"], MICRON_OF_MERCURY;
}

quantity! {
    /// A gauge pressure: counted from the atmosphere around the gauge, negative in vacuum. Printed in psig.
    ///
    /// What it is in absolute terms depends on where it was read: [`Site::absolute`](super::Site::absolute).
    /// Its zero is a place, not a nothing: it has no multiples, and no difference with an absolute pressure.
    ///
    /// ```compile_fail,E0369
    /// let _ = kingvalve::quantity::psig(50.0) * 2.0;
    /// ```
    /// ```compile_fail,E0277
    /// use kingvalve::quantity::{psia, psig};
    /// let _ = psig(62.0) - psia(14.7);
    /// ```
    GaugePressure, "gauge pressure", uom Pressure, difference PressureDifference, mistaken mistaken_for_gauge;
    psig, "psig", ["psi gauge", "psi(g)"], PSI;
    pascals_gauge, "Pag", ["Pa gauge", "Pa(g)"], 1.0;
    kilopascals_gauge, "kPag", ["kPa gauge", "kPa(g)"], 1e3;
    megapascals_gauge, "MPag", ["MPa gauge", "MPa(g)"], 1e6;
    bars_gauge, "barg", ["bar gauge", "bar(g)"], 1e5;
    inches_of_mercury_vacuum, "inHg vac", ["inHg vacuum", "in Hg vac", "\"Hg vac"], -INCH_OF_MERCURY;
}

quantity! {
    /// The difference of two pressures, both gauge or both absolute; also the span or the step of a gauge.
    /// Printed in psi.
    PressureDifference, "pressure difference", uom Pressure, difference PressureDifference, mistaken mistaken_for_difference;
    psi, "psi", ["psid", "Δpsi", "lbf/in²"], PSI;
    delta_pascals, "Pa", ["ΔPa"], 1.0;
    delta_kilopascals, "kPa", ["ΔkPa"], 1e3;
    delta_bars, "bar", ["Δbar"], 1e5;
    delta_millibars, "mbar", ["hPa", "Δmbar"], 100.0;
    inches_of_water, "inH2O", ["inH₂O", "inWC", "in wc", "in. w.c.", "in. wc", "inWG", "iwc"], INCH_OF_WATER;
    delta_inches_of_mercury, "inHg", ["in Hg", "ΔinHg"], INCH_OF_MERCURY;
    delta_microns, "microns", ["micron", "µmHg", "umHg", "Δmicrons"], MICRON_OF_MERCURY;
}

/// What a pressure can be raised by: a pressure difference.
#[diagnostic::on_unimplemented(
    message = "`{Self}` cannot be added to a pressure",
    label = "a pressure can be raised by a `PressureDifference` only, such as `psi(5.0)`",
    note = "a gauge pressure becomes absolute at its site: `site.absolute(psig(62.0))?` (see `Site::absolute`)"
)]
pub trait PressureStep: Quantity<Difference = PressureDifference> {}
impl PressureStep for PressureDifference {}

additive!(PressureDifference);
affine!(Pressure, PressureDifference, PressureStep);
affine!(GaugePressure, PressureDifference, PressureStep);
scalable!(Pressure);

fn mistaken_for_absolute(unit: &str) -> Option<String> {
    if unit.eq_ignore_ascii_case("psi") {
        return Some("psi alone does not say absolute or gauge: write psia".into());
    }
    Unit::find(GaugePressure::units(), unit).map(|unit| {
        format!("{} is a gauge unit: add the atmosphere of the site (Site::absolute) first", unit.symbol)
    })
}

fn mistaken_for_gauge(unit: &str) -> Option<String> {
    if unit.eq_ignore_ascii_case("psi") {
        return Some("psi alone does not say gauge or absolute: write psig".into());
    }
    Unit::find(Pressure::units(), unit).map(|unit| {
        format!(
            "{} is read as absolute: take the atmosphere of the site off (Site::gauge) first",
            unit.symbol
        )
    })
}

fn mistaken_for_difference(unit: &str) -> Option<String> {
    Unit::find(GaugePressure::units(), unit)
        .or_else(|| Unit::find(Pressure::units(), unit))
        .map(|unit| format!("{} is one pressure, not the difference of two", unit.symbol))
}
