//! What low capacitance does to a motor.

/// Which motor a capacitor, or a section of a dual one, serves.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Section {
    /// The compressor: HERM.
    Compressor,
    /// The condenser fan, or an indoor blower: FAN.
    Fan,
}

impl Section {
    /// What too little capacitance does to this motor, in words for a report.
    ///
    /// # Source
    /// Common practice, no source: less current through the auxiliary winding, and further from a quarter period ahead of
    /// the main winding's, gives less torque and more loss.
    /// # Example
    /// ```
    /// use kingvalve::electrical::Section;
    /// assert!(Section::Fan.effect_of_low_capacitance().contains("head pressure"));
    /// ```
    pub const fn effect_of_low_capacitance(self) -> &'static str {
        match self {
            Section::Compressor => {
                "Too little capacitance: the compressor starts harder and may stall against pressure, runs with less torque \
                 and a lower power factor, draws more current in its main winding and runs hotter, until the overload opens."
            }
            Section::Fan => {
                "Too little capacitance: the fan starts slowly or needs a push, turns slower and hotter. A slow outdoor fan \
                 raises head pressure and compressor current; a slow indoor one starves the coil of air."
            }
        }
    }

    /// What too much capacitance does, in words for a report.
    ///
    /// # Source
    /// Common practice, no source.
    pub const fn effect_of_high_capacitance(self) -> &'static str {
        "Too much capacitance: more current than the auxiliary winding is made for; it runs hot, with noise and vibration, \
         and does not run better. A larger part is no remedy for a weak motor."
    }
}
