//! Sheets as HTML pages, from templates that a shop can replace.

use std::sync::LazyLock;

use minijinja::syntax::SyntaxConfig;
use minijinja::value::Serde;
use minijinja::{AutoEscape, Environment};
use serde::Serialize;

use crate::{Error, Result};

/// The templates sheets are printed by.
///
/// Four pages and their style, in the template language of `minijinja`. A shop can replace any of them by its own; what
/// they are given stays text: everything they print is escaped as HTML.
///
/// # Errors
/// A name that is not a template's; a template that does not read.
///
/// # Example
/// ```
/// use kingvalve::estimate::{OptionsSheet, RateCard, Situation, Templates};
/// use kingvalve::measure::Interval;
/// use kingvalve::quantity::pounds;
/// # let card = RateCard::from_json(include_str!("../../../../../examples/data/rate_card.json"))?;
/// let situation = Situation::new("R-454B", Interval::new(pounds(4.1), pounds(6.5))?);
/// let ways = situation.ways().iter().map(|way| way.price(&card)).collect::<Result<_, _>>()?;
/// let sheet = OptionsSheet { shop: "A & B".into(), ways, ..OptionsSheet::default() };
/// let own = Templates::new()?.replaced("options.html", "<p>{{ shop }}: {{ ways|length }} ways</p>")?;
/// assert_eq!(sheet.to_html_by(&own)?, "<p>A &amp; B: 4 ways</p>");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Templates<'text>(Environment<'text>);

/// Every template there is: a shop replaces one by its name.
const BUILT_IN: [(&str, &str); 7] = [
    ("options.html", include_str!("options.html")),
    ("options.css", include_str!("options.css")),
    ("outlook.html", include_str!("outlook.html")),
    ("report.html", include_str!("report.html")),
    ("invoice.html", include_str!("invoice.html")),
    ("page.css", include_str!("page.css")),
    ("head.html", include_str!("head.html")),
];

impl<'text> Templates<'text> {
    /// The built-in templates.
    ///
    /// # Errors
    /// None: that they read is tested.
    pub fn new() -> Result<Self> {
        let mut templates = Self(Environment::new());
        templates.0.set_auto_escape_callback(|_| AutoEscape::Html);
        let syntax = SyntaxConfig::builder().trim_blocks(true).lstrip_blocks(true).build();
        templates.0.set_syntax(syntax.map_err(|error| faulty(&error))?);
        for (name, text) in BUILT_IN {
            templates.0.add_template(name, text).map_err(|error| faulty(&error))?;
        }
        Ok(templates)
    }

    /// The names of the templates.
    pub fn names() -> impl Iterator<Item = &'static str> {
        BUILT_IN.into_iter().map(|(name, _)| name)
    }

    /// The text of a built-in template, to start one's own from.
    ///
    /// # Errors
    /// A name that is not a template's.
    pub fn text(name: &str) -> Result<&'static str> {
        let found = BUILT_IN.into_iter().find(|(known, _)| *known == name);
        found.map(|(_, text)| text).ok_or_else(|| Error::unknown("template", name, Self::names()))
    }

    /// The same with one template replaced.
    ///
    /// # Errors
    /// A name that is not a template's; a text that does not read as a template.
    pub fn replaced(mut self, name: &'static str, text: &'text str) -> Result<Self> {
        Self::text(name)?;
        self.0.add_template(name, text).map_err(|error| faulty(&error))?;
        Ok(self)
    }

    pub(super) fn render(&self, name: &str, view: impl Serialize) -> Result<String> {
        let template = self.0.get_template(name).map_err(|error| faulty(&error))?;
        template.render(Serde(view)).map_err(|error| faulty(&error))
    }
}

/// The built-in templates, read once.
static READ: LazyLock<Result<Templates<'static>>> = LazyLock::new(Templates::new);

/// A page by the built-in templates.
pub(super) fn render(name: &str, view: impl Serialize) -> Result<String> {
    READ.as_ref().map_err(Clone::clone)?.render(name, view)
}

fn faulty(error: &minijinja::Error) -> Error {
    Error::malformed("a template of a sheet", format!("{error:#}"))
}
