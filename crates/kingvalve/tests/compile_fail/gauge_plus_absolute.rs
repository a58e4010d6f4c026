use kingvalve::quantity::{psia, psig};

fn main() {
    let _ = psig(62.0) + psia(14.7);
}
