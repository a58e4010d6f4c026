//! What can hurt someone who handles a refrigerant.

use super::{Refrigerant, SafetyGroup};
use crate::measure::{Caution, Finding};

impl Refrigerant {
    /// The cautions its safety group asks for: flammable, toxic. A blend of one's own, or one whose group is not listed, is
    /// given those of its components, which errs on the safe side; where a component's group is not known either, that is
    /// said.
    ///
    /// # Source
    /// ANSI/ASHRAE Standard 34 safety groups, as in the designation table; the rule for unlisted blends: common practice,
    /// no source.
    /// # Example
    /// ```
    /// use kingvalve::measure::Caution;
    /// use kingvalve::quantity::percent;
    /// use kingvalve::refrigerant::Refrigerant;
    /// assert!(Refrigerant::named("R-410A")?.cautions().is_empty());
    /// assert_eq!(Refrigerant::named("R-161")?.cautions(), [Caution::UnknownSafetyGroup]);
    /// let shifted = Refrigerant::by_mass(&[("R-32", percent(60.0)), ("R-1234yf", percent(40.0))])?;
    /// assert_eq!(shifted.cautions(), [Caution::FlammableRefrigerant]);
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn cautions(&self) -> Vec<Caution> {
        let groups: Vec<Option<SafetyGroup>> = match self.safety_group() {
            Some(group) => vec![Some(group)],
            None => {
                let component = |(name, _): (&str, _)| Refrigerant::named(name).ok()?.safety_group();
                self.components().map(component).collect()
            }
        };
        let any = |rule: fn(SafetyGroup) -> bool| groups.iter().flatten().any(|group| rule(*group));
        let mut cautions = Vec::new();
        if any(SafetyGroup::is_flammable) {
            cautions.push(Caution::FlammableRefrigerant);
        }
        if any(SafetyGroup::is_of_higher_toxicity) {
            cautions.push(Caution::ToxicRefrigerant);
        }
        if groups.contains(&None) {
            cautions.push(Caution::UnknownSafetyGroup);
        }
        cautions
    }

    /// A finding with these cautions added.
    #[must_use]
    pub fn cautioned(&self, finding: Finding) -> Finding {
        self.cautions().into_iter().fold(finding, Finding::caution)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn groups_and_components_decide() {
        let of = |name: &str| Refrigerant::named(name).unwrap().cautions();
        assert_eq!(of("R-22"), []);
        assert_eq!(of("R-454B"), [Caution::FlammableRefrigerant]);
        assert_eq!(of("R-123"), [Caution::ToxicRefrigerant]);
        assert_eq!(of("R-717"), [Caution::FlammableRefrigerant, Caution::ToxicRefrigerant]);
        // No group of its own: R-1234yf burns, of R-1130(E) nothing is known.
        assert_eq!(of("R-513B"), [Caution::FlammableRefrigerant]);
        assert_eq!(of("R-514A"), [Caution::UnknownSafetyGroup]);
    }
}
