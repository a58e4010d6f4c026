//! The sheet as one HTML page.

use std::sync::LazyLock;

use minijinja::syntax::SyntaxConfig;
use minijinja::value::Serde;
use minijinja::{AutoEscape, Environment};

use super::view::View;
use crate::{Error, Result};

const NAME: &str = "options.html";

/// The template is read once; everything it prints is escaped as HTML.
static PAGE: LazyLock<Result<Environment<'static>, String>> = LazyLock::new(|| {
    let mut page = Environment::new();
    page.set_auto_escape_callback(|_| AutoEscape::Html);
    let syntax = SyntaxConfig::builder().trim_blocks(true).lstrip_blocks(true).build();
    page.set_syntax(syntax.map_err(|error| error.to_string())?);
    page.add_template(NAME, include_str!("options.html")).map_err(|error| error.to_string())?;
    page.add_template("options.css", include_str!("options.css")).map_err(|error| error.to_string())?;
    Ok(page)
});

pub(super) fn render(view: &View) -> Result<String> {
    let faulty = |error: String| Error::inconsistent("template of the options sheet", error, "report this");
    let page = PAGE.as_ref().map_err(|error| faulty(error.clone()))?;
    let template = page.get_template(NAME).map_err(|error| faulty(error.to_string()))?;
    template.render(Serde(view)).map_err(|error| faulty(error.to_string()))
}
