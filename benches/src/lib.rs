//! Support for the benches of kingvalve.
