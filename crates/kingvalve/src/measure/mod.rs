//! Instruments, readings, their doubt, and verdicts.
