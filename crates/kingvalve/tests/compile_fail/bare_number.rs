use kingvalve::quantity::{Site, psig};

fn main() {
    let _ = psig(62.0) + 5.0;
    let _ = Site::sea_level().absolute(62.0);
}
