//! What pattern of readings points to what.
