//! Records in files: one to a file, or many as JSON Lines.

use std::fs;
use std::io::{BufRead, Read, Write};
use std::path::Path;

use super::{MOST_BYTES, Visit};
use crate::{Error, Result};

/// Writes `text` so that the file is either as it was or whole: beside its place, to the disk, then moved there.
///
/// # Errors
/// What the file system refuses; nothing is left behind then.
///
/// # Example
/// ```
/// use kingvalve::visit::write_whole;
/// let place = std::env::temp_dir().join(format!("kingvalve-{}.json", std::process::id()));
/// write_whole(&place, "{}\n")?;
/// assert_eq!(std::fs::read_to_string(&place).unwrap(), "{}\n");
/// # std::fs::remove_file(&place).unwrap();
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn write_whole(place: &Path, text: &str) -> Result<()> {
    let refused = |error: std::io::Error| {
        Error::unreadable("a file to write", place.display().to_string(), error.to_string())
    };
    let name = place.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let beside = place.with_file_name(format!(".{name}.{}.partial", std::process::id()));
    let written = fs::File::create(&beside)
        .and_then(|mut file| file.write_all(text.as_bytes()).and_then(|()| file.sync_all()))
        .and_then(|()| fs::rename(&beside, place));
    written.map_err(|error| {
        let _ = fs::remove_file(&beside);
        refused(error)
    })
}

/// The visits of a stream of JSON Lines, one record a line, read one at a time; blank lines are passed over.
///
/// Memory holds one record, however long the stream is. After an error of one line the next can still be read.
///
/// # Errors
/// Each line's own, with its number; a line longer than a record may be; what the stream refuses.
///
/// # Example
/// ```
/// use kingvalve::visit::{Visit, visits};
/// # let text = include_str!("../../../../examples/data/no_cool_r454b.json");
/// let line = Visit::from_json(text)?.to_json_line()?;
/// let stream = format!("{line}\n{{}}\n{line}\n");
/// let read: Vec<_> = visits(stream.as_bytes()).collect();
/// assert!(read[0].is_ok() && read[2].is_ok());
/// assert_eq!(read[1].as_ref().unwrap_err().field(), Some("line 2"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn visits(stream: impl BufRead) -> impl Iterator<Item = Result<Visit>> {
    Lines { stream, number: 0, line: Vec::new(), ended: false }
}

struct Lines<R> {
    stream: R,
    number: u64,
    line: Vec<u8>,
    ended: bool,
}

impl<R: BufRead> Iterator for Lines<R> {
    type Item = Result<Visit>;

    fn next(&mut self) -> Option<Result<Visit>> {
        while !self.ended {
            self.line.clear();
            self.number += 1;
            let most = MOST_BYTES as u64 + 1;
            let read = self.stream.by_ref().take(most).read_until(b'\n', &mut self.line);
            let visit = match read {
                Ok(0) => {
                    self.ended = true;
                    return None;
                }
                Ok(_) => self.visit(),
                Err(error) => {
                    self.ended = true;
                    Some(Err(Error::malformed("a stream of visits", error.to_string())))
                }
            };
            let number = self.number;
            if let Some(visit) = visit {
                return Some(visit.map_err(|error| error.in_field(format!("line {number}"))));
            }
        }
        None
    }
}

impl<R: BufRead> Lines<R> {
    /// The visit of the line that was read; none where it is blank.
    fn visit(&mut self) -> Option<Result<Visit>> {
        if self.line.len() > MOST_BYTES {
            // The rest of a line without end cannot be told from the next record.
            self.ended = true;
        }
        match std::str::from_utf8(&self.line) {
            Ok(text) if text.trim().is_empty() => None,
            Ok(text) => Some(Visit::from_json(text)),
            Err(error) => Some(Err(Error::malformed("a line of visits", error.to_string()))),
        }
    }
}
