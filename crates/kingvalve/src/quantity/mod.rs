//! Quantities of the trade, each its own type.
