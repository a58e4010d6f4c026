//! Instruments, readings, their doubt, and verdicts.

mod arithmetic;
mod caution;
mod distribution;
mod doubt;
mod instrument;
mod instrument_json;
mod interval;
mod judgement;
mod known;
mod label;
mod level;
mod limits;
mod measured;
mod prose;
mod reading;
mod settle;
mod site;
mod source;
mod spread;
mod together;
mod verdict;

pub use caution::Caution;
pub use doubt::Doubt;
pub use instrument::{Coverage, Instrument};
pub use interval::Interval;
pub use judgement::Judgement;
pub use known::{All3, Both, Doubtful, Grade, Known, Plain, carry_all3, carry_both};
pub use label::Label;
pub use level::Level;
pub use limits::Limits;
pub use measured::{Measured, Share};
pub use reading::Reading;
pub use settle::{Remedy, Settle};
pub use together::Together;
pub use verdict::Verdict;
