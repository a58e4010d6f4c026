//! `make calibration`: whether verdicts and intervals keep what they claim, over 100,000 simulated parts
//! and 10,080 simulated air conditioners.
#![allow(clippy::print_stdout, reason = "what it is for")]

use std::process::ExitCode;

fn main() -> kingvalve::Result<ExitCode> {
    let calibration = kingvalve_tests::calibration::run(100_000, 560, 1)?;
    print!("{}", calibration.report());
    Ok(if calibration.holds() && calibration.holds_by_meter() {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    })
}
