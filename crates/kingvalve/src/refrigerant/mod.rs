//! Refrigerants by designation, in trade terms.
