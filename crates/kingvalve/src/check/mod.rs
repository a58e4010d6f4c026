//! Every check by name, JSON in and a finding out.
