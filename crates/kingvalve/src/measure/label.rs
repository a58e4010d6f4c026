//! Short texts that are cheap to copy.

use std::fmt;
use std::sync::Arc;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A short text: fixed in the program (copied for nothing), or read from a file (shared).
///
/// # Example
/// ```
/// use kingvalve::measure::Label;
/// let fixed = Label::from("clamp ammeter");
/// assert_eq!(fixed, Label::from(String::from("clamp ammeter")));
/// ```
#[derive(Clone, schemars::JsonSchema)]
#[schemars(with = "String", inline)]
pub struct Label(Text);

#[derive(Clone)]
enum Text {
    Fixed(&'static str),
    /// Boxed once more, so that the whole is two words.
    Shared(Arc<Box<str>>),
}

impl Label {
    /// No text.
    pub const EMPTY: Label = Label(Text::Fixed(""));

    /// The text.
    pub fn as_str(&self) -> &str {
        match &self.0 {
            Text::Fixed(text) => text,
            Text::Shared(text) => text,
        }
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.as_str().is_empty()
    }
}

impl Default for Label {
    fn default() -> Self {
        Label::EMPTY
    }
}

impl From<&'static str> for Label {
    fn from(text: &'static str) -> Self {
        Label(Text::Fixed(text))
    }
}

impl From<String> for Label {
    fn from(text: String) -> Self {
        Label(Text::Shared(Arc::new(text.into())))
    }
}

impl PartialEq for Label {
    fn eq(&self, other: &Self) -> bool {
        self.as_str() == other.as_str()
    }
}

impl fmt::Display for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

impl fmt::Debug for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", self.as_str())
    }
}

impl Serialize for Label {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.as_str())
    }
}

impl<'de> Deserialize<'de> for Label {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer).map(Label::from)
    }
}
