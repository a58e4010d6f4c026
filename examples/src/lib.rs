//! What the example programs share: arguments and the setting of a page of text.

pub mod sheets;

use std::fmt::Write as _;
use std::path::PathBuf;
use std::process::ExitCode;

/// The widest line of a page.
pub const WIDTH: usize = 78;

/// A line of text: a page or an SVG plot in the making.
pub type Text = Result<String, Box<dyn std::error::Error>>;

/// What a story is called with: nothing, or where to draw.
///
/// # Errors
/// The exit code, where help was asked for (and printed) or the arguments are not understood (and said so).
#[allow(clippy::print_stdout, reason = "a program speaks on standard output")]
pub fn svg_argument(name: &str, help: &str) -> Result<Option<PathBuf>, ExitCode> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match arguments.as_slice() {
        [] => Ok(None),
        ["--help" | "-h"] => {
            println!("{help}");
            Err(ExitCode::SUCCESS)
        }
        ["--svg", file] => Ok(Some(PathBuf::from(file))),
        _ => {
            eprintln!("{name}: nothing, or --svg and a file, is wanted\n\n{help}");
            Err(ExitCode::from(2))
        }
    }
}

/// Runs a story: prints its page, or says what went wrong.
#[allow(clippy::print_stdout, reason = "a program speaks on standard output")]
pub fn tell(name: &str, help: &str, story: impl FnOnce(Option<PathBuf>) -> Text) -> ExitCode {
    let svg = match svg_argument(name, help) {
        Ok(svg) => svg,
        Err(code) => return code,
    };
    match story(svg) {
        Ok(page) => {
            print!("{page}");
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{name}: {error}");
            ExitCode::FAILURE
        }
    }
}

/// Adds a paragraph: lines of at most [`WIDTH`] characters, set in by three.
///
/// # Errors
/// None: writing to a string cannot fail.
pub fn paragraph(page: &mut String, text: &str) -> std::fmt::Result {
    let mut line = String::from("  ");
    for word in text.split_whitespace() {
        if line.chars().count() + 1 + word.chars().count() > WIDTH {
            writeln!(page, "{line}")?;
            line = String::from("  ");
        }
        line.push(' ');
        line.push_str(word);
    }
    writeln!(page, "{line}")
}
