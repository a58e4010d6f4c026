use kingvalve::quantity::fahrenheit;

fn main() {
    let _ = fahrenheit(57.0) + fahrenheit(41.0);
}
