//! Checks of the electrical room.

mod capacitor;
mod circuit;
mod motor;
mod part;
mod supply;

// In the order of the work: the capacitor, the motor, the supply, the circuit.
checks![
    capacitor::UnderLoad,
    part::OnBench,
    part::Together,
    part::Dual,
    part::Shelf,
    part::Charged,
    motor::Compressor,
    motor::Winding,
    motor::Factor,
    supply::Sagging,
    supply::Unbalanced,
    circuit::Sizes,
    circuit::Wire,
    circuit::Pole,
];
