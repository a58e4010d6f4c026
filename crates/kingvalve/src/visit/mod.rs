//! The record of one visit.
