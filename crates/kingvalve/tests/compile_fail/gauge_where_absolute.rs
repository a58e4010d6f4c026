use kingvalve::quantity::{Pressure, Site, psig, psia};

fn main() {
    let _: Pressure = psig(62.0);
    let _ = Site::sea_level().absolute(psia(62.0));
    let _ = psig(62.0) < psia(14.7);
}
