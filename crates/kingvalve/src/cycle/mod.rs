//! What a running system shows: superheat, subcooling, targets.
