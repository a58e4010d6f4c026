//! Support for the tests of kingvalve.
