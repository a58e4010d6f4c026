//! What is in the system, what is missing, what to add next.
