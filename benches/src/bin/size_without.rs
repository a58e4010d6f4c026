//! The program of `size_with.rs` without the library, for the bytes it adds; see `make size`.
#![allow(clippy::print_stdout, reason = "a program speaks on standard output")]

fn main() {
    if let Some(Ok(t)) = std::env::args().nth(1).map(|text| text.parse::<f64>()) {
        println!("{t}");
    }
}
