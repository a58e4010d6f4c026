//! Refrigerant cylinders and the tally over them.
