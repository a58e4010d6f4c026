//! The charge to weigh in, line by line, each marked by what it rests on.

use std::fmt;

use serde::Serialize;

use super::{LineAllowance, PlateCharge};
use crate::measure::{Caution, Finding, Known, Label, Measured};
use crate::quantity::{Length, Mass, Quantity, Temperature, Volume, ounces};
use crate::refrigerant::Refrigerant;
use crate::{Error, Result};

/// What a part of a charge rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Basis {
    /// The data plate.
    DataPlate,
    /// The maker's figure.
    Maker,
    /// Computed from a volume and the density of the liquid.
    Computed,
    /// The shop's own figure, or a usual one.
    Usual,
}

impl Basis {
    /// In words.
    pub const fn text(self) -> &'static str {
        match self {
            Basis::DataPlate => "data plate",
            Basis::Maker => "maker's figure",
            Basis::Computed => "computed from volume and liquid density",
            Basis::Usual => "usual figure, common practice",
        }
    }
}

/// Something besides coils and lines that holds liquid: a filter-drier, a receiver, an accumulator.
///
/// # Example
/// ```
/// use kingvalve::charge::{Accessory, Basis};
/// use kingvalve::measure::Measured;
/// use kingvalve::quantity::*;
/// use kingvalve::refrigerant::Refrigerant;
/// let own = Accessory::given("filter-drier", ounces(5.0), Basis::Maker);
/// let shell = Accessory::filled("filter-drier", cubic_inches(9.0), &Refrigerant::named("R-32")?, fahrenheit(95.0))?;
/// assert_eq!(format!("{:.1}", shell.mass().value().in_unit("oz")?), "4.8 oz");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Accessory {
    name: Label,
    mass: Measured<Mass>,
    basis: Basis,
}

impl Accessory {
    /// One whose maker, or whose shop, says how much it takes.
    pub fn given(name: impl Into<Label>, mass: impl Known<Mass>, basis: Basis) -> Accessory {
        Accessory { name: name.into(), mass: measured(&mass), basis }
    }

    /// One that fills with liquid: its free internal volume times the density.
    ///
    /// # Units
    /// Volume the liquid can fill, temperature of the liquid.
    /// # Source
    /// Volume times density of the liquid at its bubble point, from the equation of state.
    /// # Valid range
    /// Temperatures of the saturation curve.
    /// # Accuracy
    /// That of the volume; a drier's core takes up a good part of its shell.
    /// # Errors
    /// A temperature outside the saturation curve.
    /// # Example
    /// See [`Accessory`].
    pub fn filled(
        name: impl Into<Label>,
        volume: impl Known<Volume>,
        refrigerant: &Refrigerant,
        liquid: Temperature,
    ) -> Result<Accessory> {
        let density = refrigerant.bubble_density(liquid)?.base();
        let mass = Measured::exact(Mass::from_base(volume.value().base() * density));
        Ok(Accessory { name: name.into(), mass: mass.depending_on(volume, density), basis: Basis::Computed })
    }

    /// A liquid-line filter-drier of residential size where nothing is known of it: 6 oz, give or take 3 oz.
    ///
    /// # Source
    /// Common practice, no source.
    /// # Errors
    /// None; the form is that of [`Measured`].
    pub fn usual_filter_drier() -> Result<Accessory> {
        let mass = Measured::from_limits(ounces(6.0), ounces(3.0), "filter-drier allowance")?;
        Ok(Accessory { name: "filter-drier".into(), mass, basis: Basis::Usual })
    }

    /// How much it takes.
    pub fn mass(&self) -> &Measured<Mass> {
        &self.mass
    }
}

/// The charge to weigh in.
///
/// # Example
/// ```
/// use kingvalve::charge::{Accessory, Basis, LineAllowance, PlateCharge, WeighIn};
/// use kingvalve::quantity::*;
/// let plate = PlateCharge {
///     factory: pounds(6.0),
///     included_line: feet(15.0),
///     allowance: Some(LineAllowance { mass: ounces(0.6), per: feet(1.0) }),
/// };
/// let charge = WeighIn::of(&plate, feet(40.0), None)?.with(Accessory::given("filter-drier", ounces(5.0), Basis::Maker))?;
/// assert_eq!(format!("{:.2}", charge.total().value()), "7.25 lb");
/// assert_eq!(charge.parts().len(), 3);
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct WeighIn {
    parts: Vec<Part>,
    total: Measured<Mass>,
}

/// One line of the sum.
#[derive(Debug, Clone)]
pub struct Part {
    /// What it is for.
    pub what: String,
    /// How much; negative for a line set shorter than included.
    pub mass: Measured<Mass>,
    /// What it rests on.
    pub basis: Basis,
}

impl WeighIn {
    /// Factory charge and line set: factory + (installed − included) × allowance, the maker's where the plate gives one,
    /// else the one computed.
    ///
    /// # Units
    /// Length of one line of the set, plain or measured; a computed allowance from
    /// [`liquid_line_allowance`](super::liquid_line_allowance).
    /// # Source
    /// As [`PlateCharge::for_line`].
    /// # Valid range
    /// As [`PlateCharge::for_line`]: an empty system, evacuated; a full charge, not a top-off.
    /// # Accuracy
    /// That of the plate, the allowance and the measured length; a computed allowance is marked
    /// [`Computed`](Basis::Computed).
    /// # Errors
    /// A data plate with no charge; a length or an allowance that cannot be; a line of another length than included with
    /// no allowance at all.
    /// # Example
    /// See [`WeighIn`].
    pub fn of(
        plate: &PlateCharge,
        installed: impl Known<Length>,
        computed: Option<LineAllowance>,
    ) -> Result<WeighIn> {
        let length = installed.value();
        let per_meter = plate.per_meter(length, plate.allowance.or(computed))?;
        plate.with_line(length, per_meter)?;
        let factory = Measured::exact(plate.factory);
        let mut parts =
            vec![Part { what: "factory charge".into(), mass: factory.clone(), basis: Basis::DataPlate }];
        let beyond = length - plate.included_line;
        let line =
            Measured::exact(Mass::from_base(per_meter * beyond.base())).depending_on(installed, per_meter);
        let total = factory + line.clone();
        if per_meter > 0.0 {
            let basis = if plate.allowance.is_some() { Basis::Maker } else { Basis::Computed };
            let side = if beyond < Length::ZERO { "short of" } else { "beyond" };
            let what = format!("{:.1} of line {side} the {:.1} included", beyond.abs(), plate.included_line);
            parts.push(Part { what, mass: line, basis });
        }
        Ok(WeighIn { parts, total })
    }

    /// Adds an accessory.
    ///
    /// # Errors
    /// One that takes less than nothing, or more than can be believed of a number that is not finite.
    pub fn with(mut self, accessory: Accessory) -> Result<WeighIn> {
        let mass = accessory.mass.value();
        if !(mass >= Mass::ZERO && mass.is_finite()) {
            return Err(Error::out_of_range(
                format!("allowance for {}", accessory.name),
                mass,
                "it is zero or more",
                "check the figure and its unit",
            )
            .in_field("accessories"));
        }
        self.total = self.total + accessory.mass.clone();
        let what = accessory.name.to_string();
        self.parts.push(Part { what, mass: accessory.mass, basis: accessory.basis });
        Ok(self)
    }

    /// The lines of the sum, in order.
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// Their sum.
    pub fn total(&self) -> &Measured<Mass> {
        &self.total
    }

    /// Whether a part was computed or is a usual figure, rather than the maker's.
    pub fn is_all_by_the_maker(&self) -> bool {
        self.parts.iter().all(|part| matches!(part.basis, Basis::DataPlate | Basis::Maker))
    }

    /// The finding in the form all checks share.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self, refrigerant: &Refrigerant) -> Result<Finding> {
        let mut finding = Finding::of("weigh_in").measured("charge to weigh in", &self.total)?;
        for part in &self.parts {
            finding = finding.measured(format!("{} ({})", part.what, part.basis.text()), &part.mass)?;
        }
        finding = finding
            .saying(self.to_string())
            .then("Evacuate and hold the vacuum first; weigh liquid in, a blend always as liquid.");
        if !self.is_all_by_the_maker() {
            finding = finding.then(
                "Weigh in what the maker gives, then finish by subcooling or superheat: a part of the sum is not the maker's.",
            );
        }
        finding = finding
            .caution(Caution::HighPressure)
            .caution(Caution::Frostbite)
            .caution(Caution::Venting)
            .source("factory charge + (installed − included length) × allowance: common practice, no source");
        if self.parts.iter().any(|part| part.basis == Basis::Computed) {
            finding = finding.source("tube of ASTM B280, liquid density from the equation of state");
        }
        Ok(refrigerant.cautioned(finding))
    }
}

impl fmt::Display for WeighIn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Weigh in {:.2}:", self.total.value())?;
        for (at, part) in self.parts.iter().enumerate() {
            let mass = part.mass.value();
            let (sign, size) = if mass < Mass::ZERO { ("−", mass.abs()) } else { ("+", mass) };
            let sign = if at == 0 { "" } else { sign };
            write!(
                f,
                " {sign}{size:.2} {} ({}){}",
                part.what,
                part.basis.text(),
                if at + 1 == self.parts.len() { "." } else { "," }
            )?;
        }
        Ok(())
    }
}

fn measured(mass: &impl Known<Mass>) -> Measured<Mass> {
    let mut doubt = crate::measure::Doubt::none();
    mass.add_to(&mut doubt, 1.0);
    Measured::new(mass.value(), doubt)
}
