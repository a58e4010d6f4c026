//! A refrigerant in JSON: its designation, and its components by mass so that a blend of one's own comes back.

use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::Result;
use crate::quantity::Ratio;
use crate::refrigerant::Refrigerant;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Form {
    designation: String,
    components: Vec<(String, Ratio)>,
}

impl From<&Refrigerant> for Form {
    fn from(refrigerant: &Refrigerant) -> Form {
        Form {
            designation: refrigerant.designation().to_owned(),
            components: refrigerant.components().map(|(name, share)| (name.to_owned(), share)).collect(),
        }
    }
}

impl Form {
    fn refrigerant(self) -> Result<Refrigerant> {
        if let Ok(listed) = Refrigerant::named(&self.designation) {
            return Ok(listed);
        }
        let parts: Vec<(&str, Ratio)> =
            self.components.iter().map(|(name, share)| (name.as_str(), *share)).collect();
        Refrigerant::by_mass(&parts)
    }
}

pub(super) fn serialize<S: Serializer>(
    refrigerant: &Refrigerant,
    serializer: S,
) -> std::result::Result<S::Ok, S::Error> {
    Form::from(refrigerant).serialize(serializer)
}

pub(super) fn deserialize<'de, D: Deserializer<'de>>(
    deserializer: D,
) -> std::result::Result<Refrigerant, D::Error> {
    Form::deserialize(deserializer)?.refrigerant().map_err(D::Error::custom)
}

/// The same for one that may be missing.
pub(super) mod maybe {
    use super::*;

    pub(in super::super) fn serialize<S: Serializer>(
        refrigerant: &Option<Refrigerant>,
        serializer: S,
    ) -> std::result::Result<S::Ok, S::Error> {
        refrigerant.as_ref().map(Form::from).serialize(serializer)
    }

    pub(in super::super) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> std::result::Result<Option<Refrigerant>, D::Error> {
        let form = Option::<Form>::deserialize(deserializer)?;
        form.map(|form| form.refrigerant().map_err(D::Error::custom)).transpose()
    }
}
