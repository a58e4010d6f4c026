//! What each way forward costs.
