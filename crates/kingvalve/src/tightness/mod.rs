//! Pressure tests and vacuum decay.
