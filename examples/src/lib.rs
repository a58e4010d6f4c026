//! Support for the examples of kingvalve.
