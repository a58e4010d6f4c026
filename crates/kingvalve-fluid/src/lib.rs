//! Refrigerant properties from published equations of state; SI `f64` inside.
