//! Benches of what someone waits for.
fn main() {}
