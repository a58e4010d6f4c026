//! Ten thousand visits from JSON Lines: read, evaluated, added to a ledger, on one core; how long, and how much memory.
//! An outlook is asked for on none of them: its draws are what it costs.
#![allow(clippy::print_stdout, reason = "a program speaks on standard output")]

use std::error::Error;
use std::io::{self, BufReader, Read};
use std::time::Instant;

use kingvalve::visit::{Ledger, Visit, visits};

const EXAMPLE: &str = include_str!("../../../examples/data/no_cool_r454b.json");

/// One line over and over, without ever holding them all.
struct Repeated {
    line: Vec<u8>,
    at: usize,
    left: u32,
}

impl Read for Repeated {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        if self.at == self.line.len() {
            (self.at, self.left) = (0, self.left.saturating_sub(1));
        }
        if self.left == 0 {
            return Ok(0);
        }
        let rest = self.line.get(self.at..).unwrap_or_default();
        let count = rest.len().min(into.len());
        for (to, from) in into.iter_mut().zip(rest) {
            *to = *from;
        }
        self.at += count;
        Ok(count)
    }
}

/// The most memory this process has held, in megabytes, where the system tells it.
fn peak() -> Option<f64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.split_whitespace().next()?.parse::<f64>().ok().map(|kilobytes| kilobytes / 1024.0)
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut record: serde_json::Value = serde_json::from_str(EXAMPLE)?;
    record.as_object_mut().map(|fields| fields.remove("outlook"));
    let line = Visit::from_json(&record.to_string())?.to_json_line()? + "\n";
    println!("one visit: {} bytes", line.len());
    for count in [1_000, 10_000] {
        let stream = Repeated { line: line.clone().into_bytes(), at: 0, left: count };
        let (start, mut ledger) = (Instant::now(), Ledger::default());
        for visit in visits(BufReader::new(stream)) {
            ledger.add(&visit?.evaluate()?);
        }
        let seconds = start.elapsed().as_secs_f64();
        let memory = peak().map_or(String::new(), |peak| format!(", at most {peak:.1} MB held"));
        println!("{} visits: {seconds:.2} s{memory}", ledger.visits());
    }
    Ok(())
}
