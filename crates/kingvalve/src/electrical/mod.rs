//! Run capacitors, supply and circuits.
